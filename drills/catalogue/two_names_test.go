package catalogue

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/ear"
	"sparetone/drills/shapes"
	"sparetone/drills/trial"
	"sparetone/theory"
	"sparetone/theory/read"
)

// Where a shape has two right names the reveal says both, whichever was answered.
func TestBothNamesAreSaid(t *testing.T) {
	on := trial.Ukulele(t)
	for _, row := range []struct {
		drill  drills.Drill
		target string
	}{{shapes.Name{}, "major-sixth"}, {shapes.Name{}, "suspended-second"}, {ear.Chord{}, "minor-seventh"}, {ear.Chord{}, "suspended-fourth"}} {
		for seed := range uint64(4) {
			q := trial.Ask(t, row.drill, row.target, on, seed)
			for _, text := range answersTo(q) {
				v, err := q.Mark(text)
				if err != nil {
					t.Fatal(err)
				}
				names := chord.RightNames(v.Shapes[0].Voicing)
				if len(names) < 2 {
					t.Fatalf("%s %s has the names %v", row.drill.About().ID, row.target, names)
				}
				said := theory.Chord{}
				atOnce := strings.Fields(strings.NewReplacer(",", "", "also ", "", "and ", "").Replace(v.Shapes[0].Caption.Screen()))
				for _, n := range names {
					if !slices.ContainsFunc(atOnce, func(symbol string) bool {
						c, err := read.Chord(trial.Typed(symbol))
						said = c
						return err == nil && c.Kind == n.Kind && c.Root.Same(n.Root)
					}) {
						t.Errorf("%s, answered %q: %s is not said in %q", q.Text(), text, n, atOnce)
					}
				}
				if whole := strings.Join(trial.Printed(append(v.Lines, v.Short)), " "); !strings.Contains(whole, said.Symbol()) && !strings.Contains(whole, said.String()) && !strings.Contains(v.Expected.Screen(), said.String()) {
					t.Errorf("%s, answered %q: %s is not said in %q", q.Text(), text, said, whole)
				}
			}
		}
	}
}

// Who is asked for a kind of chord and names it right is told at once what the chord is made of, and no other name of it, which would read as
// if the answer had been another; that is for who asks why.
func TestARightKindIsNotCorrected(t *testing.T) {
	on := trial.Ukulele(t)
	for _, target := range []string{"minor-seventh", "major-sixth", "suspended-fourth"} {
		for seed := range uint64(4) {
			q := trial.Ask(t, ear.Chord{}, target, on, seed)
			v, err := q.Mark(q.Expected().Typed)
			if err != nil {
				t.Fatal(err)
			}
			is := v.Shapes[0].Voicing
			if want := is.Chord.String() + " has the notes "; !strings.HasPrefix(v.Short.Screen(), want) {
				t.Errorf("%s: %q is said at once, which does not begin %q", target, v.Short.Screen(), want)
			}
			other := chord.NamesBeside(chord.RightNames(is), is.Chord)[0]
			if want := "The same notes are also called " + other.String(); !strings.HasPrefix(v.Lines[0].Screen(), want) {
				t.Errorf("%s: why begins with %q, not %q", target, v.Lines[0].Screen(), want)
			}
		}
	}
}
