package meet

import (
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"

	_ "embed"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"sparetone/drills"
	"sparetone/theory/say"
)

// Term is a word of the trade, explained in one sentence.
type Term struct {
	ID     string       // such as third
	Means  say.Text     // one plain sentence
	Topic  drills.Topic // lets it be heard
	Before string       // step of the course at which whoever begins is taken to know it; "" if nobody is
	words  []string     // the forms in which it appears, spaced
}

//go:embed terms.toml
var termTable string

// terms are all the words of the trade, in the order of their table.
var terms = func() (out []Term) {
	var table struct {
		Term []struct {
			ID, Means, Of, Heard, Before string
			Words                        []string
		}
	}
	if err := toml.NewDecoder(strings.NewReader(termTable)).DisallowUnknownFields().Decode(&table); err != nil {
		panic("meet: terms.toml: " + err.Error())
	}
	for _, t := range table.Term {
		for i, w := range t.Words {
			t.Words[i] = say.Spaced(w)
		}
		out = append(out, Term{t.ID, say.Of("{}", say.Words(t.Means)), drills.Topic{Of: t.Of, ID: t.Heard}, t.Before, t.Words})
	}
	return out
}()

// Terms lists the words of the trade that some texts use, in the order of their table.
func Terms(in ...say.Text) []Term {
	var spoken strings.Builder
	for _, text := range in {
		spoken.WriteString(text.Spaced())
	}
	all := spoken.String()
	return slices.DeleteFunc(slices.Clone(terms), func(t Term) bool {
		return !slices.ContainsFunc(t.words, func(w string) bool { return strings.Contains(all, w) })
	})
}

// TermByID returns a word of the trade; false if there is no such one.
func TermByID(id string) (Term, bool) {
	i := slices.IndexFunc(terms, func(t Term) bool { return t.ID == id })
	if i < 0 {
		return Term{}, false
	}
	return terms[i], true
}

// Heard is how a term sounds on an instrument: the meeting of its topic in the first drill that can be heard and has it; nothing if
// there is none.
func (t Term) Heard(on *neck.Instrument) []Heard {
	for _, d := range catalogue.All() {
		if t.Topic == anotherBassTopic && AsksAnotherBass(d, on) {
			m, _ := anotherBass(d, on)
			return m.Heard
		}
		targets := d.Targets(on)
		at := slices.IndexFunc(targets, func(target drills.Target) bool { return target.Topic == t.Topic })
		if at < 0 {
			continue
		}
		if m, err := New(d, targets[at].ID, on); err == nil {
			return m.Heard
		}
	}
	return nil
}
