package shapes

import (
	"slices"
	"testing"

	"sparetone/drills/trial"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// readChord reads a chord as it is typed.
func readChord(t testing.TB, symbol string) theory.Chord {
	t.Helper()
	c, err := read.Chord(symbol)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// A shape that was not asked for is called by a name that a player would say, or its notes are told.
func TestWhatAShapeIsCalled(t *testing.T) {
	for _, row := range []struct{ tuning, asked, shape, want string }{
		{"ukulele", "F", "1355", "1355 sounds A♭, E♭, A and D."}, // not F13♯9 without its root
		{"ukulele", "C", "0000", "0000 is Am7, minor seventh."},
		{"ukulele", "C", "0201", "0201 is Gm6, minor sixth."},
		{"ukulele", "C", "3203", "3203 is C9."}, // its fifth is left out
		{"ukulele", "G", "0020", "0020 sounds G, C, F♯ and A."},
		{"ukulele", "C", "00xx", "00xx is C5."},
		{"ukulele", "C", "0xxx", "0xxx sounds G."},
		{"ukulele", "C", "x00x", "x00x sounds C and E."}, // two tones are no triad
		{"ukulele", "C", "0031", "0031 sounds G, C and B♭."},
		{"guitar", "A", "x02100", "x02100 is E/A."},
		{"guitar", "D", "xx0210", "xx0210 is Am/D."},
		{"guitar", "G", "1x0003", "1x0003 is G7/F."},
		{"guitar", "A", "x34440", "x34440 sounds C, F♯, B, D♯ and E."},
	} {
		on := trial.Instrument(t, row.tuning)
		s, err := fret.ParseShape(row.shape)
		if err != nil {
			t.Fatal(err)
		}
		v, err := fret.Voice(on.Tuning, s, readChord(t, row.asked))
		if err != nil {
			t.Fatal(err)
		}
		if got := called(v).Screen(); got != row.want {
			t.Errorf("%s on %s, asked for %s: %q, want %q", row.shape, row.tuning, row.asked, got, row.want)
		}
	}
}

// Whatever is called by a name sounds its root and all its tones but a fifth, and is of a kind that players know.
func TestNothingFarFetchedIsCalled(t *testing.T) {
	for _, symbol := range []string{"F13#9", "Gmaj13", "C7#5b9", "Cadd9add4", "Fmaj9sus4", "C7(no3)", "C(no5)", "C7/D", "Cm7b5b9", "C9(no1)"} {
		if callable(readChord(t, symbol)) {
			t.Errorf("a shape is called %s", symbol)
		}
	}
	for _, symbol := range []string{"C", "Cm7b5", "C9(no5)", "C7(no5)", "C13", "Cm11", "Cadd4", "C9sus4", "Cmaj7#11(no5)", "G/B", "E/A", "C7/E"} {
		if !callable(readChord(t, symbol)) {
			t.Errorf("no shape is called %s", symbol)
		}
	}
	if !slices.ContainsFunc(theory.Kinds(), func(k *theory.Kind) bool { return k.ID == rarestCalled }) {
		t.Errorf("no kind is %q", rarestCalled)
	}
}
