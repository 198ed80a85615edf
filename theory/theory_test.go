package theory_test

import (
	"cmp"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/read"
)

func notes(ns []theory.Note) string {
	words := make([]string, len(ns))
	for i, n := range ns {
		words[i] = n.String()
	}
	return strings.Join(words, " ")
}

func TestKeys(t *testing.T) {
	for typed, want := range map[string]string{
		"C":        "C D E F G A B",
		"F#":       "F♯ G♯ A♯ B C♯ D♯ E♯",
		"Cb major": "C♭ D♭ E♭ F♭ G♭ A♭ B♭",
		"Am":       "A B C D E F G",
		"Eb minor": "E♭ F G♭ A♭ B♭ C♭ D♭",
		"g# min":   "G♯ A♯ B C♯ D♯ E F♯",
	} {
		k, err := read.Key(typed)
		if err != nil {
			t.Errorf("%s: %v", typed, err)
		} else if got := notes(k.Notes()); got != want {
			t.Errorf("%s: %s, want %s", typed, got, want)
		}
	}
}

func TestTriadsOfAKey(t *testing.T) {
	k := theory.Key{Tonic: theory.Note{Letter: theory.G}}
	var got []string
	for _, c := range k.Triads() {
		got = append(got, k.Numeral(c)+" "+c.String())
	}
	want := "I G, ii Am, iii Bm, IV C, V D, vi Em, vii° F♯dim"
	if strings.Join(got, ", ") != want {
		t.Errorf("%s, want %s", strings.Join(got, ", "), want)
	}
}

func TestSeventhsOfAMinorKey(t *testing.T) {
	k := theory.Key{Tonic: theory.Note{Letter: theory.A}, Minor: true}
	var got []string
	for _, c := range k.Chords()[7:14] {
		got = append(got, k.Numeral(c)+" "+c.String())
	}
	want := "i7 Am7, iiø7 Bm7♭5, IIImaj7 Cmaj7, iv7 Dm7, v7 Em7, VImaj7 Fmaj7, VII7 G7"
	if strings.Join(got, ", ") != want {
		t.Errorf("%s, want %s", strings.Join(got, ", "), want)
	}
}

// The signatures of the keys go round the circle of fifths: each key has one more sharp, or one flat less, than the
// key a fifth below, and the notes that are altered come in the order F C G D A E B.
func TestSignatures(t *testing.T) {
	const order = "FCGDAEB"
	for _, minor := range []bool{false, true} {
		tonic, flats := theory.Note{Letter: theory.C, Alter: -1}, 7
		if minor {
			tonic = theory.Note{Letter: theory.A, Alter: -1}
		}
		for ; flats >= -7; flats-- {
			k := theory.Key{Tonic: tonic, Minor: minor}
			for _, n := range k.Notes() {
				at, want := strings.Index(order, n.Letter.String()), int8(0)
				if at < -flats {
					want = 1
				}
				if at >= 7-flats {
					want = -1
				}
				if n.Alter != want {
					t.Errorf("%s has %s", k, n)
				}
			}
			if got, err := read.Key(k.ASCII()); err != nil || got != k {
				t.Errorf("%s is read back as %s: %v", k.ASCII(), got, err)
			}
			chords := k.Chords()
			for i, c := range chords {
				for _, n := range c.Tones() {
					raised := i >= 14 && n == k.Tonic.Up(theory.MajorSeventh)
					if !k.Contains(n) && !raised {
						t.Errorf("%s: %s has %s", k, c, n)
					}
				}
			}
			if want := map[bool]int{false: 14, true: 18}[minor]; len(chords) != want {
				t.Errorf("%s has %d chords, want %d", k, len(chords), want)
			}
			tonic = tonic.Up(theory.PerfectFifth)
		}
	}
}

func TestNumerals(t *testing.T) {
	for _, row := range []struct{ key, chord, want, typed string }{
		{"C", "G7", "V7", ""}, {"C", "Bb", "♭VII", "bVII"}, {"C", "F#dim7", "♯iv°7", "#ivo7"}, {"C", "Bm7b5", "viiø7", "viim7b5"}, {"C", "E+", "III+", ""},
		{"C", "Fm6", "iv6", ""}, {"Am", "E7", "V7", ""}, {"Am", "G#dim7", "vii°7", "viio7"}, {"Am", "G", "VII", ""}, {"Am", "Bb", "♭II", "bII"}, {"Eb", "Abmaj7", "IVmaj7", ""},
		{"C", "Dm(maj7)", "ii(maj7)", ""}, {"C", "Csus4", "Isus4", ""}, {"C", "G7b9", "V7♭9", "V7b9"},
	} {
		if got := key(t, row.key).TypedNumeral(*parse(t, row.chord)); got != cmp.Or(row.typed, row.want) {
			t.Errorf("%s in %s is typed %s, want %s", row.chord, row.key, got, cmp.Or(row.typed, row.want))
		}
		if got := key(t, row.key).Numeral(*parse(t, row.chord)); got != row.want {
			t.Errorf("%s in %s is %s, want %s", row.chord, row.key, got, row.want)
		}
	}
}

func TestNotesOfTheKeyThatAChordTakesOn(t *testing.T) {
	for _, row := range []struct{ key, chord, want string }{
		{"C", "C", "D Cadd9, F Cadd4, A C6, B Cmaj7"},
		{"C", "F", "G Fadd9, B Fadd#11, D F6, E Fmaj7"},
		{"C", "G", "A Gadd9, C Gadd4, E G6, F G7"},
		{"C", "Em", "A Em(add4), D Em7"},
		{"C", "G7", "A G9, C G7add11, E G7add13"},
		{"Cm", "G7", "Ab G7b9, C G7add11, Eb G7b13"},
		{"G", "D", "E Dadd9, G Dadd4, B D6, C D7"},
		{"C", "Bdim", "A Bm7b5"},
	} {
		var got []string
		for _, a := range key(t, row.key).Additions(*parse(t, row.chord)) {
			got = append(got, a.Note.ASCII()+" "+a.Makes.Symbol())
		}
		if strings.Join(got, ", ") != row.want {
			t.Errorf("%s in %s takes on %s, want %s", row.chord, row.key, strings.Join(got, ", "), row.want)
		}
	}
}
