package page

import (
	"testing"

	"sparetone/drills/played"
	"sparetone/theory/say"
)

// plucking is an attempt of which one thing comes, whatever is heard.
type plucking struct{ came played.Came }

func (plucking) Listens() played.Listening       { return played.Listening{} }
func (plucking) Asks() say.Text                  { return say.Of("Pluck strings 4, 3, 2, 1.") }
func (p plucking) Take(played.Heard) played.Came { return p.came }

// While strings are plucked, which ones stay on the screen beside how many were; a word that asks for more ends with what is asked, and any
// other stands alone.
func TestWhatIsToBePluckedStaysInSight(t *testing.T) {
	for want, came := range map[string]played.Came{
		"Pluck strings 4, 3, 2, 1. Plucked: 2 of 4.": {Says: say.Of("Plucked: 2 of 4."), Seen: true},
		"Not sure. Pluck strings 4, 3, 2, 1.":        {Says: say.Of("Not sure."), Again: true},
		"That is it.":                                {Says: say.Of("That is it.")},
		"Pluck strings 4, 3, 2, 1.":                  {},
	} {
		a := &Attempt{Attempt: plucking{came}}
		a.took(played.Heard{})
		if got := a.LastWord().Screen(); got != want {
			t.Errorf("it shows %q, not %q", got, want)
		}
	}
}

// What is said of one pluck of many is not said aloud into the next.
func TestAWordIsNotSaidIntoThePlucks(t *testing.T) {
	if n := WordOn(played.Came{Says: say.Of("Plucked: 1 of 4."), Seen: true}); !n.Said.IsZero() {
		t.Errorf("it says %q into the plucks", n.Said.Aloud())
	}
	if n := WordOn(played.Came{Says: say.Of("Not sure.")}); n.Said.Screen() != "Not sure." || !n.OnlyInLines {
		t.Errorf("a word is %+v", n)
	}
}
