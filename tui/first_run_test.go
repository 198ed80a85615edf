package tui

import (
	"strings"
	"testing"

	"sparetone/tui/page/home"
)

// In the first run the key of a line marks it, and enter takes it: whoever presses both passes over no page unseen, and answers no
// question that was not read. A key alone says how it goes on.
func TestKeyOfALineMarksIt(t *testing.T) {
	p, _ := practiceOf(t, false)
	p.New = true
	a := newApp(p)
	for step, key := range []string{"5", "2"} {
		keyed(a, key)
		w, ok := a.place.(*home.Welcome)
		if !ok || w.Step != step {
			t.Fatalf("after %s alone there is %T at step %d, not %d", key, a.place, w.Step, step)
		}
		if got := a.said.Screen(); !strings.HasPrefix(got, "Marked: ") {
			t.Errorf("after %s it says %q", key, got)
		}
		keyed(a, "enter")
		if w.Step != step+1 {
			t.Fatalf("after %s and enter there is step %d", key, w.Step)
		}
	}
	if a.Settings.Tuning != "guitar" || !a.Settings.Left {
		t.Errorf("%s is played, with the left hand: %v", a.Settings.Tuning, a.Settings.Left)
	}
}
