package session

import (
	"testing"
	"time"

	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/meet"
)

// A chord over another note is asked for only after such a chord was met in that drill, which it is once; from the reveal of its question it
// is met again. Which of the choices is right the meeting does not tell: it is the same whatever is asked.
func TestAnotherBassIsMetBeforeItIsAsked(t *testing.T) {
	for _, id := range []string{"chord-ear", "shape-name", "shape-tones", "build"} {
		steps := course.Course{{ID: "all", Drill: id, Asks: []string{"minor", "dominant"}}}
		set := Setup{Seed: 3, Course: steps}
		s, now := sittingOn(t, "guitar", set)
		set = s.set
		met, asked := 0, 0
		for day := 0; day < 20 && asked < 3; day++ {
			for asked < 3 {
				q, err := s.Next()
				if err != nil {
					t.Fatal(err)
				}
				if q == nil {
					break
				}
				form, _ := catalogue.AtRung(s.On(), id, q.Target, q.Rung)
				for m := s.Meet(); m != nil; m = s.Meet() {
					if m.Target == meet.AnotherBass {
						if met++; asked > 0 || !form.Clarity.Turned {
							t.Errorf("%s: it is met before %s, after %d questions that ask it", id, q.Text(), asked)
						}
						if again := s.Meet(); again == nil || again.Target != m.Target {
							t.Errorf("%s: it is gone before it was gone on from", id)
						}
					}
					shownNow(t, s, m)
				}
				if form.Clarity.Turned {
					if asked++; met != 1 || !s.IsMet(drill(t, id), meet.AnotherBass) {
						t.Errorf("%s: it was met %d times before question %d that asks it", id, met, asked)
					}
				}
				again, err := s.MeetAgain(q)
				if err != nil || (again.Target == meet.AnotherBass) != form.Clarity.Turned {
					t.Errorf("%s: from the reveal of %s %s is met, %v", id, q.Text(), again.Target, err)
				}
				*now = now.Add(6 * time.Second)
				if _, err := s.Answer(q.Expected().Typed); err != nil {
					t.Fatal(err)
				}
			}
			*now = now.AddDate(0, 0, 4)
			var err error
			if s, err = New(set); err != nil {
				t.Fatal(err)
			}
		}
		if asked < 3 || met != 1 {
			t.Errorf("%s: it was met %d times, and asked %d times", id, met, asked)
		}
	}
}
