package read

import "testing"

// Numbers may have the ending of an ordinal wherever a chord has numbers.
func TestOrdinals(t *testing.T) {
	for typed, want := range map[string]string{"Csus4th": "Csus4", "Csus2nd": "Csus2", "C7sus4th": "C7sus4", "Cadd9th": "Cadd9", "C7 no5th": "C7(no5)"} {
		c, err := Chord(typed)
		if err != nil {
			t.Errorf("%s: %v", typed, err)
			continue
		}
		if w, err := Chord(want); err != nil || c.String() != w.String() {
			t.Errorf("%s is read as %s, want %s, %v", typed, c, want, err)
		}
	}
}
