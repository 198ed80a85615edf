package theory_test

import (
	"testing"

	"sparetone/theory"
)

func TestStandings(t *testing.T) {
	for _, row := range []struct {
		key, note string
		want      theory.Standing
	}{
		{"C", "B", theory.OfScale}, {"C", "Bb", theory.Outside}, {"C", "G#", theory.Outside},
		{"Am", "G", theory.OfScale}, {"Am", "G#", theory.RaisedSeventh}, {"Am", "Ab", theory.Outside},
		{"Am", "F", theory.OfScale}, {"Am", "F#", theory.RaisedSixth}, {"Am", "C#", theory.Outside},
		{"Bbm", "A", theory.RaisedSeventh}, {"Bbm", "G", theory.RaisedSixth}, {"G#m", "F##", theory.RaisedSeventh},
	} {
		n, err := theory.ParseNote(row.note)
		if err != nil {
			t.Fatal(err)
		}
		if got := key(t, row.key).Standing(n); got != row.want {
			t.Errorf("%s in %s: %s, want %s", n, key(t, row.key), got, row.want)
		}
	}
}

// What a chord spells otherwise than the key does is of the key by its sound.
func TestStandingsBySound(t *testing.T) {
	for _, row := range []struct {
		key, note, as string
		want          theory.Standing
	}{
		{"Am", "F##", "G", theory.OfScale}, {"Am", "Ab", "G#", theory.RaisedSeventh}, {"Am", "Gb", "F#", theory.RaisedSixth},
		{"Am", "G", "G", theory.OfScale}, {"Am", "G#", "G#", theory.RaisedSeventh}, {"Am", "C#", "C#", theory.Outside},
		{"C", "Fb", "E", theory.OfScale}, {"C", "Ab", "Ab", theory.Outside}, {"C", "G#", "G#", theory.Outside},
	} {
		got, own := key(t, row.key).StandingBySound(parse(t, row.note).Root)
		if got != row.want || own.ASCII() != parse(t, row.as).Root.ASCII() {
			t.Errorf("%s in %s: %s as %s, want %s as %s", row.note, key(t, row.key), got, own, row.want, row.as)
		}
	}
}

func TestScaleNames(t *testing.T) {
	for typed, want := range map[string]string{"Eb": "E♭ major", "Bbm": "B♭ natural minor"} {
		if got := key(t, typed).ScaleName(); got != want {
			t.Errorf("the scale of %s is %s, want %s", typed, got, want)
		}
	}
}

// All 18 chords that a minor key lists are of it, and the raised seventh makes no others.
func TestChordsOfTheKey(t *testing.T) {
	for _, row := range []struct{ key, chord string }{
		{"Am", "E7b9"}, {"Am", "Am7"}, {"C", "Dm7"}, {"C", "Cadd9"}, {"Am", "E7"}, {"Am", "G#dim7"}, {"Am", "E"},
	} {
		if !key(t, row.key).Holds(*parse(t, row.chord)) {
			t.Errorf("%s is not of %s", row.chord, row.key)
		}
	}
	for _, row := range []struct{ key, chord string }{
		{"Am", "Am(maj7)"}, {"Am", "D"}, {"Am", "E9"}, {"Am", "Caug"}, {"Am", "Eaug"}, {"Am", "G#"}, {"Am", "G#m7b5"}, {"C", "E7"}, {"C", "Bdim7"},
	} {
		if key(t, row.key).Holds(*parse(t, row.chord)) {
			t.Errorf("%s is of %s", row.chord, row.key)
		}
	}
	for _, name := range []string{"C", "F#", "Am", "Bbm", "G#m"} {
		k := key(t, name)
		for _, c := range k.Chords() {
			if !k.Holds(c) {
				t.Errorf("%s is not of %s", c, k)
			}
		}
	}
}
