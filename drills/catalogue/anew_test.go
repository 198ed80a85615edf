package catalogue

import (
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/ear"
	"sparetone/drills/fair"
	"sparetone/drills/harmony"
	"sparetone/drills/shapes"
	"sparetone/drills/trial"
)

// Which of the choices is asked for is drawn anew: each equally often, whatever the question was made around; a further
// question with the same Anew has the same choices and asks for the same.
func TestAnyOfTheChoicesIsAskedFor(t *testing.T) {
	on := trial.Ukulele(t)
	for _, c := range []struct {
		drill  drills.Drill
		around string
	}{
		{ear.Interval{}, "M3"}, {ear.Chord{}, "dominant"}, {ear.AddedNote{}, "added-ninth"}, {ear.AddedNote{}, "dominant-alone"}, {shapes.Name{}, "minor"},
		{shapes.Doubled{}, "third"}, {harmony.Spell{}, "fifth-of-triad"}, {harmony.Resolve{}, "dominant"}, {harmony.ProgressionEar{}, "1-4-5"}, {harmony.ProgressionEar{}, "with-a-sixth"},
	} {
		const count = 400
		places := map[int]map[int]int{} // by how many choices there are
		for n := range count {
			anew := drills.NewAnew(func(string) bool { return true }, rand.New(rand.NewPCG(uint64(n), 5)))
			var first *drills.Question
			for try := range 3 {
				q, err := c.drill.Ask(drills.Request{Target: c.around, On: on, Anew: anew, Rand: rand.New(rand.NewPCG(uint64(n), uint64(try)))})
				if err != nil {
					t.Fatalf("%s around %s: %v", c.drill.About().ID, c.around, err)
				}
				if q.Target != anew.Target() {
					t.Fatalf("%s around %s asks for %s, not %s", c.drill.About().ID, c.around, q.Target, anew.Target())
				}
				if first == nil {
					first = q
				} else if q.Target != first.Target || len(q.Choices) != len(first.Choices) {
					t.Errorf("%s around %s: %s, then %s", c.drill.About().ID, c.around, first.Target, q.Target)
				}
			}
			among := (&drills.Request{Anew: anew}).Among()
			k := len(among)
			if places[k] == nil {
				places[k] = map[int]int{}
			}
			places[k][slices.Index(among, anew.Target())]++
		}
		for k, at := range places {
			total := 0
			for _, n := range at {
				total += n
			}
			for place := range k {
				// Five standard deviations of what is drawn evenly.
				even := float64(total) / float64(k)
				if off := float64(at[place]) - even; off*off > 25*even {
					t.Errorf("%s around %s: of %d choices the one at %d is asked for %d times of %d", c.drill.About().ID, c.around, k, place+1, at[place], total)
				}
			}
		}
	}
}

// Whether two chords are alike, and which comes first, stays as it was drawn when the question is made again: what
// was shown before would weigh in on it otherwise.
func TestTheSameIsAskedOfTwoChords(t *testing.T) {
	on := trial.Ukulele(t)
	for _, target := range []string{"major-or-minor", "which-has-dominant"} {
		right := map[string]int{}
		for n := range uint64(200) {
			anew := drills.NewAnew(nil, rand.New(rand.NewPCG(n, 5)))
			first := ""
			for try := range uint64(4) {
				q, err := ear.SameOrNot{}.Ask(drills.Request{Target: target, On: on, Anew: anew, Rand: rand.New(rand.NewPCG(n, try))})
				if err != nil {
					t.Fatal(err)
				}
				if first == "" {
					first = q.Expected().ID
					right[first]++
				} else if q.Expected().ID != first {
					t.Fatalf("%s: %s, then %s", target, first, q.Expected().ID)
				}
			}
		}
		for id, n := range right {
			if n < 65 || n > 135 { // five standard deviations
				t.Errorf("%s: %s is right %d times of 200", target, id, n)
			}
		}
	}
}

// What the session has not in its course is never drawn.
func TestOnlyWhatTheCourseHasIsDrawn(t *testing.T) {
	for n := range uint64(100) {
		anew := drills.NewAnew(func(id string) bool { return id == "P5" }, rand.New(rand.NewPCG(n, 5)))
		q, err := ear.Interval{}.Ask(drills.Request{Target: "P8", On: trial.Ukulele(t), Anew: anew, Rand: rand.New(rand.NewPCG(n, 6))})
		if err != nil || q.Target != "P8" && q.Target != "P5" {
			t.Errorf("%s is asked for, %v", q.Target, err)
		}
	}
}

// What is worth asking comes first among the choices, and others fill them up.
func TestWhatIsWantedStandsAmongTheChoices(t *testing.T) {
	all := ear.Interval{}.Targets(trial.Ukulele(t))
	for _, c := range []struct {
		wanted []string
		count  int
	}{{nil, drills.MostChoices}, {[]string{}, 4}, {[]string{"m3", "P4"}, 4}, {[]string{"m3", "P4", "M6", "m7", "P8", "P5"}, drills.MostChoices}} {
		for seed := range uint64(30) {
			got, err := fair.Pick(all, drills.Request{Target: "M3", Wanted: c.wanted, Rand: rand.New(rand.NewPCG(seed, 1))}, fair.Never)
			if err != nil || len(got) != c.count {
				t.Fatalf("%d choices, %v, want %d", len(got), err, c.count)
			}
			stand := 0
			for _, g := range got {
				if slices.Contains(c.wanted, g.ID) {
					stand++
				}
			}
			if want := min(len(c.wanted), drills.MostChoices-1); stand != want {
				t.Errorf("%d of %v stand among the choices, want %d", stand, c.wanted, want)
			}
		}
	}
}
