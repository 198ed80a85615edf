package catalogue

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/guesser"
	"sparetone/drills/neck"
	"sparetone/drills/shapes"
	"sparetone/drills/trial"
)

// What is new in the drills that show shapes lies on the shapes that players are taught, those first that they meet first.
func TestWhatIsNewIsAskedOnFirstShapes(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar", "baritone", "mandolin"} {
		on := trial.Instrument(t, name)
		first := trial.MetFirst(on)
		for _, d := range []drills.Drill{shapes.Name{}, shapes.Tones{}, shapes.Build{}} {
			for _, target := range []string{"major", "minor"} {
				for seed := range uint64(30) {
					q, err := d.Ask(drills.Request{Target: target, On: on, InPlay: []string{"major", "minor"}, Rand: rand.New(rand.NewPCG(seed, 1))})
					if err != nil {
						t.Fatal(err)
					}
					shape := q.Expected().Typed
					if q.Shown != nil {
						shape = q.Shown.Shape.String()
					}
					is := q.Solution().Shapes[0].Voicing.Chord.Symbol() + " " + shape
					if !slices.Contains(first, is) {
						t.Errorf("%s on %s, %s: %s is asked first", d.About().ID, name, target, is)
					}
				}
			}
		}
	}
	on := trial.Ukulele(t)
	for reach, all := range map[float64]bool{0: true, neck.NewReach - 0.01: true, neck.NewReach: false} {
		if got := len(on.ShapesOf(chord.Kind("major"), reach)); (got == 5) != all {
			t.Errorf("%d shapes of major chords at reach %.2f", got, reach)
		}
	}
	if got := on.FirstShapes(chord.Kind("dominant")); len(got) != 3 || got[0].Chord.Symbol() != "G7" {
		t.Errorf("sevenths are met as %v first", got)
	}
}

// A new shape is told from others of the first that look as it does, as many of either kind, so that neither a name, a kind,
// the place on the neck nor the number of strings tells more than chance. What looks like none of the other kind comes seldom:
// C on the ukulele and G on the baritone lie at a place of their own; on the guitar only C and Am, and G and Em, share both
// place and strings.
func TestFirstMeetingsAreFair(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar", "baritone", "mandolin"}[:trial.StudyOf(2, 4)] {
		on := trial.Instrument(t, name)
		rng := rand.New(rand.NewPCG(4, 44))
		var asked []met
		shown := map[string]int{}
		for range allOfEach {
			target := []string{"major", "minor"}[rng.IntN(2)]
			q, err := shapes.Name{}.Ask(drills.Request{Target: target, On: on, InPlay: []string{"major", "minor"}, Rand: rng})
			if err != nil {
				t.Fatal(err)
			}
			asked = append(asked, met{Question: q})
			shown[q.Shown.Chord.Symbol()+" "+q.Shown.Shape.String()]++
		}
		chance, figures := fairChoices(t, asked)
		for _, f := range figures {
			if f.has {
				t.Logf("%s: %s %+.1f above %.0f %%", name, f.feature, f.above, 100*chance)
			}
			if f.has && f.above > mostAboveChance {
				t.Errorf("%s: %s alone guesses %.1f points above chance", name, f.feature, f.above)
			}
		}
		above := strung(asked)
		t.Logf("%s: strings that sound %+.1f; %v", name, above, shown)
		if above > mostAboveChance {
			t.Errorf("%s: the number of strings alone guesses %.1f points above chance", name, above)
		}
		for _, first := range trial.MetFirst(on) {
			kind := strings.Fields(first)[0]
			if strings.HasSuffix(kind, "7") {
				continue
			}
			lone := slices.Contains([]string{"C 0003", "G 0003", "E 022100", "A x02220", "D xx0232", "Dm xx0231"}, first)
			if shown[first] == 0 || !lone && shown[first] < len(asked)/20 {
				t.Errorf("%s: %s is asked %d times of %d", name, first, shown[first], len(asked))
			}
		}
	}
}

// strung returns how many points above chance the number of strings that sound guesses.
func strung(asked []met) float64 {
	all, chance := []guesser.Guess{}, 0.0
	for n, q := range asked {
		g := guesser.Guess{Right: slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID == q.Expected().ID }), Half: n % 2}
		for _, c := range q.Choices {
			g.Known = append(g.Known, fmt.Sprint(neck.Sounding(q.Shown.Shape), c.ID))
		}
		all = append(all, g)
		chance += 1 / float64(len(q.Choices)) / float64(len(asked))
	}
	return 100 * (guesser.Share(all) - chance)
}
