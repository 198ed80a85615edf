package tui

import (
	"strings"
	"testing"
	"time"

	"sparetone/tui/page"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
)

// esc, however often, ends no practice: it asks first, and asks no question anew. q ends it.
func TestEscEndsNoPracticeUnasked(t *testing.T) {
	for _, id := range []string{"chord-ear", "spell", "build", "shape-tones"} {
		a := sized(asked(t, id), 80, 24)
		q := a.place.(*asking.Question)
		for n := range 7 {
			keyed(a, "esc")
			switch a.place.(type) {
			case *asking.Stopping:
				if text := plainText(drawn(a)); !strings.Contains(text, "End this practice here?") || !strings.Contains(text, "q end it") {
					t.Errorf("%s: after %d times esc\n%s", id, n+1, text)
				}
			case *asking.Question:
				if a.place != page.Place(q) {
					t.Errorf("%s: after %d times esc another question is asked", id, n+1)
				}
			default:
				t.Fatalf("%s: after %d times esc %T shows", id, n+1, a.place)
			}
		}
	}
	a := revealed(t, "chord-ear", false)
	if keyed(a, "esc", "esc"); a.away {
		t.Error("esc twice ends the program after an answer")
	}
	if _, back := a.place.(*asking.Reveal); !back {
		t.Errorf("esc twice leads from an answer to %T", a.place)
	}
	if _, ends := keyed(a, "esc", "q").place.(*home.Ending); !ends {
		t.Errorf("esc and q lead to %T", a.place)
	}
	if _, ends := keyed(asked(t, "chord-ear"), "q").place.(*home.Ending); !ends {
		t.Error("q does not end the practice")
	}
}

// While it is asked the clocks stand still.
func TestClocksStandWhileItIsAsked(t *testing.T) {
	p, c := practiceOf(t, true)
	a := keyed(newApp(p), "enter")
	left := a.Session.Left()
	keyed(a, "esc")
	c.at = c.at.Add(time.Hour)
	if keyed(a, "enter"); a.Session.Left() != left {
		t.Errorf("%v were left, %v are", left, a.Session.Left())
	}
	c.at = c.at.Add(3 * time.Second)
	answered(a, c, true)
	_, kept := keptIn(t, a.File())
	if len(kept) != 1 || kept[0].TookMS != 8000 {
		t.Errorf("kept is %+v", kept)
	}
}
