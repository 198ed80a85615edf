package lines

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// list is lines to pick one from.
type list struct {
	lines []listed
	most  int    // how many are said at first, and more says the rest; 0 is all
	does  string // says what picking one does
	other func(word string) (done bool, err error)
}

// listed is one of them: what is said, and by what names it can be picked beside its number.
type listed struct {
	text  say.Text
	names []string
}

// pick says the lines and waits for one to be picked, or an empty line to go back; other words are handed on. It
// returns the number from 0, or -1.
func (t *plain) pick(l list) (int, error) {
	said := len(l.lines)
	if l.most > 0 {
		said = min(said, l.most)
	}
	t.tellListed(l, 0, said)
	does := l.does + " An empty line goes back."
	if rest := len(l.lines) - said; rest > 0 {
		does = fmt.Sprintf("%s more says the other %d. An empty line goes back.", l.does, rest)
	}
	t.say(does)
	for {
		line, err := t.next(does)
		switch {
		case err != nil:
			return -1, err
		case line == "":
			return -1, nil
		case strings.EqualFold(line, "more") && said < len(l.lines):
			t.tellListed(l, said, len(l.lines))
			said = len(l.lines)
			does = l.does + " An empty line goes back."
			continue
		}
		if i := l.named(line); i >= 0 {
			return i, nil
		}
		if l.other != nil {
			if done, err := l.other(line); done || err != nil {
				return -1, err
			}
		}
		t.say(nothingHere(line) + " " + does)
	}
}

func (t *plain) tellListed(l list, from, to int) {
	for i := from; i < to; i++ {
		t.tell(numbered(i, l.lines[i].text))
	}
}

// numbered is a line after its number, which is counted from 1.
func numbered(i int, text say.Text) say.Text { return say.Of("{}: {}", say.Number(i+1), text) }

// named is the line that was typed by its number or one of its names, whatever the case and with spaces for hyphens;
// -1 if there is none.
func (l list) named(typed string) int {
	if n, err := strconv.Atoi(typed); err == nil && n >= 1 && n <= len(l.lines) {
		return n - 1
	}
	plain := func(s string) string { return strings.ToLower(strings.ReplaceAll(s, "-", " ")) }
	return slices.IndexFunc(l.lines, func(one listed) bool {
		return slices.ContainsFunc(one.names, func(name string) bool { return plain(name) == plain(typed) })
	})
}

// oneDrill practises one drill.
func (t *plain) oneDrill() error {
	l := list{does: "Type the number or the name of the drill to practise."}
	for _, d := range drills.All() {
		about := d.About()
		l.lines = append(l.lines, listed{say.Of("{} ({})", say.Words(about.Title), say.Words(about.ID)), []string{about.ID, about.Title}})
	}
	i, err := t.pick(l)
	if i < 0 || err != nil {
		return err
	}
	return t.start(practice.OneDrill(drills.All()[i]))
}

// course practises one step of the course.
func (t *plain) course() error {
	l := list{does: "Type the number of a step to practise it."}
	t.say("The steps of the course, in order:")
	steps := t.Setup.Course
	for _, s := range steps {
		title := s.Name()
		l.lines = append(l.lines, listed{say.Of("{}, {}", say.Foreign(title), say.Words(cmp.Or(t.BegunOf(s), "new"))), []string{s.ID, title}})
	}
	i, err := t.pick(l)
	if i < 0 || err != nil {
		return err
	}
	return t.start(practice.OneStep(steps[i]))
}

// mostPairs is how many pairs are said of what is mistaken, the worst ones.
const mostPairs = 10

// weak says what is mistaken for what, the most frequent first, and practises a pair of it, or all.
func (t *plain) weak() error {
	mixed, err := practice.MixedUp(&t.App)
	if err != nil {
		t.wrong(err)
		return nil
	}
	type pair struct {
		times int
		told  say.Text
		way   practice.Way
	}
	var pairs []pair
	for _, m := range mixed {
		for r := range m.Items {
			for c := range m.Items {
				if n := m.Times(r, c); n > 0 {
					pairs = append(pairs, pair{n, say.Of("{}. {}", say.Words(m.Drill.About().Title), m.Told(r, c)[0]), m.Between(r, c)})
				}
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int { return b.times - a.times })
	all, nothing := t.WeakWay()
	l := list{most: mostPairs, does: "Type a number to practise that pair, or all to practise all that is weak."}
	switch {
	case len(pairs) == 0 && nothing != nil:
		t.say("Nothing was mistaken for anything in the last eight weeks.")
		return nil
	case len(pairs) == 0:
		l.does = "Nothing was mistaken for anything in the last eight weeks, but something is weak. Type all to practise it."
	case nothing != nil:
		l.does = "Type a number to practise that pair."
	}
	for _, p := range pairs {
		l.lines = append(l.lines, listed{text: p.told})
	}
	if nothing == nil {
		l.other = func(word string) (bool, error) {
			if !strings.EqualFold(word, "all") {
				return false, nil
			}
			return true, t.start(all)
		}
	}
	i, err := t.pick(l)
	if i < 0 || err != nil {
		return err
	}
	return t.start(pairs[i].way)
}
