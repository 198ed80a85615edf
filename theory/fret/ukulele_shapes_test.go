package fret_test

import (
	"bufio"
	"flag"
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
)

var write = flag.Bool("write", false, "write testdata/theory/ukulele-shapes-differ.tsv again")

// namedShape is a row of testdata/theory/ukulele-shapes.tsv.
type namedShape struct {
	label    string
	chord    theory.Chord
	position int // the data's order for the chord, from 1
	shape    fret.Shape
	midi     []int
}

// suffixes are the data's names for kinds of chord that are not symbols, as we write them; found by looking at what
// the shapes sound: alt is R 3 ♭5.
var suffixes = map[string]string{
	"major": "", "minor": "m", "alt": "(b5)", "b13b9": "7b9b13", "b13#9": "7#9b13",
}

func namedShapes(t testing.TB) []namedShape {
	t.Helper()
	f, err := os.Open("../../testdata/theory/ukulele-shapes.tsv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out []namedShape
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if strings.HasPrefix(lines.Text(), "#") {
			continue
		}
		r := strings.Split(lines.Text(), "\t")
		suffix, ok := suffixes[r[1]]
		if !ok {
			suffix = r[1]
		}
		n := namedShape{label: r[0] + " " + r[1], chord: chord(t, r[0]+suffix), shape: shape(t, r[3])}
		n.position, _ = strconv.Atoi(r[2])
		for _, m := range strings.Split(r[4], ",") {
			midi, err := strconv.Atoi(m)
			if err != nil {
				t.Fatal(err)
			}
			n.midi = append(n.midi, midi)
		}
		out = append(out, n)
	}
	if len(out) != 2114 {
		t.Fatalf("%d shapes, want 2114", len(out))
	}
	return out
}

// literal are suffixes that the data uses for more than they say when they are read to the letter, by which the
// table of chord types reads 11 without a third, and b13b9 and b13#9 have no seventh. Read so, their shapes sound a
// note outside their label.
var literal = map[string]string{
	"11":    "the chord types' 11 has no third",
	"b13b9": "b13b9 names no seventh",
	"b13#9": "b13#9 names no seventh",
}

// outside returns the notes of a shape that are not of the chord it is filed under, and why if it is the suffix
// that is to blame.
func (n namedShape) outside(t testing.TB) (notes []string, why string) {
	t.Helper()
	v, err := fret.Voice(ukulele(t), n.shape, n.chord)
	if err != nil {
		t.Fatalf("%s %s: %v", n.label, n.shape, err)
	}
	why = literal[strings.Fields(n.label)[1]]
	for _, s := range v.Strings {
		third := s.Interval.Number == 3 && n.chord.Kind.ID == "dominant-11th"
		if s.Foreign || why != "" && (third || s.Interval == theory.MinorSeventh && n.chord.Kind.ID != "dominant-11th") {
			notes = append(notes, s.Pitch.Note.ASCII())
		}
		if s.Foreign {
			why = ""
		}
	}
	return notes, why
}

func TestPitchOfEveryString(t *testing.T) {
	u := ukulele(t)
	for _, n := range namedShapes(t) {
		v, err := fret.Voice(u, n.shape, n.chord)
		if err != nil {
			t.Errorf("%s %s: %v", n.label, n.shape, err)
			continue
		}
		for i, p := range v.Pitches() {
			if p.MIDI() != n.midi[i] {
				t.Errorf("%s %s: string %d is MIDI note %d, want %d", n.label, n.shape, v.Strings[i].Number, p.MIDI(), n.midi[i])
			}
		}
	}
}

