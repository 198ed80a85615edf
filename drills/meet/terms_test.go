package meet

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/theory/say"
)

func idsOf(terms []Term) (ids []string) {
	for _, t := range terms {
		ids = append(ids, t.ID)
	}
	return ids
}

// Every term has a sentence of its own, and sounds on every instrument on which its topic is taught.
func TestTermsMeanAndSound(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range []string{"ukulele", "baritone", "guitar"} {
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		for _, term := range terms {
			if term.Means.IsZero() || len(term.words) == 0 {
				t.Errorf("%s is not explained", term.ID)
			}
			if taught := term.Topic != anotherBassTopic || on.Turns(); taught != (len(term.Heard(on)) > 0) {
				t.Errorf("%s: %v is heard on %s: %v", term.ID, term.Topic, name, !taught)
			}
			if by, ok := TermByID(term.ID); !ok || !by.Means.Equal(term.Means) {
				t.Errorf("%s is another term", term.ID)
			}
			if name == instruments[0] && seen[term.ID] {
				t.Errorf("%s is there twice", term.ID)
			}
			seen[term.ID] = true
		}
	}
	if _, ok := TermByID("none"); ok {
		t.Error("what is no term was found")
	}
}

// Terms are found in the texts that use them, as they are said.
func TestTermsInTexts(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	d, _ := catalogue.ByID("shape-tones")
	q, err := d.Ask(drills.Request{Target: "major", On: on, Rand: drills.QuestionRand("shape-tones", "major", 1)})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct {
		in  []say.Text
		ids []string
	}{
		{[]say.Text{say.Of("The third is doubled."), say.Of("It is a chord.")}, []string{"chord", "third", "doubled"}},
		{[]say.Text{say.Of("The second of them.")}, nil},
		{[]say.Text{say.Of("A major second.")}, []string{"second", "major"}},
		{q.Solution().Lines, []string{"root", "third", "fifth", "major"}},
	} {
		if got := idsOf(Terms(want.in...)); !slices.Equal(got, want.ids) {
			t.Errorf("%v uses %v, want %v", want.in, got, want.ids)
		}
	}
}

// What is said of a term uses no term that the table explains only further on, but for those that it says in passing.
func TestTermsRestOnEarlierOnes(t *testing.T) {
	for i, term := range terms {
		for _, used := range Terms(term.Means) {
			at := slices.IndexFunc(terms, func(t Term) bool { return t.ID == used.ID })
			if at > i && !slices.Contains(inPassing[term.ID], used.ID) {
				t.Errorf("%s is explained by %s, which comes later", term.ID, used.ID)
			}
		}
	}
}

// inPassing are terms that an explanation names though they come later, for the reader who knows them.
var inPassing = map[string][]string{
	"perfect": {},
}
