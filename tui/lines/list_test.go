package lines

import (
	"context"
	"strings"
	"testing"

	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/say"
)

// A long list is said in two parts, and what is in the second can be picked before it was said.
func TestListsSayMore(t *testing.T) {
	l := list{most: 10, does: "Type a number."}
	for n := range 13 {
		l.lines = append(l.lines, listed{text: say.Of("thing {}", say.Number(n))})
	}
	out := &strings.Builder{}
	r := &plain{App: practice.App{Speaker: synth.NoSpeaker(synth.StartVolume)}, ctx: context.Background(), out: out, lines: make(chan string, 3)}
	for _, line := range []string{"more", "more", "13"} {
		r.lines <- line
	}
	if got, err := r.pick(l); got != 12 || err != nil {
		t.Errorf("picked %d, %v", got, err)
	}
	for _, want := range []string{"10: thing 9\nType a number. more says the other 3.", "11: thing 10", `"more" means nothing here`} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not said in\n%s", want, out)
		}
	}
}
