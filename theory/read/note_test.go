package read_test

import (
	"testing"

	"sparetone/theory/read"
)

func TestNotesInManyLanguages(t *testing.T) {
	for _, row := range []struct{ typed, want string }{
		{"C E G Bb", "C E G Bb"},
		{"c, e♭, g", "C Eb G"},
		{"F A C", "F A C"},
		{"G B D F", "G B D F"},
		{"a-c-e", "A C E"},
		{"B flat D F sharp", "Bb D F#"},
		{"b double flat", "Bbb"},
		{"Fx A", "F## A"},
		{"Fis Ais Cis", "F# A# C#"},
		{"Es G Hes", "Eb G Bb"},
		{"As C Es", "Ab C Eb"},
		{"H Dis Fis", "B D# F#"},
		{"do mi sol", "C E G"},
		{"ré fa dièse la", "D F# A"},
		{"sib re fa", "Bb D F"},
		{"si bemolle re fa", "Bb D F"},
		{"la do mi", "A C E"},
		{"si b re fa", "Bb D F"},
		{"A b", "A B"},
		{"dó mi sol", "C E G"},
		{"fá sustenido, lá, dó sustenido", "F# A C#"},
		{"fa doppio diesis", "F##"},
		{"B flat flat", "Bbb"},
		{"Ases Ces Eses", "Abb Cb Ebb"},
		{"CEG", "C E G"},
		{"CEGBb", "C E G Bb"},
		{"F♯AC♯", "F# A C#"},
		{"C/E/G", "C E G"},
		{"C – E – G", "C E G"},
		{"C, E and G.", "C E G"},
	} {
		got, err := read.Notes(row.typed)
		if err != nil {
			t.Errorf("%q: %v", row.typed, err)
			continue
		}
		want := typed(t, row.want)
		if len(got) != len(want) {
			t.Errorf("%q: %v, want %v", row.typed, got, want)
			continue
		}
		for i := range got {
			if got[i] != want[i] {
				t.Errorf("%q: %v, want %v", row.typed, got, want)
			}
		}
	}
	for _, typed := range []string{"", "X", "C Q", "flat", "Cs", "sharp C", "C E G 7", "Cflatsharp", "B D Fis", "Es g b", "ceg", "CEGX", "las", "mis", "sies"} {
		if got, err := read.Notes(typed); err == nil {
			t.Errorf("%q: read as %v", typed, got)
		}
	}
}
