package meet

import (
	"testing"

	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// Of two shapes that one string tells apart it is said how it goes from one chord to the other, and of two shapes of one chord how they
// differ: "from B♭m to B♭m" says nothing.
func TestWhatOneStringChanges(t *testing.T) {
	on, err := fret.ParseTuning("ukulele")
	if err != nil {
		t.Fatal(err)
	}
	held := func(chord string, s fret.Shape) Heard {
		c, err := read.Chord(chord)
		if err != nil {
			t.Fatal(err)
		}
		v, err := fret.Voice(on, s, c)
		if err != nil {
			t.Fatal(err)
		}
		return Heard{Shape: &v}
	}
	for _, c := range []struct {
		a, b Heard
		want string
	}{
		{held("Dm", fret.Shape{2, 2, 1, 0}), held("D", fret.Shape{2, 2, 2, 0}), "From Dm to D only the E string moves: fret 1 to fret 2."},
		{held("F", fret.Shape{2, 0, 1, 0}), held("F", fret.Shape{2, 0, 1, 3}), "Only the A string differs: open and fret 3."},
	} {
		m := &Meeting{Heard: []Heard{c.a, c.b}}
		if got := m.Moved().Screen(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
