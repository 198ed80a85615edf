package fret

import (
	"fmt"
	"testing"

	"sparetone/theory"
)

// A chord is learned from the triad on its root: minor where it has a minor third, else major; not one that is a triad itself, lies over
// another bass, or has no perfect fifth.
func TestTriadThatAChordIsLearnedFrom(t *testing.T) {
	for _, row := range []struct{ tuning, root, kind, bass, want string }{
		{"ukulele", "C", "dominant", "C", "[0003]"},
		{"ukulele", "A", "minor-seventh", "A", "[2000]"},
		{"ukulele", "A", "dominant", "A", "[2100]"},
		{"ukulele", "G", "suspended-fourth", "G", "[0232]"}, // no third: the major triad
		{"ukulele", "G", "major-sixth", "G", "[0232]"},
		{"guitar", "F", "major-seventh", "F", "[133211 xx3211]"},
		{"ukulele", "C", "major", "C", "[]"},
		{"ukulele", "A", "minor", "A", "[]"},
		{"ukulele", "C", "dominant", "E", "[]"},
		{"ukulele", "B", "half-diminished", "B", "[]"},
		{"ukulele", "C", "augmented", "C", "[]"},
		{"ukulele", "C", "power", "C", "[]"},
		{"banjo", "C", "dominant", "C", "[]"}, // nothing is taught on it
	} {
		kind, ok := theory.KindByID(row.kind)
		on, err := ParseTuning(row.tuning)
		if !ok || err != nil {
			t.Fatal(row.kind, err)
		}
		root, _ := theory.ParseNote(row.root)
		bass, _ := theory.ParseNote(row.bass)
		c := theory.NewChord(root, kind)
		c.Bass = bass
		if got := fmt.Sprint(triads(on, c)); got != row.want {
			t.Errorf("%s %s over %s on %s: %s, want %s", row.root, row.kind, row.bass, row.tuning, got, row.want)
		}
	}
}

// The way from a triad counts each fret that a string moves, farthest at the most, and a string that is muted in one of the two as one; the
// nearest triad counts.
func TestWayFromTheTriad(t *testing.T) {
	for _, row := range []struct {
		from  []string
		to    string
		frets int
	}{
		{[]string{"0003"}, "0003", 0},
		{[]string{"0003"}, "0001", 2},
		{[]string{"0001"}, "0003", 2}, // as far back
		{[]string{"0003"}, "0013", 1},
		{[]string{"0003"}, "2011", 5},
		{[]string{"0000"}, "000.9", farthest},
		{[]string{"0000"}, "000." + fmt.Sprint(farthest+1), farthest},
		{[]string{"0000"}, "000." + fmt.Sprint(farthest), farthest},
		{[]string{"x02210"}, "x02010", 2},
		{[]string{"x02210"}, "002210", 1},
		{[]string{"002210"}, "x02210", 1},
		{[]string{"x00000"}, "900000", 1},
		{[]string{"133211", "xx3211"}, "xx3210", 1},
		{[]string{"xx3211", "133211"}, "xx3210", 1},
		{nil, "0003", 0},
	} {
		var from []Shape
		for _, s := range row.from {
			from = append(from, shapeOf(t, s))
		}
		if got, want := fromTriad(from, shapeOf(t, row.to)), cost.moved*float64(row.frets); got != want {
			t.Errorf("%v to %s: %g, want %g for %d frets", row.from, row.to, got, want, row.frets)
		}
	}
}

// shapeOf reads a shape: a digit a string, and after a dot the fret of the last one.
func shapeOf(t *testing.T, text string) Shape {
	t.Helper()
	var s Shape
	for i, r := range text {
		switch r {
		case 'x':
			s = append(s, Muted)
		case '.':
			var last int
			fmt.Sscan(text[i+1:], &last)
			return append(s, last)
		default:
			s = append(s, int(r-'0'))
		}
	}
	return s
}
