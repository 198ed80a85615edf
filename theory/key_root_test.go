package theory_test

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"sparetone/theory"
)

// kindsInKeys are the nine kinds of the columns of names-in-keys.tsv.
var kindsInKeys = []string{
	"major", "minor", "diminished", "augmented", "dominant", "major-seventh", "minor-seventh", "half-diminished", "diminished-seventh",
}

// Every chord of nine kinds on every root is spelled in every key as the table says, and named so where its root is the
// lowest note. Only the four inversions of a diminished seventh sound alike: that of the raised seventh of a minor key
// keeps its root whichever note is lowest.
func TestNamesInKeys(t *testing.T) {
	cells := 0
	for _, row := range table(t, "names-in-keys.tsv") {
		k := key(t, row[0])
		above, err := strconv.Atoi(row[1])
		if err != nil {
			t.Fatal(err)
		}
		for n, id := range kindsInKeys {
			cells++
			want := parse(t, row[2+n])
			if want.Kind.ID != id || (want.Root.Class()-k.Tonic.Class()+12)%12 != above {
				t.Fatalf("%s: %s is no %s %d semitones above the tonic", k, want, id, above)
			}
			var sound []theory.Pitch
			for i, note := range want.Tones() {
				p, _ := theory.Spell(48+note.Class()+map[bool]int{true: 12}[i > 0 && note.Class() < want.Root.Class()], note)
				sound = append(sound, p)
			}
			names := theory.Name(sound, theory.Context{Key: k})
			if leading := k.Tonic.Up(theory.MajorSeventh); k.Minor && id == "diminished-seventh" && (above == 2 || above == 5 || above == 8) {
				if got := names[0].Chord; got.Kind != want.Kind || got.Root != leading || !got.Bass.Same(want.Root) {
					t.Errorf("%s: %s is %s, want %sdim7 over %s", k, want, symbols(names), leading, want.Root)
				}
				continue
			}
			if names[0].Chord != theory.NewChord(want.Root, want.Kind) {
				t.Errorf("%s: %s, want %s", k, symbols(names), want)
			}
		}
	}
	if cells != 30*12*9 {
		t.Errorf("%d cells, want 30 keys by 12 roots by 9 kinds", cells)
	}
}

// Without a bass the key alone says which of its four roots a diminished seventh has: the one that leads to I, to V, or to II
// in major and IV in minor.
func TestDiminishedSeventhsLead(t *testing.T) {
	for _, row := range []struct{ key, sound, want string }{
		{"Gm", "A C E♭ G♭", "F#dim7"}, {"Fm", "G B♭ D♭ E", "Edim7"}, {"C", "B D F A♭", "Bdim7"}, {"C", "C E♭ G♭ A", "F#dim7"},
		{"C", "E G B♭ D♭", "C#dim7"}, {"Am", "E G B♭ D♭", "C#dim7"}, {"Am", "A C E♭ G♭", "D#dim7"}, {"Am", "D F A♭ B", "G#dim7"},
	} {
		names := theory.Name(pitches(t, row.sound), theory.Context{Key: key(t, row.key), NoBass: true})
		if got := names[0].Chord.Symbol(); got != row.want {
			t.Errorf("%s in %s is %s, want %s", row.sound, row.key, symbols(names), row.want)
		}
	}
}

// In every key, of every kind on every root: no root has a double accidental but that of a chord of the key, and none is
// E♯, B♯, F♭ or C♭ that is not of the scale, but those of chords of the key and of diminished chords that lead.
func TestNoRootIsOddInAKey(t *testing.T) {
	for _, row := range table(t, "names-in-keys.tsv") {
		k := key(t, row[0])
		if row[1] != "0" {
			continue // once a key
		}
		for _, kind := range theory.Kinds() {
			for _, root := range roots() {
				if root.Alter != 0 {
					continue
				}
				c := theory.NewChord(root, kind)
				for _, n := range theory.Name(sounding(c), theory.Context{Key: k, NoBass: true}) {
					in := n.Chord
					double := in.Root.Alter > 1 || in.Root.Alter < -1
					odd := double || slices.Contains([]string{"E#", "B#", "Fb", "Cb"}, in.Root.ASCII()) && !k.Contains(in.Root)
					leads := strings.Contains(in.Kind.ID, "dim") || strings.Contains(in.Kind.ID, "flat-five")
					whole := in
					whole.Without = 0
					if odd && !k.Holds(whole) && (double || !leads) {
						t.Errorf("%s: %s", k, in.FullSymbol())
					}
				}
			}
		}
	}
}

// sounding is a chord sounded from its root up.
func sounding(c theory.Chord) []theory.Pitch {
	var out []theory.Pitch
	for _, tone := range c.Kind.Formula {
		out = append(out, theory.Pitch{Note: c.Root, Octave: 3}.Up(tone))
	}
	return out
}
