package neck

import (
	"slices"
	"testing"

	"sparetone/drills/chord"
	"sparetone/theory/fret"
)

// Where no table says what players are taught, what is new is asked of common chords in the easiest of their shapes that lie low.
func TestWithoutATableLowShapesComeFirst(t *testing.T) {
	for _, row := range []struct {
		tuning, target string
		want           []string // some of them
	}{
		{"banjo", "major", []string{"G 00000", "C 02012", "D x0234"}},
		{"banjo", "minor", []string{"Em 02002", "Am x2212"}},
		{"cavaquinho", "major", []string{"G 0000", "C 2012", "D 0234"}},
		{"charango", "major", []string{"F 20101", "C 00030", "G 02323", "D 22202"}},
		{"charango", "minor", []string{"Am 20000", "Em 04323", "Dm 22101"}}, // from memory, as the others
		{"plectrum-banjo", "major", nil},
		{"bass", "minor", nil},
		{"guitar-dadgad", "major", nil},
	} {
		on, err := NewInstrument(row.tuning, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		if len(fret.Lessons(on.Tuning)) > 0 {
			t.Fatalf("%s has a table", row.tuning)
		}
		first := on.FirstShapes(chord.Kind(row.target))
		if len(first) < fewestFirst {
			t.Errorf("%s: only %d %s chords come first", row.tuning, len(first), row.target)
		}
		var got []string
		for n, h := range first {
			got = append(got, h.Chord.Symbol()+" "+h.Shape.String())
			if slices.Max(h.Shape) > lowFrets {
				t.Errorf("%s: %s lies high", row.tuning, got[n])
			}
			for _, easier := range on.Shapes(h.Chord) {
				if easier.Effort <= h.Effort-oneFinger && slices.Max(easier.Shape) <= lowFrets && Sounding(easier.Shape) >= Sounding(h.Shape) {
					t.Errorf("%s: %s comes first, and %s is easier", row.tuning, got[n], easier.Shape)
				}
			}
			if isCommon := slices.ContainsFunc(commonChords[row.target], h.Chord.Root.Same); !isCommon && n < len(on.TaughtShapes(h.Chord.Kind).first) {
				t.Errorf("%s: %s is no common chord", row.tuning, got[n])
			}
		}
		t.Logf("%s: %v", row.tuning, got)
		for _, w := range row.want {
			if !slices.Contains(got, w) {
				t.Errorf("%s: %s does not come first, but %v", row.tuning, w, got)
			}
		}
	}
}

// A capo moves what sounds, and not which shapes are met first.
func TestACapoLeavesLowShapes(t *testing.T) {
	for _, tuning := range []string{"charango", "banjo", "D3 A3 D4"} {
		for _, kind := range []string{"major", "minor", "dominant"} {
			shapes := func(capo int) (out []string) {
				on, err := NewInstrument(tuning, capo, "")
				if err != nil {
					t.Fatal(err)
				}
				for _, h := range on.TaughtShapes(chord.Kind(kind)).first {
					out = append(out, h.Shape.String())
				}
				slices.Sort(out)
				return out
			}
			if open, capoed := shapes(0), shapes(3); !slices.Equal(open, capoed) {
				t.Errorf("%s, %s: %v, with a capo %v", tuning, kind, open, capoed)
			}
		}
	}
}
