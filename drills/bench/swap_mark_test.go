package bench

import (
	"slices"
	"testing"

	"sparetone/theory/fret"
)

// What the bench says of a swap.
func TestGripMarks(t *testing.T) {
	for _, row := range []struct{ key, chord, becomes, says string }{
		{"F", "F", "Fadd4", "4 for the doubled third; rubs against A"},
		{"", "F", "Fadd4", "4 for the doubled third; rubs against A"},
		{"C", "C", "Cadd9", "9 for the doubled root; the 9 is the lowest note"},
		{"C", "C", "C7", "♭7 for the doubled root; not in C major"},
		{"", "C", "C7", "♭7 for the doubled root"},
		{"Am", "Am", "Am(maj7)", "7 for the doubled root; the raised seventh of A minor"},
		{"G", "F", "Fadd4", "4 for the doubled third; rubs against A, not in G major"},
		{"C", "C", "Csus4", "4 for 3: the third is gone"},
	} {
		g := gripped(t, "ukulele", row.key, row.chord)
		n := slices.IndexFunc(g.Swaps, func(s fret.Swap) bool { return s.Chord.Symbol() == row.becomes })
		if n < 0 {
			t.Errorf("%s does not become %s", row.chord, row.becomes)
		} else if got := g.SwapAdds(n).Screen(); got != row.says {
			t.Errorf("in %q, %s to %s: %q, want %q", row.key, row.chord, row.becomes, got, row.says)
		}
	}
}
