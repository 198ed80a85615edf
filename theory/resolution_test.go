package theory_test

import (
	"fmt"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/read"
)

// What the tones of a chord do that want to move on (common practice, no source).
func TestResolutions(t *testing.T) {
	for symbol, want := range map[string]string{
		"Csus4": "C: F falls to E",
		"Csus2": "C: D rises to E",
		"G7":    "C: B rises to C, F falls to E",
		"G9":    "C: B rises to C, F falls to E, A falls to G",
		"Bdim":  "C: B rises to C, F falls to E",
		"Bdim7": "Cm: B rises to C, F falls to E♭, A♭ falls to G",
	} {
		c, err := read.Chord(symbol)
		if err != nil {
			t.Fatal(err)
		}
		r, ok := theory.ResolutionOf(c.Kind)
		if !ok {
			t.Errorf("%s does not move on", symbol)
			continue
		}
		goal := r.Goal(c.Root)
		var moves []string
		for _, l := range r.Leads {
			word := "falls"
			if r.Step(l) > 0 {
				word = "rises"
			}
			if step := r.Step(l); step == 0 || step > 2 || step < -2 {
				t.Errorf("%s: %s moves by %d semitones", symbol, l.From, step)
			}
			moves = append(moves, fmt.Sprintf("%s %s to %s", c.Root.Up(l.From), word, goal.Root.Up(l.To)))
		}
		if got := goal.String() + ": " + strings.Join(moves, ", "); got != want {
			t.Errorf("%s goes to %s, want %s", symbol, got, want)
		}
	}
	if _, ok := theory.ResolutionOf(theory.Kinds()[0]); ok {
		t.Error("a major chord moves on")
	}
}
