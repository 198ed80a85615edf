package session

import (
	"errors"
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// looking is a drill that asks one thing only, and keeps how far along the neck it was asked to look.
type looking struct {
	reach *[]float64
	fails int // number of the question from which on there is none
}

func (looking) About() drills.About                      { return drills.About{ID: "doubled"} }
func (looking) Targets(*neck.Instrument) []drills.Target { return nil }
func (looking) Rungs(string) []drills.Rung               { return drills.NeckRungs }

var errNone = errors.New("none")

func (l looking) Ask(r drills.Request) (*drills.Question, error) {
	*l.reach = append(*l.reach, r.Reach)
	if len(*l.reach) == l.fails {
		return nil, errNone
	}
	return &drills.Question{Drill: "looking", Prompt: say.Of("What?"), Shown: &fret.Voicing{Shape: fret.Shape{0, 0, 0, 3}}}, nil
}

// Where every question was shown 32 are looked at, eight on each rung from that on which it is to be asked, and the first
// of those shown longest ago is asked.
func TestHowManyQuestionsAreLookedAt(t *testing.T) {
	on := trial.Played(t, "ukulele")
	var seen revealed
	asked, err := seen.fresh(looking{reach: new([]float64)}, drills.Request{On: on}, 1, rand.New(rand.NewPCG(1, 1)))
	if err != nil || asked.given != 0 {
		t.Fatal(asked.given, err)
	}
	seen.add(asked.Question, drills.Verdict{})
	var reach []float64
	if asked, err = seen.fresh(looking{reach: &reach}, drills.Request{On: on}, 2, rand.New(rand.NewPCG(1, 1))); err != nil || asked.given != 1 || asked.rung != 2 {
		t.Errorf("given away by question %d, on rung %d, %v", asked.given, asked.rung, err)
	}
	if len(reach) != 32 {
		t.Fatalf("%d questions were looked at", len(reach))
	}
	for n, want := range map[int]float64{0: 1. / 3, 7: 1. / 3, 8: 2. / 3, 15: 2. / 3, 16: 1, 31: 1} {
		if diff := reach[n] - want; diff > 1e-12 || diff < -1e-12 {
			t.Errorf("for question %d it looks as far as %v, not %v", n+1, reach[n], want)
		}
	}
	// Where there are no more, the best of those there were is asked; where there is none at all it says so.
	reach = nil
	if q, err := seen.fresh(looking{&reach, 3}, drills.Request{On: on}, 1, rand.New(rand.NewPCG(1, 1))); q.Question == nil || q.given != 1 || err != nil || len(reach) != 3 {
		t.Errorf("%v, %v, after %d", q, err, len(reach))
	}
	reach = nil
	if _, err := seen.fresh(looking{&reach, 1}, drills.Request{On: on}, 1, rand.New(rand.NewPCG(1, 1))); !errors.Is(err, errNone) {
		t.Errorf("where there is no question: %v", err)
	}
}

// Worth asking of a drill is what the planner wants: what can be begun, and what was missed, but nothing of other drills.
func TestWhatIsWantedOfADrill(t *testing.T) {
	s, now := sitting(t, Setup{Drills: []string{"chord-ear", "doubled"}, Seed: 3})
	d := drill(t, "chord-ear")
	first := s.wanted(d, *now)
	if len(first) == 0 {
		t.Fatal("nothing can be begun")
	}
	for _, target := range first {
		if !s.planner.Wanted(s.itemID(d, target), *now) {
			t.Errorf("%s is not wanted", target)
		}
	}
	for {
		asked, err := s.Next()
		if err != nil {
			t.Fatal(err)
		}
		if asked.Drill != "chord-ear" {
			if _, err := s.Answer(asked.Expected().Typed); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if _, err := s.Answer(asked.Expected().Typed); err != nil {
			t.Fatal(err)
		}
		if slices.Contains(s.wanted(d, *now), asked.Target) {
			t.Errorf("%s was right and is wanted still", asked.Target)
		}
		break
	}
}
