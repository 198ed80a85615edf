package session

import (
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/trial"
	"sparetone/progress/store"
)

// overheard is a drill that keeps what it was asked for last.
type overheard struct {
	drills.Drill
	last *wish
}

// wish is what a drill was asked for.
type wish struct {
	drill string
	drills.Request
}

// Ask settles what is asked before it asks, so that the same seed makes the same question again.
func (o overheard) Ask(r drills.Request) (*drills.Question, error) {
	if !r.Anew.Settled() || r.Anew == o.last.Anew { // else it is only looked whether another of the choices is given away
		*o.last = wish{o.About().ID, r}
	}
	if first := r; !r.Anew.Settled() {
		first.Rand = rand.New(rand.NewPCG(1, 2))
		if q, err := o.Drill.Ask(first); err != nil {
			return q, err
		}
	}
	return o.Drill.Ask(r)
}

// overhear lets the drills of a session keep what they are asked for.
func (s *Session) overhear(last *wish) {
	for id, it := range s.items {
		if _, is := it.drill.(overheard); !is {
			it.drill = overheard{it.drill, last}
			s.items[id] = it
		}
	}
}

// remade is a question made again from its seed in the form of the rung that is kept with its answer.
func remade(asked *Asked, r drills.Request) (*drills.Question, error) {
	form := catalogue.Rungs(r.On, asked.Drill, asked.Target)[asked.Rung-1]
	r.Anew.AskNewAt(form, nil)
	r.Reach, r.Clarity = form.Reach, form.Clarity
	r.Rand = drills.QuestionRand(asked.Drill, r.Target, asked.Seed)
	d, _ := catalogue.ByID(asked.Drill)
	return d.Ask(r)
}

// sameQuestion reports whether two questions show and sound the same.
func sameQuestion(a, b *drills.Question) bool {
	same := func(x, y drills.Sound) bool { return slices.Equal(x.Notes, y.Notes) }
	return a.Text() == b.Text() && a.Target == b.Target && a.Voice == b.Voice && slices.EqualFunc(a.Sounds, b.Sounds, same) &&
		(a.Shown == nil) == (b.Shown == nil) && (a.Shown == nil || a.Shown.Shape.String() == b.Shown.Shape.String())
}

// The form in which a question was asked is that of the rung which is kept with its answer: whole sessions, over days on which
// what is known is asked on higher rungs.
func TestTheRungThatIsKeptIsTheFormThatWasAsked(t *testing.T) {
	for _, tuning := range []string{"ukulele", "guitar"} {
		now := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
		clock := func() time.Time { return now }
		file, err := store.InMemory(clock)
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		rungs, unheard := map[int]int{}, 0
		var last wish
		for day := range trial.StudyOf(6, 40) {
			var only []string
			if day%2 == 1 { // of a few drills more is told, and more was shown
				only = []string{"chord-ear", "doubled", "shape-tones", "interval-ear"}
			}
			s, err := New(Setup{File: file, On: trial.Played(t, tuning), Course: course.BuiltIn(), Drills: only, Length: 10 * time.Minute, Seed: uint64(day), Now: clock})
			if err != nil {
				t.Fatal(err)
			}
			for {
				last = wish{}
				s.overhear(&last)
				asked, err := s.Next()
				if err != nil {
					t.Fatal(err)
				}
				if asked == nil {
					break
				}
				if last.drill != asked.Drill || !last.Anew.Settled() && last.Target != asked.Target { // the course was laid out anew, for the neck has no question for something
					unheard++
				} else if again, err := remade(asked, last.Request); err != nil || !sameQuestion(asked.Question, again) {
					t.Errorf("%s, day %d: %s, which is kept as asked on rung %d, is not asked on that: %v", tuning, day+1, asked.Text(), asked.Rung, err)
				}
				rungs[asked.Rung]++
				now = now.Add(10 * time.Second)
				if _, err := s.Answer(asked.Expected().Typed); err != nil {
					t.Fatal(err)
				}
			}
			now = now.AddDate(0, 0, 3)
		}
		if rungs[1] == 0 || rungs[2] == 0 || rungs[3] == 0 || unheard > 2 {
			t.Errorf("%s: questions by rung: %v, %d not heard", tuning, rungs, unheard)
		}
	}
}
