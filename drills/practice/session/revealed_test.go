package session

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/trial"
	"sparetone/progress/plan"
)

// A session asks each question for what it says it asks, and keeps the answer under that.
func TestWhatIsAskedIsWhatIsKept(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 11})
	drawn := 0
	for {
		asked, err := s.Next()
		if err != nil {
			t.Fatal(err)
		}
		if asked == nil {
			break
		}
		if want := drills.ItemID(asked.Drill, asked.Target, "ukulele"); asked.Item != want {
			t.Errorf("%s is kept as %s", want, asked.Item)
		}
		if asked.Tells && asked.Form != drills.Choose {
			t.Errorf("%s: why could tell, without choices", asked.Item)
		}
		if asked.Why.Screen() == whys[plan.Beside].Screen() {
			drawn++
		}
		*now = now.Add(6 * time.Second)
		if _, err := s.Answer(asked.Expected().Typed); err != nil {
			t.Fatal(err)
		}
		if !s.planner.Met(asked.Item) {
			t.Errorf("%s was not met", asked.Item)
		}
	}
	if drawn == 0 {
		t.Error("nothing was drawn from the choices")
	}
}

// What the reveal of one question shows gives no answer to the next, as long as there is another question to ask; else
// it is the one that was shown longest ago. What is new and learned by heart comes again.
func TestRevealsGiveNothingAway(t *testing.T) {
	on := trial.Played(t, "ukulele")
	for _, id := range []string{"chord-ear", "shape-name", "shape-tones", "doubled", "build", "swap", "spell", "key-add", "interval-ear"} {
		d := drill(t, id)
		var seen revealed
		rng := rand.New(rand.NewPCG(3, 9))
		for n := range 8 {
			target := d.Targets(on)[0].ID
			found, err := seen.fresh(d, drills.Request{Target: target, On: on}, 1, rng)
			if err != nil {
				t.Fatal(err)
			}
			q := found.Question
			if at := seen.gives(q); at != 0 && !(d.About().ByHeart && n+1-at > againAfter) {
				t.Errorf("%s: question %d is given away by question %d: %s", d.About().ID, n+1, at, q.Text())
			}
			v, err := q.Mark(q.Expected().Typed)
			if err != nil {
				t.Fatal(err)
			}
			seen.add(q, v)
			if seen.gives(q) != n+1 {
				t.Errorf("%s: %s is not given away by its own reveal", d.About().ID, q.Text())
			}
		}
	}
	// All is given away: the oldest comes.
	q := func(subject string) *drills.Question {
		return &drills.Question{Drill: "d", Subject: subject}
	}
	var seen revealed
	for n := range 3 {
		seen.add(q(fmt.Sprint(n)), drills.Verdict{})
	}
	order := few{Drill: drill(t, "key-add"), questions: []*drills.Question{q("2"), q("0"), q("1")}}
	if got, err := seen.fresh(&order, drills.Request{On: on}, 1, rand.New(rand.NewPCG(1, 1))); err != nil || got.Subject != "0" || order.asked != mostTries || got.given != 1 {
		t.Errorf("%q after %d tries, %v", got.Subject, order.asked, err)
	}
}

// few is a drill of a few questions in turn.
type few struct {
	drills.Drill
	questions []*drills.Question
	asked     int
}

func (f *few) Ask(drills.Request) (*drills.Question, error) {
	f.asked++
	return f.questions[f.asked%len(f.questions)], nil
}

