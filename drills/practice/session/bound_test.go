package session

import (
	"math/rand/v2"
	"testing"

	"sparetone/drills/trial"
	"sparetone/progress/pupils"
)

// What nobody can teach more than in a week, and how near to it the planner and the ladder come: of students who remember things each by
// itself, which those who tell things apart by pairs do not.
//
//	SPARETONE_STUDY=1 go test -run WhatNobodyTeachesMoreThan -v ./drills/practice/session
//
// The same variables run a part of it as of the study of what the planner is worth.
func TestWhatNobodyTeachesMoreThan(t *testing.T) {
	c := taught(t)
	run := part{kinds: []string{"power"}, students: 1, seed: forTelling}
	shares := []float64{0.6}
	if trial.Whole() {
		run = partOf(t, 24, 7)
		shares = []float64{0.5, 0.55, 0.6, 0.65, 0.7}
	}
	run.days = pupils.Measured[0]
	for number, kind := range pupils.Kinds {
		if !wanted(run.kinds, kind.Name) {
			continue
		}
		bound := func(w pupils.Wish) (known float64, ok bool) {
			for i := range run.students {
				b, ok := pupils.Bound(kind.Make(c, run.random(i, number, 1)), w)
				if !ok {
					return 0, false
				}
				known += b / float64(run.students)
			}
			return known, true
		}
		w := pupils.Wish{Days: run.days, ADay: 1, Minutes: float64(10 * run.days)}
		blind, ok := bound(w)
		if !ok {
			continue
		}
		tell := func(what string, known float64) {
			t.Logf("%-6s %-36s %5.1f in %.0f minutes (%.4f a minute)", kind.Name, what, known, w.Minutes, known/w.Minutes)
		}
		for _, teacher := range pupils.Teachers {
			if !wanted(run.teachers, teacher.Name) {
				continue
			}
			all := practised(c, number, kind, teacher, run, pupils.Away{})
			right, low := pupils.HowItFeels(all)
			known, minutes := 0.0, 0.0
			for _, o := range all {
				known, minutes = known+o.Known[0][0]/float64(len(all)), minutes+o.Minutes[0]/float64(len(all))
			}
			t.Logf("%-6s with %-9s right %.2f, sessions under half right %.2f: %5.1f in %.0f minutes (%.4f a minute, %.2f of who does not see into heads)",
				kind.Name, teacher.Name, right, low, known, minutes, known/minutes, known/minutes*w.Minutes/blind)
			if teacher.Name == "planner" && known/minutes > blind/w.Minutes {
				t.Errorf("%s: the planner teaches %.1f, more than can be taught", kind.Name, known)
			}
		}
		tell("who does not see into heads", blind)
		for _, share := range shares {
			w := w
			w.Share = share
			known, _ := bound(w)
			t.Logf("%-6s the same, %.2f of the answers right %5.1f (%.4f a minute)", kind.Name, share, known, known/w.Minutes)
			if known > blind {
				t.Errorf("%s: more is taught where answers have to be right", kind.Name)
			}
		}
		if trial.Whole() {
			w.Sees = true
			known, _ := bound(w)
			tell("who sees into them", known)
			w.Sees, w.Days, w.Minutes = false, 5, 50
			once, _ := bound(w)
			w.ADay = 2
			twice, _ := bound(w)
			t.Logf("%-6s in five days %.2f, asked up to twice a day %.2f", kind.Name, once, twice)
		}
	}
}

// Who is driven away practises less and knows more for each minute, for the first minutes teach most: the ladder beside itself, with the same
// students of life, who give up or do not.
//
//	SPARETONE_STUDY=1 go test -run WhoStays -v ./drills/practice/session
func TestWhoStaysKnowsMoreAndLessAMinute(t *testing.T) {
	c := taught(t)
	run := part{students: 6, days: 60, seed: forTelling}
	if trial.Whole() {
		run = partOf(t, 24, 120)
	}
	const life = 2
	for _, teacher := range pupils.Teachers {
		if teacher.Name != "ladder" && (!trial.Whole() || !wanted(run.teachers, teacher.Name)) {
			continue
		}
		stays := pupils.Kind{Name: "stays", Make: func(c *pupils.Course, rng *rand.Rand) *pupils.Pupil {
			p := pupils.Kinds[life].Make(c, rng)
			p.Stay()
			return p
		}}
		leaving, staying := practised(c, life, pupils.Kinds[life], teacher, run, pupils.Away{}), practised(c, life, stays, teacher, run, pupils.Away{})
		t.Logf("%-9s may leave:%s", teacher.Name, toldOf(leaving, run.days))
		t.Logf("%-9s stays:%s", teacher.Name, toldOf(staying, run.days))
		t.Logf("%-9s who stays to who may leave:%s", teacher.Name, toTeacher(staying, leaving, run.days, func(day int, known float64) {
			if teacher.Name == "ladder" && day == 60 && known > 1 {
				t.Errorf("who stays with the ladder knows %.2f times as much a minute by day %d", known, day)
			}
		}))
	}
}
