package session

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"runtime"
	"slices"
	"strings"
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

// part is what of a study is run: the whole takes some fifteen minutes of processor time.
type part struct {
	kinds, teachers []string // all where none is named
	students, days  int
	seed            int
}

// partOf reads from the environment what of the study is wanted; students and days are those of the whole of it.
func partOf(t *testing.T, students, days int) part {
	p := part{students: students, days: days, seed: forTelling}
	names := func(name string) []string {
		return strings.FieldsFunc(os.Getenv(name), func(r rune) bool { return r == ',' })
	}
	number := func(name string, n *int) {
		if said := os.Getenv(name); said != "" {
			if _, err := fmt.Sscan(said, n); err != nil || *n < 1 {
				t.Fatalf("%s=%s: no number from 1 on", name, said)
			}
		}
	}
	p.kinds, p.teachers = names("SPARETONE_KINDS"), names("SPARETONE_TEACHERS")
	number("SPARETONE_STUDENTS", &p.students)
	number("SPARETONE_DAYS", &p.days)
	number("SPARETONE_FROM_SEED", &p.seed)
	return p
}

func wanted(of []string, name string) bool { return len(of) == 0 || slices.Contains(of, name) }

// random is what a student of a kind, by its number, draws from: the student itself, the teacher, and the life beside it have streams of their own.
func (p part) random(student, kind int, stream uint64) *rand.Rand {
	return rand.New(rand.NewPCG(uint64(p.seed+student), uint64(kind)<<8|stream))
}

// practised lets students of a kind practise with a teacher.
func practised(c *pupils.Course, number int, kind pupils.Kind, teacher pupils.TeacherKind, run part, away pupils.Away) []pupils.Outcome {
	all := make([]pupils.Outcome, run.students)
	var running sync.WaitGroup
	next := make(chan int)
	for range runtime.GOMAXPROCS(0) {
		running.Go(func() {
			for i := range next {
				p := kind.Make(c, run.random(i, number, 1))
				all[i] = pupils.Study(p, teacher.Make(p, run.random(i, number, 2)), run.days, away, run.random(i, number, 3))
			}
		})
	}
	for i := range run.students {
		next <- i
	}
	close(next)
	running.Wait()
	return all
}

// toldOf is what students know with a teacher, for each minute and in all, on each day that is measured.
func toldOf(all []pupils.Outcome, days int) string {
	line := ""
	for m, day := range pupils.Measured {
		if day > days {
			break
		}
		minutes, known, firm := 0.0, 0.0, 0.0
		for _, o := range all {
			minutes, known, firm = minutes+o.Minutes[m], known+o.Known[m][0], firm+o.Firm[m][0]
		}
		n := float64(len(all))
		line += fmt.Sprintf("  day %d: %.0f minutes, known %.1f (%.4f a minute), firm %.1f (%.4f)", day, minutes/n, known/n, known/minutes, firm/n, firm/minutes)
	}
	return line
}

// kept are outcomes by kind of student and by teacher, as a file has them.
type kept map[string][]pupils.Outcome

// keptIn reads the outcomes that a file named in the environment has; none where it names no file.
func keptIn(t *testing.T, name string) kept {
	k := kept{}
	if path := os.Getenv(name); path != "" {
		if b, err := os.ReadFile(path); err == nil {
			if err := json.Unmarshal(b, &k); err != nil {
				t.Fatal(err)
			}
		}
	}
	return k
}

// keep writes outcomes to the file that is named in the environment, if one is.
func (k kept) keep(t *testing.T, name string) {
	if path := os.Getenv(name); path != "" {
		b, err := json.Marshal(k)
		if err == nil {
			err = os.WriteFile(path, b, 0o644)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

// toTeacher is what students know with the planner, for each minute, as a share of what they do with another teacher.
func toTeacher(planner, other []pupils.Outcome, days int, check func(day int, known float64)) string {
	line := ""
	for m, day := range pupils.Measured {
		if day > days {
			break
		}
		line += fmt.Sprintf("  day %d:", day)
		for l, later := range pupils.Later {
			known, firm := pupils.Ratio(planner, other, m, l)
			line += fmt.Sprintf(" %.2f ± %.3f (firm %.2f) %.0f days on,", known, pupils.Error(planner, other, m, l), firm, later)
			if l == 0 {
				check(day, known)
			}
		}
	}
	return line
}

// What the planner is worth to simulated students, beside other ways to choose what to ask. Here a few of them are enough to see
// that it works; the study that progress/plan/STUDY.md tells of has more, and writes each line as soon as it is known:
//
//	SPARETONE_STUDY=1 go test -run WhatThePlannerIsWorth -v -timeout 9h ./drills/practice/session
//
// SPARETONE_KINDS and SPARETONE_TEACHERS (names with commas between), SPARETONE_STUDENTS, SPARETONE_DAYS and SPARETONE_FROM_SEED
// run a part of it. A teacher is the same whoever else is there, so parts may be put together: SPARETONE_KEEP names a file to which outcomes
// are added, and each teacher's are told beside those of the same name in the file that SPARETONE_BESIDE names, such as the planner's as it
// was before a change. The students are the same ones, so the standard error is that of their differences.
func TestWhatThePlannerIsWorth(t *testing.T) {
	c := taught(t)
	run := part{kinds: []string{"power", "ears", "strong"}, teachers: []string{"planner", "ladder"}, students: 2, days: 30, seed: forTelling}
	if trial.Whole() {
		run = partOf(t, 24, 120)
	}
	keeps, beside := keptIn(t, "SPARETONE_KEEP"), keptIn(t, "SPARETONE_BESIDE")
	defer func() { keeps.keep(t, "SPARETONE_KEEP") }()
	for number, kind := range pupils.Kinds {
		if !wanted(run.kinds, kind.Name) {
			continue
		}
		var planner []pupils.Outcome
		for _, teacher := range pupils.Teachers {
			if !wanted(run.teachers, teacher.Name) {
				continue
			}
			all := practised(c, number, kind, teacher, run, pupils.Away{})
			right, low := pupils.HowItFeels(all)
			t.Logf("%-7s with %-9s right %.2f; sessions with less than half right %.2f; of the first 100 questions sure %.1f;%s",
				kind.Name, teacher.Name, right, low, pupils.Sure(all), toldOf(all, run.days))
			name := kind.Name + " " + teacher.Name
			keeps[name] = all
			if before := beside[name]; len(before) == len(all) {
				t.Logf("%-7s with %-9s to before%s", kind.Name, teacher.Name, toTeacher(all, before, run.days, func(int, float64) {}))
			}
			if ladder := beside[kind.Name+" ladder"]; teacher.Name == "planner" && len(ladder) == len(all) {
				t.Logf("%-7s planner to ladder kept%s", kind.Name, toTeacher(all, ladder, run.days, func(int, float64) {}))
			}
			switch {
			case teacher.Name == "planner":
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
			case planner != nil:
				t.Logf("%-7s planner to %-9s%s", kind.Name, teacher.Name, toTeacher(planner, all, run.days, func(day int, known float64) {
					if least := 0.8; !trial.Whole() && known < least {
						t.Errorf("%s: %.2f of what the ladder teaches by day %d", kind.Name, known, day)
					}
				}))
			}
		}
		if trial.Whole() && wanted(run.teachers, "after a holiday") {
			const gone = 60
			run := run
			run.days = gone + 15
			back := practised(c, number, kind, pupils.Teachers[0], run, pupils.Away{From: gone - 14, Until: gone})
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
