package neck

import (
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// G7 0212 on a ukulele goes to C 0003 as a reader can follow: B on the third string rises to C, and F on the second
// falls to E. Where more than one shape would do, the one that moves least is shown.
func TestResolvingMovesLeast(t *testing.T) {
	on, err := NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct{ from, chord, to string }{
		{"0212", "G7", "0003"},
		{"0013", "Csus4", "0003"},
		{"0230", "Gsus2", "0232"},
	} {
		c, err := read.Chord(row.chord)
		if err != nil {
			t.Fatal(err)
		}
		s, err := fret.ParseShape(row.from)
		if err != nil {
			t.Fatal(err)
		}
		v, err := fret.Voice(on.Tuning, s, c)
		if err != nil {
			t.Fatal(err)
		}
		r, _ := theory.ResolutionOf(c.Kind)
		if to, ok := on.leadsTo(r, v); !ok || to.Shape.String() != row.to {
			t.Errorf("%s %s goes to %s, want %s", row.chord, row.from, to.Shape, row.to)
		}
	}
}
