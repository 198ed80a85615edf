package catalogue

import (
	"bufio"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"sparetone/drills/chord"
	"sparetone/drills/harmony"
	"sparetone/drills/shapes"
	"sparetone/drills/trial"
	"sparetone/drills/wording"
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// tableRows reads a table of testdata/theory; its README names the source of each.
func tableRows(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/theory/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	var out [][]string
	lines := bufio.NewScanner(f)
	for lines.Scan() {
		if !strings.HasPrefix(lines.Text(), "#") {
			out = append(out, strings.Split(lines.Text(), "\t"))
		}
	}
	return out
}

// The names of shapes that stand in the open data are marked right, and the marked name is one of the data's.
// Source: npm @tombatossals/chords-db 0.5.1, the ukulele part. Left out are the data's shapes that sound a note
// outside their chord, which theory/fret lists one by one, and those that do not sound its root.
func TestMarkedNamesAgreeWithTheOpenShapes(t *testing.T) {
	on := trial.Ukulele(t)
	data := map[string][]theory.Chord{} // by shape
	for _, row := range tableRows(t, "ukulele-shapes.tsv") {
		suffix, ok := map[string]string{"major": "", "minor": "m"}[row[1]]
		if !ok {
			suffix = row[1]
		}
		c, err := read.Chord(row[0] + suffix)
		if err != nil || !slices.ContainsFunc(chord.AskedKinds, func(k chord.AskedKind) bool { return k.ID == c.Kind.ID }) {
			continue
		}
		s, err := fret.ParseShape(row[3])
		if err != nil {
			t.Fatal(err)
		}
		v, err := fret.Voice(on.Tuning, s, c)
		if err != nil {
			t.Fatal(err)
		}
		foreign := slices.ContainsFunc(v.Strings, func(s fret.StringTone) bool { return s.Foreign })
		if !foreign && len(wording.StringsWith(v, theory.Unison)) > 0 {
			data[s.String()] = append(data[s.String()], c)
		}
	}
	rng := rand.New(rand.NewPCG(2, 22))
	d := shapes.Name{}
	met, names := map[string]bool{}, 0
	for range trial.StudyOf(1500, 20000) {
		q, err := d.Ask(anyRequest(d, on, rng))
		if err != nil {
			t.Fatal(err)
		}
		known := data[q.Shown.Shape.String()]
		if len(known) == 0 || met[q.Shown.Shape.String()] {
			continue
		}
		met[q.Shown.Shape.String()] = true
		for _, c := range known {
			names++
			if v, err := q.Mark(c.Symbol()); err != nil || v.Result != progress.Right {
				t.Errorf("%s is %s in the data and marked %v, %v; expected %s", q.Shown.Shape, c, v.Result, err, q.Expected().Said.Screen())
			}
		}
		if !chord.IsNamed(known, q.Shown.Chord) {
			t.Logf("%s: the data has %v and not %s", q.Shown.Shape, known, q.Expected().Said.Screen())
		}
	}
	if len(met) < 100 {
		t.Errorf("only %d questions had a shape of the data", len(met))
	}
	t.Logf("%d shapes, %d names", len(met), names)
}

// The notes that spell expects are those of npm @tonaljs/chord-type 5.2.0, on every root.
func TestSpelledAnswersAgreeWithTheChordTypes(t *testing.T) {
	on, d := trial.Ukulele(t), harmony.Spell{}
	formulas := map[string][]theory.Interval{} // by alias
	for _, row := range tableRows(t, "chord-types.tsv") {
		var tones []theory.Interval
		for _, w := range strings.Fields(row[0]) {
			number := strings.TrimRight(w, "PMmAd")
			i, err := theory.ParseInterval(w[len(number):] + number)
			if err != nil {
				t.Fatal(err)
			}
			tones = append(tones, i)
		}
		for _, alias := range strings.Split(row[1], "|") {
			formulas[alias] = tones
		}
	}
	for _, row := range chord.AskedKinds {
		k := chord.Kind(row.ID)
		n := slices.IndexFunc(k.Symbols, func(s string) bool { return len(formulas[s]) > 0 || s == "" && len(formulas["M"]) > 0 })
		if row.ID == "added-fourth" {
			continue // the data has no such chord
		}
		if n < 0 {
			t.Errorf("%s: none of %q is an alias of the data", row.ID, k.Symbols)
			continue
		}
		tones := formulas[k.Symbols[n]]
		if k.Symbols[n] == "" {
			tones = formulas["M"]
		}
		for seed := range uint64(40) {
			q := trial.Ask(t, d, row.ID, on, seed)
			got := chord.MustNotes(q.Expected().Typed)
			var want []theory.Note
			for _, i := range tones {
				want = append(want, got[0].Up(i))
			}
			if !slices.Equal(got, want) {
				t.Errorf("%s: expected %v, the data has %v", q.Prompt, got, want)
			}
		}
	}
}
