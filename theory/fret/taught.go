package fret

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"sparetone/theory"
)

// taughtRows is the table of shapes that players are taught; its head says where they are from.
//
//go:embed taught.tsv
var taughtRows string

// Lesson is a chord with the shapes of it that players of an instrument are taught.
type Lesson struct {
	Chord  theory.Chord
	Shapes []Shape // the one that textbooks show first, then others that are shown as well; not to be changed
	First  bool    // players meet this chord before those that are not first
}

// lessons is what players of one instrument are taught.
type lessons struct {
	tuning *Tuning
	rows   []Lesson         // those met first come first, in the order in which they are met
	of     map[chordKey]int // the row of each chord
}

// chordKey tells chords apart however their root is spelled.
type chordKey struct {
	root int // pitch class
	kind *theory.Kind
}

// taughtTables reads the table. It panics on a row that cannot be read: the table is ours.
var taughtTables = sync.OnceValue(func() []lessons {
	var out []lessons
	for n, line := range strings.Split(strings.TrimSpace(taughtRows), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		cells := strings.Split(line, "\t")
		if len(cells) != 4 {
			panic(fmt.Sprintf("fret: taught.tsv:%d: %d cells, want 4", n+1, len(cells)))
		}
		t, err := ParseTuning(cells[0])
		if err != nil {
			panic(fmt.Sprintf("fret: taught.tsv:%d: %v", n+1, err))
		}
		c, err := chordOf(cells[1])
		if err != nil {
			panic(fmt.Sprintf("fret: taught.tsv:%d: %v", n+1, err))
		}
		lesson := Lesson{Chord: c, First: cells[3] == "first"}
		for _, typed := range strings.Fields(cells[2]) {
			s, err := ParseShape(typed)
			if err != nil {
				panic(fmt.Sprintf("fret: taught.tsv:%d: %v", n+1, err))
			}
			lesson.Shapes = append(lesson.Shapes, s)
		}
		if len(out) == 0 || out[len(out)-1].tuning != t {
			out = append(out, lessons{tuning: t, of: map[chordKey]int{}})
		}
		last := &out[len(out)-1]
		last.of[keyOf(c)] = len(last.rows)
		last.rows = append(last.rows, lesson)
	}
	return out
})

// chordOf reads a chord of the table: a root, and the first symbol of its kind.
func chordOf(symbol string) (theory.Chord, error) {
	end := 1 + len(symbol[1:]) - len(strings.TrimLeft(symbol[1:], "#b"))
	root, err := theory.ParseNote(symbol[:end])
	if err != nil {
		return theory.Chord{}, err
	}
	for _, k := range theory.Kinds() {
		if k.Symbols[0] == symbol[end:] {
			return theory.NewChord(root, k), nil
		}
	}
	return theory.Chord{}, fmt.Errorf("%q is no chord", symbol)
}

func keyOf(c theory.Chord) chordKey { return chordKey{c.Root.Class(), c.Kind} }

// taughtOn returns what is taught on a tuning, and how many semitones the chords of that table lie below those of the
// tuning: players take the shapes of an instrument along to one that is tuned as it is but higher or lower, as from a
// ukulele to one in D, and with a capo.
func taughtOn(t *Tuning) (of *lessons, up int) {
	tables := taughtTables()
	for n := range tables {
		if slices.Equal(tables[n].tuning.Strings, t.Strings) {
			return &tables[n], 0
		}
	}
	for n := range tables {
		if up, ok := movedBy(tables[n].tuning, t); ok {
			return &tables[n], up
		}
	}
	return nil, 0
}

// movedBy returns by how many semitones, 0 to 11, every string of one tuning lies above that of another, octaves apart.
func movedBy(from, to *Tuning) (up int, ok bool) {
	if len(from.Strings) != len(to.Strings) || from.Short != to.Short {
		return 0, false
	}
	up = mod(to.MIDI(0, 0)-from.MIDI(0, 0), 12)
	for i := range from.Strings {
		if mod(to.MIDI(i, 0)-from.MIDI(i, 0), 12) != up {
			return 0, false
		}
	}
	return up, true
}

// Taught returns the shapes of a chord that players of an instrument are taught, the one that textbooks show first
// first; none if there is no table for the tuning, or the chord is not in it. They must not be changed.
func Taught(t *Tuning, c theory.Chord) []Shape {
	of, up := taughtOn(t)
	if of == nil || c.Bass.Class() != c.Root.Class() || c.Without != 0 {
		return nil
	}
	if n, ok := of.of[chordKey{mod(c.Root.Class()-up, 12), c.Kind}]; ok {
		return of.rows[n].Shapes
	}
	return nil
}

// Lessons returns what players of a tuning are taught, those chords first that they meet before any other; none if there
// is no table for it.
func Lessons(t *Tuning) []Lesson {
	of, up := taughtOn(t)
	if of == nil {
		return nil
	}
	out := slices.Clone(of.rows)
	if up == 0 {
		return out
	}
	for n, l := range out {
		root := openPitch(l.Chord.Root.Class() + up).Note
		out[n].Chord = theory.NewChord(root, l.Chord.Kind)
	}
	return out
}
