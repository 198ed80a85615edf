package drills

import (
	"math/rand/v2"
	"strings"
	"testing"

	"sparetone/synth"
	"sparetone/theory/fret"
)

// ukulele is the instrument most tests play.
func ukulele(t testing.TB) *Instrument { return instrument(t, "ukulele") }

func instrument(t testing.TB, tuning string) *Instrument {
	t.Helper()
	tn, err := fret.ParseTuning(tuning)
	if err != nil {
		t.Fatal(err)
	}
	return &Instrument{Tuning: tn, Voices: synth.Voices(), Hand: fret.DefaultHand}
}

// ask makes a question from a seed.
func ask(t testing.TB, d Drill, target string, on *Instrument, seed uint64) *Question {
	t.Helper()
	q, err := d.Ask(Request{Target: target, On: on, Rand: QuestionRand(d.About().ID, target, seed)})
	if err != nil {
		t.Fatalf("%s %s seed %d: %v", d.About().ID, target, seed, err)
	}
	return q
}

// forEach makes some questions of every target of every drill.
func forEach(t *testing.T, on *Instrument, seeds int, check func(t *testing.T, q *Question, seed uint64)) {
	for _, d := range All() {
		for _, target := range d.Targets(on) {
			t.Run(d.About().ID+"/"+target.ID, func(t *testing.T) {
				for seed := range uint64(seeds) {
					check(t, ask(t, d, target.ID, on, seed), seed)
				}
			})
		}
	}
}

func TestNonsenseIsAskedAgain(t *testing.T) {
	forEach(t, ukulele(t), 2, func(t *testing.T, q *Question, seed uint64) {
		for _, text := range []string{"", "zzz", "99", "\x1b[31m", "nothing at all", strings.Repeat("C E G R ", 100), "0 0 0 0 0 0 0 0 0 0 0 0 0", "C E\x00"} {
			if v, err := q.Mark(text); err == nil {
				t.Errorf("%q was understood as %q", text, v.Given)
			}
		}
	})
}

func TestSameSeedSameQuestion(t *testing.T) {
	other := ukulele(t)
	forEach(t, ukulele(t), 10, func(t *testing.T, q *Question, seed uint64) {
		d, _ := ByID(q.Drill)
		again := ask(t, d, q.Target, other, seed)
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
		on := &Instrument{Tuning: tn, Voices: synth.Voices(), Hand: fret.DefaultHand}
		rng := rand.New(rand.NewPCG(1, 2))
		for _, d := range All() {
			none := 0
			targets := d.Targets(on)
			for _, target := range targets {
				if _, err := d.Ask(Request{Target: target.ID, On: on, Rand: rng}); err != nil {
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
