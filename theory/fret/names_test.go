package fret_test

import (
	"bufio"
	"os"
	"slices"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// namedRow is a shape with the names that harmony teaching gives it; the first of them leads.
type namedRow struct {
	shape fret.Shape
	names []theory.Chord
}

// namedTable reads a table of shapes and names.
func namedTable(t testing.TB, file string) []namedRow {
	t.Helper()
	f, err := os.Open("../../testdata/theory/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var rows []namedRow
	for lines := bufio.NewScanner(f); lines.Scan(); {
		if strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		cols := strings.Split(lines.Text(), "\t")
		r := namedRow{shape: shape(t, cols[0])}
		for _, s := range strings.Split(cols[1], "|") {
			r.names = append(r.names, chord(t, s))
		}
		rows = append(rows, r)
	}
	return rows
}

// calls reports whether a name is one of those of the row, in sound.
func (r namedRow) calls(n theory.Chord) bool {
	return slices.ContainsFunc(r.names, func(c theory.Chord) bool { return sameName(n, c) })
}

// sameName reports whether two chords are one name, however their notes are spelled.
func sameName(a, b theory.Chord) bool {
	return a.Kind == b.Kind && a.Root.Same(b.Root) && a.Bass.Same(b.Bass) && a.Without&b.Without == b.Without
}

// Shapes that players and books name come first by that name: the rows at odd and at even
// places are told apart, and both were looked at when the weights were mended.
func TestNamesThatTeachingGives(t *testing.T) {
	for _, row := range []struct{ file, tuning string }{{"guitar-names.tsv", "guitar"}, {"ukulele-names.tsv", "ukulele"}} {
		tuning, err := fret.ParseTuning(row.tuning)
		if err != nil {
			t.Fatal(err)
		}
		var first, inFour, total [2]int
		var listed []int
		for n, r := range namedTable(t, row.file) {
			names := fret.Names(tuning, r.shape, theory.Context{})
			listed = append(listed, len(names))
			total[n%2]++
			if len(names) > 0 && r.calls(names[0].Chord) {
				first[n%2]++
			} else {
				t.Logf("%s %s is %s first", r.shape, r.names[0], namesOf(names))
			}
			if all := slices.IndexFunc(names[:min(4, len(names))], func(m theory.Naming) bool { return r.calls(m.Chord) }); all >= 0 {
				inFour[n%2]++
			} else {
				t.Errorf("%s: %s is not among the first four, %s", r.shape, r.names[0], namesOf(names))
			}
		}
		slices.Sort(listed)
		median := listed[len(listed)/2]
		t.Logf("%s: first %d of %d at odd places, %d of %d at even ones; in the first four %d and %d; a shape has %d names at the median",
			row.tuning, first[0], total[0], first[1], total[1], inFour[0], inFour[1], median)
		for half := range 2 {
			if 100*first[half] < 97*total[half] {
				t.Errorf("%s: first for %d of %d, want 97 %%", row.tuning, first[half], total[half])
			}
		}
		if median > 3 {
			t.Errorf("%s: %d names at the median, want 3 or fewer", row.tuning, median)
		}
	}
}

// Names that other material than the tables teaches, each a rule.
func TestNamesOfShapes(t *testing.T) {
	for _, row := range []struct{ tuning, shape, names string }{
		{"guitar", "8x886x", "Cm11(no5,no9)"},         // the stacked name first where the exact one lacks its fifth too
		{"guitar", "000000", "Em7add11 Em11(no9)"},    // the exact name first where all its tones sound
		{"guitar", "x02100", "E/A"},                   // a triad over a foreign bass
		{"guitar", "xx0210", "Am/D"},                  // and the bass is not counted as an added fourth as well
		{"guitar", "x33331", "Bb/C C9sus4(no5)"},      //
		{"guitar", "x02010", "Am7"},                   // the lowest root before the rarer kind
		{"guitar", "1x0003", "G7/F G/F"},              // a seventh is no foreign bass
		{"guitar", "3x442x", "Gmaj7#11(no5) Gmaj7b5"}, // sharp eleven before flat five
		{"guitar", "3x342x", "G7b5 G7#11(no5)"},       //
		{"guitar", "020xxx", "E7(no3)"},               //
		{"ukulele", "0031", "C7(no3)"},                //
		{"ukulele", "0026", "Cm(add#11)"},             //
		{"ukulele", "0033", "C5"},                     //
		{"ukulele", "0003", "C"},                      // and nothing else
		{"ukulele", "0201", "Gm6 Em7b5 C9(no1)"},      // a root that does not sound: with third and seventh
		{"guitar", "x24442", "B"},                     //
	} {
		tuning, err := fret.ParseTuning(row.tuning)
		if err != nil {
			t.Fatal(err)
		}
		if got := namesOf(fret.Names(tuning, shape(t, row.shape), theory.Context{})); got != row.names && !strings.HasPrefix(got, row.names+" ") {
			t.Errorf("%s on %s is %s, want %s", row.shape, row.tuning, got, row.names)
		}
	}
}

// Every name that is said of any ukulele shape up to fret 4 and any of a sample of guitar shapes: once a root and kind, no
// bass written as nobody likes to read it, no root left out without the third and the seventh, nothing that is not among all right
// names, and at the median no more than three.
func TestWhatIsSaid(t *testing.T) {
	for _, row := range []struct {
		tuning string
		step   int // of the shapes that count up, so many are passed over
	}{{"ukulele", 1}, {"guitar", 37}} {
		tuning, err := fret.ParseTuning(row.tuning)
		if err != nil {
			t.Fatal(err)
		}
		var listed []int
		strings := len(tuning.Strings)
		total := 1
		for range strings {
			total *= 6
		}
		for n := 0; n < total; n += row.step {
			s := make(fret.Shape, strings)
			for i, rest := 0, n; i < strings; i, rest = i+1, rest/6 {
				s[i] = rest%6 - 1 // from muted to fret 4
			}
			names := fret.Names(tuning, s, theory.Context{})
			if len(names) == 0 {
				continue
			}
			listed = append(listed, len(names))
			all := fret.Names(tuning, s, theory.Context{All: true})
			for i, name := range names {
				c := name.Chord
				if slices.ContainsFunc(names[:i], func(m theory.Naming) bool { return m.Chord.Kind == c.Kind && m.Chord.Root == c.Root }) {
					t.Errorf("%s: %s comes twice", s, c)
				}
				if c.Bass != c.Root && (c.Bass.Alter > 1 || c.Bass.Alter < -1 || slices.Contains([]string{"E#", "B#", "Fb", "Cb"}, c.Bass.ASCII())) {
					t.Errorf("%s is called %s", s, c)
				}
				if third, seventh := lacks(c, 3), lacks(c, 7); c.Without.Has(0) && (third || seventh) {
					t.Errorf("%s is called %s", s, c.FullSymbol())
				}
				if !slices.ContainsFunc(all, func(m theory.Naming) bool { return m.Chord == c }) {
					t.Errorf("%s: %s is said and not right", s, c)
				}
			}
		}
		slices.Sort(listed)
		median, most := listed[len(listed)/2], listed[len(listed)-1]
		t.Logf("%s: %d shapes with names, %d at the median, %d at the most", row.tuning, len(listed), median, most)
		if median > 3 {
			t.Errorf("%s: %d names at the median, want 3 or fewer", row.tuning, median)
		}
	}
}

// lacks reports whether a chord has no tone of a number, or one that is left out.
func lacks(c theory.Chord, number int) bool {
	n := slices.IndexFunc(c.Kind.Formula, func(i theory.Interval) bool { return i.Number == number })
	return n < 0 || c.Without.Has(n)
}

// namesOf writes the first names of a list.
func namesOf(names []theory.Naming) string {
	var out []string
	for _, n := range names[:min(6, len(names))] {
		out = append(out, n.Chord.FullSymbol())
	}
	return strings.Join(out, " ")
}
