package fret_test

import (
	"strings"
	"testing"
	"unicode"

	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// In a sentence every string is called by a name of its own: by its note, and by low, middle or high where several have
// the same letter.
func TestStringsAreCalledApart(t *testing.T) {
	for name, want := range map[string][]string{
		"ukulele": {"A", "E", "C", "g"},
		"guitar":  {"high E", "B", "G", "D", "A", "low E"},
		"gDGBD":   {"high D", "B", "low G", "low D", "high g"},
		"DADF#AD": {"high D", "high A", "F♯", "middle D", "low A", "low D"},
	} {
		on := tuning(t, name)
		for n, want := range want {
			if got := on.StringCalled(n + 1); got != want {
				t.Errorf("%s: string %d is called %s, want %s", name, n+1, got, want)
			}
		}
	}
}

// No two strings of an instrument are called alike, on every tuning that has a name and on odd ones: courses tuned alike,
// four strings of one letter.
func TestNoTwoStringsAreCalledAlike(t *testing.T) {
	all := fret.Tunings()
	for _, typed := range []string{"G4 G4 C4 C4 E4 E4 A4 A4", "G2 G3 G4 G5", "A4 A4 A4 A4", "Gb3 G3 G#3", "EADGBE"} {
		all = append(all, tuning(t, typed))
	}
	for _, on := range all {
		numbered := map[string]int{}
		for n := range on.Strings {
			called := on.StringCalled(n + 1)
			if before := numbered[called]; before != 0 {
				t.Errorf("%s: strings %d and %d are both called %s", on.Name, before, n+1, called)
			}
			numbered[called] = n + 1
		}
	}
}

// A swap says which string goes where, by the string's name.
func TestMovesInWords(t *testing.T) {
	for _, row := range []struct{ tuning, from, chord, to, want string }{
		{"ukulele", "0003", "C", "0000", "A string open"},
		{"ukulele", "0003", "C", "0203", "C string to fret 2"},
		{"guitar", "320003", "G", "320001", "high E string to fret 1"},
		{"banjo", "00000", "G", "00002", "high D string to fret 2"},
	} {
		on, found := tuning(t, row.tuning), false
		for _, s := range fret.Swaps(on, shape(t, row.from), chord(t, row.chord), nil) {
			if s.To.String() == row.to {
				found = true
				if got := say.Move(on, s).Screen(); got != row.want {
					t.Errorf("%s to %s: %s, want %s", row.from, row.to, got, row.want)
				}
			}
		}
		if !found {
			t.Errorf("%s does not become %s", row.from, row.to)
		}
	}
}

// No title of a tuning is said with a sign in it, and of a small letter that shows a high string it is said that the string is high.
func TestTitlesAreSpoken(t *testing.T) {
	high := map[string]string{
		"ukulele": "ukulele, high g C E A", "ukulele-d": "ukulele in D, high a D F sharp B",
		"banjo": "five-string banjo in open G, high g D G B D", "banjo-double-c": "five-string banjo in double C, high g C G C D",
	}
	for _, on := range fret.Tunings() {
		want, isHigh := high[on.Name]
		if !isHigh {
			want = on.Title
		}
		if small := strings.ContainsFunc(on.Title[strings.LastIndex(on.Title, ", ")+1:], unicode.IsLower); small != isHigh {
			t.Errorf("%s has a high string: %v, and it is said that it is high: %v", on.Title, small, isHigh)
		}
		if said := on.TitleSpoken(); strings.ContainsAny(said, "♯♭") || said != want {
			t.Errorf("%s is said %q, want %q", on.Title, said, want)
		}
	}
	if got, want := tuning(t, "Eb4 A4").TitleSpoken(), "strings E flat 4 A 4"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
