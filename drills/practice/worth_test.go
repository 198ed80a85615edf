package practice

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"sparetone/drills/course"
	"sparetone/drills/trial"
	"sparetone/progress/plan"
	"sparetone/progress/pupils"
)

// typed are the drills whose answers are not picked from choices.
var typed = []string{"spell", "build", "swap", "shape-tones"}

// taught is the built-in course on a ukulele, for simulated students.
func taught(t *testing.T) *pupils.Course {
	s := &Session{set: Setup{On: trial.Played(t, "ukulele"), Course: course.BuiltIn(), AtOnce: true}, items: map[string]item{}, never: map[string]bool{}}
	return pupils.NewCourse(s.candidates(), func(c plan.Candidate) int {
		switch {
		case c.Drill == "same-or-not":
			return 2
		case !c.Ear && slices.Contains(typed, c.Drill):
			return 0
		}
		return 4
	})
}

// Seeds of students: what is tuned is tuned on the first, chosen by the second, and told by the third alone.
const (
	forTuning   = 1
	forChoosing = 1001
	forTelling  = 2001
)

// practised lets students of a kind practise with a teacher.
func practised(c *pupils.Course, number int, kind pupils.Kind, teacher pupils.TeacherKind, students, days int, away pupils.Away) []pupils.Outcome {
	all := make([]pupils.Outcome, students)
	var running sync.WaitGroup
	next := make(chan int)
	for range 2 {
		running.Go(func() {
			for i := range next {
				random := func(stream uint64) *rand.Rand {
					return rand.New(rand.NewPCG(uint64(forTelling+i), uint64(number)<<8|stream))
				}
				p := kind.Make(c, random(1))
				all[i] = pupils.Study(p, teacher.Make(p, random(2)), days, away, random(3))
			}
		})
	}
	for i := range students {
		next <- i
	}
	close(next)
	running.Wait()
	return all
}

// What the planner is worth to simulated students, beside other ways to choose what to ask. Here a few of them are enough to see
// that it works; the study that progress/plan/STUDY.md tells of has more, and writes each line as soon as it is known:
//
//	SPARETONE_STUDY=1 go test -run WhatThePlannerIsWorth -v -timeout 9h ./drills/practice
func TestWhatThePlannerIsWorth(t *testing.T) {
	c := taught(t)
	students, days := trial.StudyOf(2, 24), trial.StudyOf(30, 120)
	for number, kind := range pupils.Kinds {
		if !trial.Whole() && !slices.Contains([]string{"power", "ears", "strong"}, kind.Name) {
			continue
		}
		var planner []pupils.Outcome
		for _, teacher := range pupils.Teachers {
			if !trial.Whole() && teacher.Name != "planner" && teacher.Name != "ladder" {
				continue
			}
			all := practised(c, number, kind, teacher, students, days, pupils.Away{})
			right, low := pupils.HowItFeels(all)
			t.Logf("%-7s with %-9s right %.2f; sessions with less than half right %.2f; of the first 100 questions sure %.1f",
				kind.Name, teacher.Name, right, low, pupils.Sure(all))
			if planner == nil {
				planner = all
				t.Logf("%-7s foretold off by eye %.3f, by ear %.3f", kind.Name, pupils.Off(all, 0), pupils.Off(all, 1))
				if !trial.Whole() && right < 0.55 {
					t.Errorf("%s: %.2f of the answers are right", kind.Name, right)
				}
				if sure := pupils.Sure(all); !trial.Whole() && kind.Name == "strong" && sure > 35 {
					t.Errorf("%s: %.1f of the first 100 questions are sure", kind.Name, sure)
				}
				for ear, what := range []string{"eye", "ear"} {
					if off := pupils.Off(all, ear); !trial.Whole() && off > 0.1 {
						t.Errorf("%s: what was foretold by %s is off by %.3f", kind.Name, what, off)
					}
				}
				continue
			}
			line := ""
			for m, day := range pupils.Measured {
				if day > days {
					break
				}
				line += fmt.Sprintf("  day %d:", day)
				for l, later := range pupils.Later {
					known, firm := pupils.Ratio(planner, all, m, l)
					line += fmt.Sprintf(" %.2f (firm %.2f) %.0f days on,", known, firm, later)
					if least := 0.8; !trial.Whole() && l == 0 && known < least {
						t.Errorf("%s: %.2f of what the ladder teaches by day %d", kind.Name, known, day)
					}
				}
			}
			t.Logf("%-7s planner to %-9s%s", kind.Name, teacher.Name, line)
		}
		if trial.Whole() {
			const gone = 60
			back := practised(c, number, kind, pupils.Teachers[0], students, gone+15, pupils.Away{From: gone - 14, Until: gone})
			sessions, low := pupils.Back(back, gone)
			t.Logf("%-7s after 14 days away: %.1f sessions until no more waits than before, %.2f of the first five with less than half right", kind.Name, sessions, low)
		}
	}
}

// Students that nothing was told of are not those that anything was tuned on.
func TestSeedsLieApart(t *testing.T) {
	for _, seeds := range [][2]int{{forTuning, forChoosing}, {forChoosing, forTelling}} {
		if seeds[1]-seeds[0] < 100 {
			t.Errorf("from %d and from %d on are the same students", seeds[0], seeds[1])
		}
	}
}
