package arrange

import (
	"slices"
	"testing"

	"sparetone/theory"
)

// What a colour trades, and what should be known of it.
func TestColoursInWords(t *testing.T) {
	uke := tuning(t, "ukulele")
	for _, row := range []struct{ of, key, plain, next, colour, trade, marks string }{
		{"F", "C", "2010", "0010", "0010", "9 for the doubled third", "stays in the next chord"},
		{"F", "C", "2010", "2010", "0010", "9 for the doubled third", "goes on by a step"},
		{"D", "D", "2220", "xxx7", "0220", "4 for the doubled fifth", "rubs against F♯"},
		{"C", "C", "0003", "xxx9", "0001", "♭7 for the doubled root", "not of the key"},
		{"C", "C", "0003", "x7xx", "0005", "9 for the doubled root", "harder to hold"},
		{"G7", "C", "0212", "xxx9", "0012", "11 for 5: the fifth is gone", "rubs against B"},
	} {
		all := Colours(uke, chord(t, row.of), key(t, row.key), shape(t, row.plain), shape(t, row.next))
		at := slices.IndexFunc(all, func(c Colour) bool { return c.Shape.String() == row.colour })
		if at < 0 {
			t.Errorf("%s is not among\n%s", row.colour, list(all))
			continue
		}
		if trade, marks := all[at].Trade().Screen(), all[at].Marks().Screen(); trade != row.trade || marks != row.marks {
			t.Errorf("%s: %q, %q, want %q, %q", row.colour, trade, marks, row.trade, row.marks)
		}
	}
}

// A colour that is made from another shape than the plain one that stands beside it says from which.
func TestTradesOfOtherShapes(t *testing.T) {
	c := Colour{From: shape(t, "0402"), Shape: shape(t, "0202"), Adds: theory.MinorSeventh, GivesUp: theory.Unison}
	for plain, want := range map[string]string{"0402": "♭7 for the doubled root", "0432": "♭7 for the doubled root of 0402"} {
		if got := c.TradeOf(shape(t, plain)).Screen(); got != want {
			t.Errorf("beside %s: %q, want %q", plain, got, want)
		}
	}
}

// A thread is a string that keeps one note; each of its shapes has it, and together they ask as much as is said.
func TestThreads(t *testing.T) {
	a := arrangeChart(t, "| C | G | Am | F |", Wishes{})
	if len(a.Threads) == 0 {
		t.Fatal("no thread")
	}
	if got, want := a.Threads[0].Said(a.Tuning).Screen(), "g string open: G is 5 in C, R in G, ♭7 in Am, 9 in F"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	found := false
	for n, th := range a.Threads {
		sum := 0.0
		for _, k := range th.In {
			i := len(a.Tuning.Strings) - th.String
			if k.Shape[i] != th.Fret || k.Of.Root.Up(k.Tone).Class() != th.Note.Class() {
				t.Errorf("%+v is not of the thread %d", k, n)
			}
			sum += k.Effort
		}
		if sum-th.Effort > 1e-9 || th.Effort-sum > 1e-9 || n > 0 && th.Effort < a.Threads[n-1].Effort {
			t.Errorf("thread %d asks %g, and %g is said", n, sum, th.Effort)
		}
		if th.Fret > 0 && !found {
			found = true
			if got := th.Said(a.Tuning).Screen(); got != "A string at fret 2: B is 7 in C, 3 in G, 9 in Am, ♯11 in F" {
				t.Error(got)
			}
		}
	}
	if alone := arrangeChart(t, "| C | C |", Wishes{}); alone.Threads != nil {
		t.Error("a chord alone has no thread")
	}
}
