package read_test

import (
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/read"
)

// Whatever is written, printed, typed or said, is read back to the same note.
func TestNotesAreReadBack(t *testing.T) {
	for l := theory.C; l <= theory.B; l++ {
		for alter := int8(-3); alter <= 3; alter++ {
			n := theory.Note{Letter: l, Alter: alter}
			for _, text := range []string{n.String(), n.ASCII(), theory.Spoken(n), strings.ToLower(n.ASCII()), " " + n.String() + " "} {
				if got, err := read.Note(text); err != nil || got != n {
					t.Errorf("%q is read as %s, %v; want %s", text, got, err, n)
				}
			}
			if got, err := theory.ParseNote(n.ASCII()); err != nil || got != n {
				t.Errorf("%s is parsed as %s, %v", n.ASCII(), got, err)
			}
		}
	}
}

// A double sharp is written in one way, and read in all.
func TestDoubleSharps(t *testing.T) {
	f := theory.Note{Letter: theory.F, Alter: 2}
	if f.String() != "Fx" || f.ASCII() != "Fx" || theory.Spoken(f) != "F double sharp" {
		t.Errorf("%s, %s, %s", f, f.ASCII(), theory.Spoken(f))
	}
	for _, text := range []string{"Fx", "F##", "F♯♯", "F𝄪", "F double sharp", "F sharp sharp", "Fisis", "fa doppio diesis", "F#♯"} {
		if got, err := read.Note(text); err != nil || got != f {
			t.Errorf("%q is read as %s, %v", text, got, err)
		}
		if c, err := read.Chord(text + " minor"); err != nil || c.Root != f || c.Kind.ID != "minor" {
			t.Errorf("%q with minor is read as %s, %v", text, c.Root, err)
		}
	}
}

func TestKeysAreReadBack(t *testing.T) {
	for _, minor := range []bool{false, true} {
		for l := theory.C; l <= theory.B; l++ {
			for alter := int8(-1); alter <= 1; alter++ {
				k := theory.Key{Tonic: theory.Note{Letter: l, Alter: alter}, Minor: minor}
				if s := k.Signature(); s < -7 || s > 7 {
					continue
				}
				mode := map[bool]string{false: " major", true: " minor"}[minor]
				for _, text := range []string{k.String(), k.ASCII(), theory.Spoken(k.Tonic) + mode, k.Tonic.ASCII() + map[bool]string{true: "m"}[minor]} {
					if got, err := read.Key(text); err != nil || got != k {
						t.Errorf("%q is read as %s, %v", text, got, err)
					}
				}
			}
		}
	}
}

// Every interval and every tone that chords have is read back from its short name, its name in words and its degree.
func TestIntervalsAreReadBack(t *testing.T) {
	for _, k := range theory.Kinds() {
		for _, i := range k.Formula {
			for _, text := range []string{i.String(), i.Name(), "the " + i.Name()} {
				if got, err := read.Interval(text); err != nil || got != i {
					t.Errorf("%q is read as %s, %v; want %s", text, got, err, i)
				}
			}
			for _, text := range []string{i.Degree(), i.DegreeASCII(), i.String()} {
				if got, err := read.Degree(text); err != nil || got != i {
					t.Errorf("%q is read as the tone %s, %v; want %s", text, got, err, i)
				}
			}
		}
	}
	twice := theory.Interval{Number: 4, Semitones: 7}
	if got, err := read.Degree(twice.Degree()); err != nil || got != twice || twice.Degree() != "x4" {
		t.Errorf("%s is read as %s, %v", twice.Degree(), got, err)
	}
}

func TestIntervalsInManyWords(t *testing.T) {
	for text, want := range map[string]string{
		"m3": "m3", "M3": "M3", "min 3rd": "m3", "maj. third": "M3", "Minor Third": "m3", "b3": "m3", "♭3": "m3", "flat third": "m3",
		"tritone": "A4", "+4": "A4", "#4": "A4", "aug 4th": "A4", "dim 5th": "d5", "o5": "d5", "bb7": "d7", "fifth": "P5", "5th": "P5",
		"whole step": "M2", "semitone": "m2", "the octave": "P8", "8ve": "P8", "an octave": "P8", "double octave": "P15", "##4": "AA4",
	} {
		i, err := read.Interval(text)
		if want == "AA4" { // twice altered is a tone, and no name of an interval
			i, err = read.Degree(text)
		}
		if err != nil || i.String() != want {
			t.Errorf("%q is read as %s, %v; want %s", text, i, err, want)
		}
	}
	for _, text := range []string{"", "third", "-3", "+x", "7", "0003", "P3", "m5", "x", "\x1b[31m"} {
		if i, err := read.Interval(text); err == nil {
			t.Errorf("%q is read as %s", text, i)
		} else if strings.ContainsFunc(err.Error(), theory.Moves) {
			t.Errorf("%q is repeated in %q", text, err)
		}
	}
	for text, want := range map[string]string{"R": "P1", "root": "P1", "1": "P1", "3": "M3", "third": "M3", "b7": "m7", "9": "M9", "the fifth": "P5"} {
		if i, err := read.Degree(text); err != nil || i.String() != want {
			t.Errorf("%q is read as the tone %s, %v; want %s", text, i, err, want)
		}
	}
}

// Every kind is read back from its symbols, its name and its id.
func TestKindsAreReadBack(t *testing.T) {
	for _, k := range theory.Kinds() {
		for _, text := range append([]string{k.Name, k.ID, "a " + k.Name + " chord", strings.ToUpper(k.Name)}, k.Symbols...) {
			if text == "" {
				continue // nothing is no kind
			}
			if got, ok := read.Kind(text); !ok || got != k {
				t.Errorf("%q is read as %v; want %s", text, got, k.ID)
			}
		}
	}
	for _, text := range []string{"", "purple", "7(no5)", "-+7", "4-"} {
		if got, ok := read.Kind(text); ok {
			t.Errorf("%q is read as %s", text, got.ID)
		}
	}
}

// What was typed is repeated in one clean line, however long it is and whatever it holds.
func TestQuotesAreCleanAndShort(t *testing.T) {
	for text, want := range map[string]string{
		"C7":                    "C7",
		"C\x1b[31m7":            "C[31m7",
		"\u202eC7":              "C7",
		"C\n7":                  "C 7",
		strings.Repeat("x", 32): strings.Repeat("x", 32),
		strings.Repeat("ß", 33): strings.Repeat("ß", 31) + "…",
	} {
		if got := theory.Clip(text); got != want {
			t.Errorf("%q is repeated as %q, want %q", text, got, want)
		}
	}
}

func TestNumbersInWords(t *testing.T) {
	for n, word := range map[int]string{1: "one", 3: "three", 5: "five", 7: "seven", 8: "eight", 9: "nine", 13: "thirteen"} {
		if got, ok := read.Number(word); !ok || got != n {
			t.Errorf("%s is read as %d", word, got)
		}
	}
}
