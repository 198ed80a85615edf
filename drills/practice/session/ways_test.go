package session

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"sparetone/drills/trial"
	"sparetone/progress/pupils"
)

// What is taught in the first week by those who see into heads and keep the course's order, each going a way drawn at random: the most that
// any of them teaches with so many answers right, to the ladder. It is no bound, but the best that was found, by the very students it is told of.
//
//	SPARETONE_STUDY=1 go test -run WaysOfWhoSees -v -timeout 2h ./drills/practice/session
//
// The same variables run a part of it as of the study of what the planner is worth.
func TestWaysOfWhoSees(t *testing.T) {
	c := taught(t)
	run, ways := part{kinds: []string{"ears"}, students: 2, seed: forTelling}, 6
	if trial.Whole() {
		run, ways = partOf(t, 24, 7), 250
	}
	run.days = pupils.Measured[0]
	for number, kind := range pupils.Kinds {
		if !wanted(run.kinds, kind.Name) {
			continue
		}
		ladder := practised(c, number, kind, pupils.Teachers[1], run, pupils.Away{})
		of := func(teacher pupils.TeacherKind) (known, right, low float64) {
			all := practised(c, number, kind, teacher, run, pupils.Away{})
			known, _ = pupils.Ratio(all, ladder, 0, 0)
			right, low = pupils.HowItFeels(all)
			return known, right, low
		}
		known, right, low := of(pupils.Teachers[0])
		t.Logf("%-7s planner: %.2f of the ladder, right %.2f, sessions under half right %.2f", kind.Name, known, right, low)
		least := []float64{0, 0.5, 0.55, 0.6, 0.65, 0.7}
		best := make([]float64, len(least))
		found := make([]string, len(least))
		rng := rand.New(rand.NewPCG(7, 7))
		for range ways {
			way := drawnWay(rng)
			known, right, low := of(way.Teacher())
			for i, share := range least {
				if right >= share && known > best[i] {
					best[i] = known
					found[i] = fmt.Sprintf("right %.2f, sessions under half right %.2f: %+v", right, low, way)
				}
			}
		}
		for i, share := range least {
			t.Logf("%-7s who sees, with %.2f right at least: %.2f of the ladder, %s", kind.Name, share, best[i], found[i])
		}
		if known > best[0] {
			t.Errorf("%s: who does not see teaches more", kind.Name)
		}
	}
}

// drawnWay is some way to choose.
func drawnWay(rng *rand.Rand) pupils.Way {
	between := func(a, b float64) float64 { return a * math.Pow(b/a, rng.Float64()) }
	oneOf := func(of ...float64) float64 { return of[rng.IntN(len(of))] }
	w := pupils.Way{New: between(0.003, 0.03), Later: oneOf(1, 3, 7, 14), Today: oneOf(0.1, 0.3, 0.6, 1, 1.5), Yesterday: oneOf(0.5, 0.8, 1, 1.3), Times: rng.IntN(4)}
	if rng.IntN(3) > 0 {
		w.Right = between(0.01, 0.4)
	}
	return w
}