// A drill of which all was shown is passed over as long as another has something that was not. What is new and learned by
// heart comes again after some other questions, and what is shown just before it is asked for the first time was to be shown.
func TestWhatWasShownIsPassedOver(t *testing.T) {
	const questions = 90
	for seed := range uint64(4) {
		s, now := sitting(t, Setup{Drills: []string{"build", "doubled", "spell", "resolve", "progression-ear"}, Seed: seed})
		for range questions {
			asked, err := s.Next()
			if err != nil || asked == nil {
				t.Fatal(asked, err)
			}
			if at := s.shown.gives(asked.Question); at != 0 && asked.Instead == nil && !(asked.Again && asked.Number-at > againAfter) {
				t.Errorf("seed %d: question %d is given away by question %d: %s", seed, asked.Number, at, asked.Text())
			}
			*now = now.Add(5 * time.Second)
			if _, err := s.Answer(drills.Unknown); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// What is new and learned by heart stays on the shapes that players meet first, however often they were shown; a miss brings no
// shape from far along the neck.
func TestNewShapesStayTheFirstOnes(t *testing.T) {
	for tuning, first := range map[string][]string{"ukulele": {"2010", "2100", "2210", "2000", "0232", "2220", "0432"}, "guitar": {"x32010", "x02220", "xx0232", "x02210", "022100", "320003", "022000", "xx0231"}} {
		step, _ := course.StepByID("first-shapes")
		s, now := sittingOn(t, tuning, Setup{Course: course.Course{step}, Seed: 3})
		for range 14 {
			asked, err := s.Next()
			if err != nil || asked == nil {
				t.Fatal(asked, err)
			}
			if shape := asked.Shown.Shape.String(); !slices.Contains(first, shape) || !asked.Again {
				t.Errorf("%s, question %d: %s, again %v", tuning, asked.Number, shape, asked.Again)
			}
			*now = now.Add(5 * time.Second)
			if _, err := s.Answer(drills.Unknown); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// A question is passed over whichever of its choices is given away, so that what was asked lately is asked for as often as the others.
func TestGivenAwayWhicheverIsAskedFor(t *testing.T) {
	on, d := trial.Played(t, "ukulele"), drill(t, "added-ear")
	form, _ := catalogue.AtRung(on, "added-ear", "added-ninth", 1)
	rng := rand.New(rand.NewPCG(4, 4))
	var seen revealed
	isNew := true // so that it is asked in its first form alone, of which there are few
	anew := drills.NewAnew(func(target string) bool { return target != "dominant" }, rng)
	anew.AskNewAt(form, func(string) bool { return isNew })
	request := drills.Request{Target: "added-ninth", On: on, InPlay: []string{"added-ninth", "added-fourth", "dominant"}, Anew: anew}
	found, err := seen.fresh(d, request, 1, rng)
	if err != nil {
		t.Fatal(err)
	}
	others := anew.Others()
	if len(others) != 1 || others[0].Target() == anew.Target() || others[0].Target() == "dominant" || !slices.Equal(choiceIDs(found.Question), []string{"added-ninth", "added-fourth", "dominant"}) {
		t.Fatalf("of %v, with %s asked for, the others are %v", choiceIDs(found.Question), anew.Target(), others)
	}
	if given := seen.givesOther(d, request, found); given != 0 {
		t.Errorf("before anything was shown question %d gives a choice away", given)
	}
	shown := 0
	for n := range 400 {
		r := request
		r.Anew, r.Rand = others[0], drills.QuestionRand("added-ear", others[0].Target(), uint64(n))
		q, err := d.Ask(r)
		if err != nil {
			t.Fatal(err)
		}
		if seen.gives(q) == 0 {
			seen.number++ // other questions come between
			v, err := q.Mark(q.Expected().Typed)
			if err != nil {
				t.Fatal(err)
			}
			seen.add(q, v)
			shown++
		}
	}
	seen.number = shown // shown just now, most of it
	for key := range seen.at {
		seen.at[key] = shown
	}
	if given := seen.givesOther(d, request, found); given != shown {
		t.Errorf("after all %d forms of %s were shown, question %d gives it away, want %d", shown, others[0].Target(), given, shown)
	}
	delete(seen.at, askedTarget("added-ear", others[0].Target()))
	if given := seen.givesOther(d, request, found); given != 0 {
		t.Errorf("what was not asked for is looked at: %d", given)
	}
}

func choiceIDs(q *drills.Question) (out []string) {
	for _, c := range q.Choices {
		out = append(out, c.ID)
	}
	return out
}
