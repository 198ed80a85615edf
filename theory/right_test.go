package theory_test

import (
	"testing"

	"sparetone/theory"
)

// A name of which a tone is left out is right only where nothing plainer sounds whole.
func TestRightNames(t *testing.T) {
	for sound, want := range map[string]string{
		"F♯ A C♯":  "F#m",
		"A C♯ D E": "Aadd4 Dmaj7sus2",
		"A C E":    "Am",
		"C E G D":  "Cadd9 G6sus4",
		"C E B♭ D": "C9(no5) Bbadd9add#11(no5)", // nothing whole has these notes
		"C E B♭":   "C7(no5)",
		"A C E G":  "Am7 C6",
		"G C D":    "Gsus4 Csus2",
		"E B D":    "Bm(add4)(no5)", // and E7(no3), which is no E7
		"E G B♭ D": "Em7b5 Gm6 Bb6b5",
		"C E":      "C(no5)",
		"D♭ F G C": "Dbmaj7b5", // which is whole, and no D♭maj7♯11 without its fifth
	} {
		names := theory.RightNames(pitches(t, sound))
		got := symbols(names)
		if got != want {
			t.Errorf("%s is rightly called %q, want %q", sound, got, want)
		}
	}
}

// What may stand for a chord that was asked for.
func TestServes(t *testing.T) {
	for _, row := range []struct {
		chord, sound string
		want         bool
	}{
		{"C6", "C E G A", true},
		{"C6", "A C E", false},   // Am
		{"Cm6", "C E♭ A", false}, // Adim
		{"C7", "C E B♭", true},   // the fifth may go
		{"C7", "C G B♭", false},  // the third may not
		{"C7", "C E G", false},
		{"C7", "C E G B♭ D", false},
		{"C7(no3)", "C G B♭", true},
		{"C9", "E G B♭ D", true}, // the root may go from a chord of five tones
		{"C9", "C E G D", false},
		{"Cmaj7", "E G B", false}, // Em
		{"C7sus4", "C F B♭", false},
		{"Cadd9", "C E D", true},
		{"C", "C E G", true},
		{"C/E", "G C E", true}, // whatever the bass
		{"Dadd9", "D F♯ A E", true},
	} {
		if got := theory.Serves(pitches(t, row.sound), *parse(t, row.chord)); got != row.want {
			t.Errorf("%s stands for %s: %v, want %v", row.sound, row.chord, got, row.want)
		}
	}
}

// What may not be left out is said where it is.
func TestWhatIsLeftOutIsSaid(t *testing.T) {
	for typed, want := range map[string]string{"C7(no3)": "C7(no3)", "C9(no5)": "C9", "Bbmaj7(no3)/F": "B♭maj7(no3)/F", "C6(no5)": "C6(no5)"} {
		if got := parse(t, typed).String(); got != want {
			t.Errorf("%s is printed %s, want %s", typed, got, want)
		}
	}
}
