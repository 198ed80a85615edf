package catalogue

import (
	"math/rand/v2"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// forEach makes some questions of every target of every drill.
func forEach(t *testing.T, on *neck.Instrument, seeds int, check func(t *testing.T, q *drills.Question, seed uint64)) {
	for _, d := range All() {
		for _, target := range d.Targets(on) {
			t.Run(d.About().ID+"/"+target.ID, func(t *testing.T) {
				for seed := range uint64(seeds) {
					check(t, trial.Ask(t, d, target.ID, on, seed), seed)
				}
			})
		}
	}
}

func TestNonsenseIsAskedAgain(t *testing.T) {
	forEach(t, trial.Ukulele(t), 2, func(t *testing.T, q *drills.Question, seed uint64) {
		for _, text := range []string{"", "zzz", "99", "\x1b[31m", "nothing at all", strings.Repeat("C E G R ", 100), "0 0 0 0 0 0 0 0 0 0 0 0 0", "C E\x00"} {
			if v, err := q.Mark(text); err == nil {
				t.Errorf("%q was understood as %q", text, v.Given)
			}
		}
	})
}

func TestSameSeedSameQuestion(t *testing.T) {
	other := trial.Ukulele(t)
	forEach(t, trial.Ukulele(t), 10, func(t *testing.T, q *drills.Question, seed uint64) {
		d, _ := ByID(q.Drill)
		again := trial.Ask(t, d, q.Target, other, seed)
		if q.Text() != again.Text() || q.Voice.Name() != again.Voice.Name() || len(q.Choices) != len(again.Choices) {
			t.Errorf("seed %d: %q and %q", seed, q.Text(), again.Text())
		}
		for i := range q.Sounds {
			a, b := q.Sounds[i].Score, again.Sounds[i].Score
			for n := range a.Plucks {
				if a.Plucks[n] != b.Plucks[n] {
					t.Errorf("seed %d: pluck %d: %v and %v", seed, n, a.Plucks[n], b.Plucks[n])
				}
			}
		}
	})
}

func TestEveryTuningHasQuestionsForTheCourse(t *testing.T) {
	for _, tn := range fret.Tunings() {
		on := &neck.Instrument{Tuning: tn, Voices: synth.Voices(), Hand: fret.DefaultHand}
		rng := rand.New(rand.NewPCG(1, 2))
		for _, d := range All() {
			none := 0
			targets := d.Targets(on)
			for _, target := range targets {
				if _, err := d.Ask(drills.Request{Target: target.ID, On: on, Rand: rng}); err != nil {
					none++
					t.Logf("%s: %s: %v", tn.Name, d.About().ID, err)
				}
			}
			if none == len(targets) {
				t.Errorf("%s has no question for %s", tn.Name, d.About().ID)
			}
		}
	}
}