// The shapes that sound a note outside the chord they are filed under are listed: four by any reading, and 120 by the
// letter of their suffix.
func TestShapesOutsideTheirLabel(t *testing.T) {
	const file = "../../testdata/theory/ukulele-shapes-differ.tsv"
	u := ukulele(t)
	var b strings.Builder
	fmt.Fprintln(&b, "# The shapes of ukulele-shapes.tsv that sound a note outside the chord they are filed under. Ours.")
	fmt.Fprintln(&b, "# filed under\tposition\tfrets\toutside\tplainest name\twhy")
	wrong, byTheLetter := 0, 0
	for _, n := range namedShapes(t) {
		outside, why := n.outside(t)
		switch {
		case outside == nil:
			continue
		case why == "":
			why = "the data is wrong"
			wrong++
		default:
			byTheLetter++
		}
		is := "none"
		if names := fret.Names(u, n.shape, theory.Context{}); len(names) > 0 {
			is = names[0].Chord.FullSymbol()
		}
		fmt.Fprintf(&b, "%s\t%d\t%s\t%s\t%s\t%s\n", n.label, n.position, n.shape, strings.Join(outside, " "), is, why)
	}
	if *write {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	listed, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if string(listed) != b.String() {
		t.Errorf("ukulele-shapes-differ.tsv is not what the shapes sound; run with -write and read the difference")
	}
	if wrong != 4 || byTheLetter != 120 {
		t.Errorf("%d shapes outside their label and %d by its letter, want 4 and 120", wrong, byTheLetter)
	}
}

// count counts shapes: all whose label is right, and of those the ones whose label is right to the letter.
type count struct{ shapes, literal int }

func (c *count) add(literal bool) {
	c.shapes++
	if literal {
		c.literal++
	}
}

func (c count) percent(of count) (all, literal float64) {
	return 100 * float64(c.shapes) / float64(of.shapes), 100 * float64(c.literal) / float64(of.literal)
}

// unsaid are the data's kinds of chord that a player is not told where the root does not sound: what is heard then is said
// by a plainer chord. All of them are among the names that are right.
var unsaid = map[string]string{
	"69": "no seventh: C6/9 without C is A7sus4", "m69": "no seventh: Cm6/9 without C is Am7b5 with a fourth for its third",
	"11": "C11 without C is Gm7 or Bb(add#11)", "m11": "Cm11 without C is Gm7 or Ebadd9", "maj11": "Cmaj11 without C is G7 or Bdim with a fourth",
	"mmaj11": "Cm(maj11) without C is G7 or Eb with a second", "maj13": "Cmaj13 without C is E7sus4", "9b5": "C9b5 without C is an augmented seventh",
	"9#11": "C9#11 without C is an augmented seventh", "13b9": "C13b9 without C is a major chord with a note a semitone above its root",
	"aug9": "C9#5 without C is E7b5", "m9b5": "Cm9b5 without C is Ebm(maj7)", "mmaj9": "Cm(maj9) without C is Ebmaj7#5",
	"7b9#5": "C7#5b9 without C is Bbm7b5 or Dbm6", "b13b9": "C7b9b13 without C is Bbm7b5 or Dbm6", "b13#9": "C7#9b13 without C is Ebsus4 with an E", "13b5b9": "C13b5b9 without C and E is Gb with both thirds",
}

// The label of a shape is among the names that a player is shown, but for those labels that nobody would say of it.
func TestLabelsAreAmongTheNames(t *testing.T) {
	u := ukulele(t)
	var total, right, said, shown, inEight, first count
	for _, n := range namedShapes(t) {
		outside, why := n.outside(t)
		if outside != nil && why == "" {
			continue
		}
		literal := outside == nil
		total.add(literal)
		isLabel := func(m theory.Naming) bool {
			return m.Chord.Kind == n.chord.Kind && m.Chord.Root.Same(n.chord.Root)
		}
		all := fret.Names(u, n.shape, theory.Context{All: true})
		is := slices.IndexFunc(all, isLabel)
		if is < 0 {
			t.Logf("%s %s is not among its names", n.label, n.shape)
			continue
		}
		right.add(literal)
		rootless := all[is].Chord.Without.Has(0)
		if unsaid[strings.Fields(n.label)[1]] != "" && rootless {
			continue
		}
		said.add(literal)
		at := slices.IndexFunc(fret.Names(u, n.shape, theory.Context{}), isLabel)
		if at < 0 {
			t.Logf("%s %s is not shown", n.label, n.shape)
			continue
		}
		shown.add(literal)
		if at < 8 {
			inEight.add(literal)
		}
		if at == 0 {
			first.add(literal)
		}
	}
	if total != (count{2110, 1990}) {
		t.Fatalf("%v shapes", total)
	}
	for _, row := range []struct {
		what    string
		got, of count
		least   float64
	}{
		{"among the names that are right", right, total, 99}, {"one that is said", said, total, 60}, {"of those shown", shown, said, 99},
		{"in the first eight", inEight, said, 99}, {"first", first, total, 37},
	} {
		all, literal := row.got.percent(row.of)
		t.Logf("label %s: %.2f %% of %d shapes, %.2f %% of %d", row.what, literal, row.of.literal, all, row.of.shapes)
		if min(all, literal) < row.least {
			t.Errorf("label %s: want %v %%", row.what, row.least)
		}
	}
}

func TestShapesAreFound(t *testing.T) {
	u := ukulele(t)
	var total, got, chords, inFive, first count
	for _, n := range namedShapes(t) {
		outside, why := n.outside(t)
		if outside != nil && why == "" {
			continue
		}
		literal := outside == nil
		found := fret.Search(u, n.chord, fret.DefaultHand)
		at := slices.IndexFunc(found, func(f fret.Found) bool { return slices.Equal(f.Shape, n.shape) })
		total.add(literal)
		if at >= 0 {
			got.add(literal)
		} else {
			t.Logf("%s %s is not found", n.label, n.shape)
		}
		if n.position == 1 {
			chords.add(literal)
			if at >= 0 && at < 5 {
				inFive.add(literal)
			}
			if at == 0 {
				first.add(literal)
			}
		}
	}
	for _, row := range []struct {
		what  string
		got   count
		of    count
		least float64
	}{
		{"shapes found", got, total, 99},
		{"first positions in the first five", inFive, chords, 90},
		{"first positions first", first, chords, 0},
	} {
		all, literal := row.got.percent(row.of)
		t.Logf("%s: %.2f %% of %d, %.2f %% of %d", row.what, literal, row.of.literal, all, row.of.shapes)
		if min(all, literal) < row.least {
			t.Errorf("%s: want %v %%", row.what, row.least)
		}
	}
}
