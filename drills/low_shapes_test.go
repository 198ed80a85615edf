package drills

import (
	"slices"
	"testing"

	"sparetone/theory/fret"
)

// Where no table says what players are taught, what is new is asked of common chords in the easiest of their shapes that lie low.
func TestWithoutATableLowShapesComeFirst(t *testing.T) {
	for _, row := range []struct {
		tuning, target string
		want           []string // some of them
	}{
		{"banjo", "major", []string{"G 00000", "C 02012"}},
		{"banjo", "minor", nil},
		{"cavaquinho", "major", []string{"G 0000", "C 2012"}},
		{"charango", "major", []string{"F 20101", "C 00030"}},
		{"charango", "minor", []string{"Am 20000"}},
		{"plectrum-banjo", "major", nil},
		{"bass", "minor", nil},
		{"guitar-dadgad", "major", nil},
	} {
		on := instrument(t, row.tuning)
		if len(fret.Lessons(on.Tuning)) > 0 {
			t.Fatalf("%s has a table", row.tuning)
		}
		first := on.firstShapes(mustKind(row.target))
		if len(first) < fewestFirst {
			t.Errorf("%s: only %d %s chords come first", row.tuning, len(first), row.target)
		}
		var got []string
		for n, h := range first {
			got = append(got, h.chord.Symbol()+" "+h.shape.String())
			if slices.Max(h.shape) > lowFrets {
				t.Errorf("%s: %s lies high", row.tuning, got[n])
			}
			for _, easier := range on.shapes(h.chord) {
				if easier.effort < h.effort && slices.Max(easier.shape) <= lowFrets && sounding(easier.shape) >= sounding(h.shape) {
					t.Errorf("%s: %s comes first, and %s is easier", row.tuning, got[n], easier.shape)
				}
			}
			if isCommon := slices.ContainsFunc(commonChords[row.target], h.chord.Root.Same); !isCommon && n < len(on.taughtShapes(h.chord.Kind).first) {
				t.Errorf("%s: %s is no common chord", row.tuning, got[n])
			}
		}
		t.Logf("%s: %v", row.tuning, got)
		for _, w := range row.want {
			if !slices.Contains(got, w) {
				t.Errorf("%s: %s does not come first, but %v", row.tuning, w, got)
			}
		}
		for _, d := range []Drill{shapeName{}, shapeTones{}, build{}} {
			for seed := range uint64(12) {
				q, err := d.Ask(Request{Target: row.target, On: on, InPlay: []string{"major", "minor"}, First: true, Rand: QuestionRand(d.About().ID, row.target, seed)})
				if err != nil {
					t.Fatal(err)
				}
				is := q.Solution().Shapes[0].Voicing
				if !slices.ContainsFunc(first, func(h held) bool { return h.chord.Root.Same(is.Chord.Root) }) {
					t.Errorf("%s on %s asks %s first", d.About().ID, row.tuning, is.Chord)
				}
			}
		}
	}
}
