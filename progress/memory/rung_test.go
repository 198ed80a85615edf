package memory

import (
	"strings"
	"testing"

	"sparetone/progress"
)

// Each answer moves the rung on which a thing is asked: r right and w wrong on the rung it has reached, h right after it was opened up,
// p partly right; a digit says that it was asked on that rung instead.
func TestRungsAreClimbed(t *testing.T) {
	for _, c := range []struct {
		choices int
		answers string
		rungs   string // after each
	}{
		{0, "r r r", "2 3 4"},
		{4, "r r r", "2 3 4"}, // one in four is luck enough
		{3, "r r r r", "1 2 2 3"},
		{2, "r r r r", "1 2 2 3"},
		{5, "r r w r r r r r", "2 3 2 2 2 2 3 3"}, // after a miss it takes four
		{5, "r w w", "2 1 1"},
		{5, "r r p", "2 3 2"},
		{5, "w r r r w r r r r", "1 1 1 1 1 1 1 1 2"}, // in a row
		{5, "h h r", "1 1 2"},
		{5, "r r 1r 1r 1r", "2 3 3 3 3"}, // what is asked more clearly tells nothing new
		{5, "3r", "4"},                   // and more closely, that much
		{5, "r r 1w", "2 3 1"},
		{5, "r 4w", "2 2"}, // a miss beyond what was reached is none of it
		{5, "r 3w", "2 2"},
	} {
		d := NewDerived(DefaultWeights)
		answers, want := strings.Fields(c.answers), strings.Fields(c.rungs)
		for n, says := range answers {
			a := progress.Answer{Item: "d/t/u", Drill: "d", Choices: c.choices, Rung: d.RungOf("d/t/u"), Result: progress.Right}
			if len(says) == 2 {
				a.Rung, says = int(says[0]-'0'), says[1:]
			}
			switch says {
			case "w":
				a.Result = progress.Wrong
			case "p":
				a.Result = progress.Partly
			case "h":
				a.Hints = 1
			}
			d.Add(a, 20000)
			if got := d.RungOf("d/t/u"); got != int(want[n][0]-'0') {
				t.Errorf("of %d choices, %s: after %d answers on rung %d, want %s", c.choices, c.answers, n+1, got, want[n])
				break
			}
		}
	}
}

// An answer of which nobody knows how closely it was asked counts for the rung that was reached.
func TestAnswersWithoutARung(t *testing.T) {
	d := NewDerived(DefaultWeights)
	if d.RungOf("d/t/u") != FirstRung {
		t.Error("what is new is not on the first rung")
	}
	for _, want := range []int{2, 3} {
		d.Add(progress.Answer{Item: "d/t/u", Drill: "d", Result: progress.Right}, 20000)
		if got := d.RungOf("d/t/u"); got != want {
			t.Errorf("on rung %d, want %d", got, want)
		}
	}
	d.Add(progress.Answer{Item: "d/t/u", Drill: "d", Result: progress.Wrong}, 20000)
	if got := d.RungOf("d/t/u"); got != 2 {
		t.Errorf("after a miss on rung %d", got)
	}
}
