package theory_test

import (
	"testing"

	"sparetone/theory"
)

// A key moves no name to the front that is worse than the plainest: one with more in it, though it is on the tonic.
func TestAKeyPutsNoWorseNameFirst(t *testing.T) {
	for _, row := range []struct{ key, sound, want string }{
		{"Am", "A C F G", "Fadd9/A"},
		{"Am", "A D F Ab", "Ddim/A"},
		{"Dm", "A B D F#", "Bm7/A"},
	} {
		names := theory.Name(pitches(t, row.sound), theory.Context{Key: key(t, row.key)})
		if got := names[0].Chord.String(); got != row.want {
			t.Errorf("%s in %s is %s, want %s", row.sound, row.key, got, row.want)
		}
	}
}

// What is no note has an error, whatever of it could be read.
func TestWhatIsNoNote(t *testing.T) {
	for _, s := range []string{"", "H", "x", "1", "c", "F#b", "C####", "C major", "Bb "} {
		if n, err := theory.ParseNote(s); err == nil {
			t.Errorf("%q is read as %s", s, n)
		}
	}
}
