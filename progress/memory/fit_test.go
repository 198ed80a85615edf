package memory

import (
	"math/rand/v2"
	"testing"
	"time"

	"sparetone/progress"
)

// answersFrom makes a student who forgets just as FSRS-6 says under some weights: sixty items, asked
// when the published weights would have them asked.
func answersFrom(w Weights, n int, rng *rand.Rand) Samples {
	d := NewDerived(DefaultWeights)
	truth := map[string]Memory{}
	var s Samples
	for day := progress.Day(20_000); len(s.All) < n; day++ {
		for i := range 60 {
			item := string(rune('A' + i))
			if m, met := d.Memory[item]; met && !m.IsDue(day) || rng.IntN(3) == 0 {
				continue
			}
			m, met := truth[item]
			a := progress.Answer{Item: item, Drill: "d", At: day.Begins(time.UTC), Result: progress.Wrong, Took: 5 * time.Second}
			if met && rng.Float64() < m.chance(&w, day) {
				a.Result = progress.Right
			}
			truth[item] = m.after(&w, d.gradeNext(a), a.Result, a.Guess(), day, met)
			s.Add(d, a, day)
			d.Add(a, day)
		}
	}
	s.All = s.All[:n]
	return s
}

func TestFitFindsAStudentWhoForgetsSooner(t *testing.T) {
	w := DefaultWeights
	for i := range 4 {
		w[i] *= 0.3
	}
	w[8] -= 0.7
	w[20] = 0.5
	rng := rand.New(rand.NewPCG(1, 2))
	s := answersFrom(w, 1500, rng)
	fitted, better := s.Fit(DefaultWeights)
	if !better {
		t.Fatal("the published weights are held to be as good")
	}
	// Judged by a year of the same student that the fit never saw.
	later := answersFrom(w, 3000, rng)
	score := func(w *Weights) float64 { return later.surprise(w, make([]Memory, len(later.items)), later.All, 0) }
	published, own, true_ := score(&DefaultWeights), score(&fitted), score(&w)
	t.Logf("surprise in nats: published %.0f, fitted %.0f, true %.0f", published, own, true_)
	if own > published-0.7*(published-true_) {
		t.Errorf("the fit closes too little of the gap: published %.0f, fitted %.0f, true %.0f", published, own, true_)
	}
}

func TestFitKeepsWhatIsAsGood(t *testing.T) {
	kept := 0
	for seed := range uint64(10) {
		s := answersFrom(DefaultWeights, 400, rand.New(rand.NewPCG(seed, 9)))
		fitted, better := s.Fit(DefaultWeights)
		if better == (fitted == DefaultWeights) {
			t.Error("weights that are not better were handed back, or better ones were not")
		}
		if !better {
			kept++
		}
	}
	t.Logf("the published weights stayed for %d of 10 students they are true of", kept)
	if kept == 0 {
		t.Error("noise always passes for a finding")
	}
}
