package theory_test

import (
	"strings"
	"testing"

	"sparetone/theory"
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
		k, err := theory.ParseKey(typed)
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
