package theory_test

import (
	"bufio"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/read"
)

// table reads a file of testdata/theory: a row a line, columns separated by tabs, comments with #.
func table(t testing.TB, file string) [][]string {
	t.Helper()
	f, err := os.Open("../testdata/theory/" + file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var rows [][]string
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if line := lines.Text(); !strings.HasPrefix(line, "# ") {
			rows = append(rows, strings.Split(line, "\t"))
		}
	}
	if err := lines.Err(); err != nil {
		t.Fatal(err)
	}
	return rows
}

// tones reads tones as chord-types.tsv writes them, number first: 1P 3M 5P.
func tones(t testing.TB, s string) []theory.Interval {
	t.Helper()
	var out []theory.Interval
	for _, w := range strings.Fields(s) {
		quality := strings.TrimLeft(w, "0123456789")
		i, err := theory.ParseInterval(quality + strings.TrimSuffix(w, quality))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, i)
	}
	return out
}

// roots are the seven letters, flat, natural and sharp.
func roots() []theory.Note {
	var out []theory.Note
	for l := theory.C; l <= theory.B; l++ {
		for alter := int8(-1); alter <= 1; alter++ {
			out = append(out, theory.Note{Letter: l, Alter: alter})
		}
	}
	return out
}

// inOrder sorts notes by letter and alteration, so that sets compare.
func inOrder(notes []theory.Note) []theory.Note {
	out := slices.Clone(notes)
	slices.SortFunc(out, func(a, b theory.Note) int { return 10*int(a.Letter-b.Letter) + int(a.Alter-b.Alter) })
	return out
}

func degrees(tones []theory.Interval) string {
	words := make([]string, len(tones))
	for n, i := range tones {
		words[n] = i.DegreeASCII()
	}
	return strings.Join(words, " ")
}

// Every alias of every chord type, on all 21 roots, has the same spelled tones, save the rows of
// chord-types-differ.tsv, which must differ just as they say.
func TestChordTypes(t *testing.T) {
	differ := map[string]string{}
	for _, r := range table(t, "chord-types-differ.tsv") {
		differ[r[0]] = r[1]
	}
	types := table(t, "chord-types.tsv")
	if len(types) < 106 {
		t.Fatalf("%d chord types, want 106 or more", len(types))
	}
	checked, listed := 0, map[string]bool{}
	for _, r := range types {
		for _, alias := range strings.Split(r[1], "|") {
			for _, root := range roots() {
				symbol := root.ASCII() + alias
				c, err := read.Chord(symbol)
				if ours, ok := differ[symbol]; ok { // on this root alone
					listed[symbol] = true
					if err == nil && degrees(c.Kind.Formula) != ours || err != nil && ours != "refused" {
						t.Errorf("%s: %v, %v, but chord-types-differ.tsv says %s", symbol, c, err, ours)
					}
					continue
				}
				if err != nil {
					t.Errorf("%s: %v", symbol, err)
					continue
				}
				var want []theory.Note
				for _, i := range tones(t, r[0]) {
					want = append(want, root.Up(i))
				}
				if slices.Equal(inOrder(want), inOrder(c.Tones())) {
					checked++
					continue
				}
				ours, ok := differ[alias]
				listed[alias] = true
				if !ok {
					t.Errorf("%s: %s, want %s", symbol, notes(c.Tones()), notes(want))
				} else if root == (theory.Note{}) && degrees(c.Kind.Formula) != ours && "C"+alias != ours {
					t.Errorf("%s: %s, but chord-types-differ.tsv says %s", symbol, degrees(c.Kind.Formula), ours)
				}
			}
		}
	}
	for alias := range differ {
		if !listed[alias] {
			t.Errorf("chord-types-differ.tsv lists %s, which does not differ", alias)
		}
	}
	t.Logf("%d chord types, %d symbols the same, %d aliases listed as different", len(types), checked, len(listed))
}

// The kinds of MusicXML are kinds of ours by the same ID and, save the rows that say so, with the same tones.
func TestMusicXMLKinds(t *testing.T) {
	for _, r := range table(t, "musicxml-kinds.tsv") {
		k, ok := theory.KindByID(r[0])
		if want := r[1] != ""; ok != want {
			t.Errorf("kind %s: in our table %v, want %v", r[0], ok, want)
			continue
		}
		if !ok {
			if r[2] == "" {
				t.Errorf("%s is left out without a reason", r[0])
			}
			continue
		}
		if same := degrees(k.Formula) == r[1]; same != (r[2] == "") {
			t.Errorf("%s: %s, MusicXML %s, reason %q", r[0], degrees(k.Formula), r[1], r[2])
		}
	}
}

// Every simple and compound interval to two octaves has the outside table's name, size and simple form.
func TestIntervals(t *testing.T) {
	rows := table(t, "intervals.tsv")
	for _, r := range rows {
		i, err := theory.ParseInterval(r[0])
		if err != nil {
			t.Errorf("%s: %v", r[0], err)
			continue
		}
		if size, _ := strconv.Atoi(r[1]); i.Semitones != size || i.String() != r[0] {
			t.Errorf("%s: %s of %d semitones, want %d", r[0], i, i.Semitones, size)
		}
		want := tones(t, r[2])[0]
		if i.Number == 15 {
			want = want.Plus(theory.Octave) // two octaves come down to one with us, to a unison there
		}
		if i.Simple() != want {
			t.Errorf("%s within an octave: %s, want %s", r[0], i.Simple(), want)
		}
	}
	if len(rows) < 60 {
		t.Errorf("only %d intervals", len(rows))
	}
}

// ISO 16:1975 puts A4 at 440 Hz; MIDI 1.0 numbers it 69. Twelve equal semitones make an octave.
func TestFrequencies(t *testing.T) {
	semitone := 1.0594630943592953 // the twelfth root of two
	at := 27.5                     // A0, MIDI 21: four octaves below 440 Hz
	for n := 21; n <= 108; n++ {
		if got := theory.MIDIFrequency(n, theory.StandardA4); got/at-1 > 1e-12 || at/got-1 > 1e-12 {
			t.Errorf("MIDI note %d: %v Hz, want %v", n, got, at)
		}
		at *= semitone
	}
	for written, midi := range map[string]int{"A4": 69, "C4": 60, "B#3": 60, "Cb4": 59, "A0": 21, "C8": 108, "C-1": 0} {
		p, err := theory.ParsePitch(written)
		if err != nil || p.MIDI() != midi {
			t.Errorf("%s is MIDI note %d (%v), want %d", written, p.MIDI(), err, midi)
		}
	}
}
