package theory_test

import (
	"testing"

	"sparetone/theory/read"
)

// What rubs against which tone of a chord (common practice, no source).
func TestRubs(t *testing.T) {
	for _, row := range []struct{ chord, note, against string }{
		{"G", "C", "M3"}, // the added fourth above the third
		{"G", "A", ""},   // the ninth
		{"G", "F#", ""},  // the major seventh lies below the root
		{"Am", "F", "P5"},
		{"Am", "D", ""},
		{"Bdim", "C", "P1"},
		{"E", "G", "M3"}, // the natural seventh of A minor beside the raised one
		{"E", "F", "P1"},
		{"C7(no3)", "F", ""}, // nothing sounds that it could rub against
		{"Cadd4", "F", "M3"},
		{"Csus4", "F", ""},
		{"Cmaj7", "C", "M7"}, // though C itself is one of its tones
		{"C7(no3)", "Ab", "P5"},
		{"C7", "B", "m7"},
		{"G#dim7", "Fx", ""}, // a whole tone above its F
		{"Gdim7", "F#", ""},
	} {
		c, err := read.Chord(row.chord)
		if err != nil {
			t.Fatal(err)
		}
		n, err := read.Note(row.note)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := c.Rubs(n)
		if ok != (row.against != "") || ok && got.String() != row.against {
			t.Errorf("%s on %s rubs against %s, %v; want %q", n, c, got, ok, row.against)
		}
	}
}

func TestHarmonicNotes(t *testing.T) {
	for typed, want := range map[string]string{"Am": "A B C D E F G#", "Bbm": "Bb C Db Eb F Gb A", "C": "C D E F G A B"} {
		var got string
		for i, n := range key(t, typed).HarmonicNotes() {
			got += []string{"", " "}[min(i, 1)] + n.ASCII()
		}
		if got != want {
			t.Errorf("%s has %s, want %s", typed, got, want)
		}
	}
}
