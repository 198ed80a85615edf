package practice

import (
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/progress"
)

// How well something is known follows from its answers: met once, known after a run that luck does not give, kept when it stays away for
// weeks, shaky after a miss.
func TestGrasps(t *testing.T) {
	p, now := appOf(t)
	item := drills.ItemID("chord-ear", "major", "ukulele")
	end := *now
	answer := func(r progress.Result, choices int) Grasp {
		t.Helper()
		a := progress.Answer{Item: item, Drill: "chord-ear", At: *now, Result: r, Choices: choices, Took: time.Second}
		if err := p.File().Record(a); err != nil {
			t.Fatal(err)
		}
		all, err := p.Grasps()
		if err != nil {
			t.Fatal(err)
		}
		return all[item]
	}
	seen := map[Grasp]bool{}
	for day, step := range []struct {
		result progress.Result
		after  int // days
		want   []Grasp
	}{
		{progress.Right, 0, []Grasp{Met}},
		{progress.Wrong, 1, []Grasp{Shaky}},
		{progress.Right, 0, []Grasp{Met}},
		{progress.Right, 0, []Grasp{Met}},
		{progress.Right, 0, []Grasp{Known}},
		{progress.Right, 10, []Grasp{Known, Kept}},
		{progress.Right, 25, []Grasp{Known, Kept}},
		{progress.Right, 60, []Grasp{Kept}},
		{progress.Wrong, 60, []Grasp{Shaky}},
	} {
		*now = now.AddDate(0, 0, step.after)
		got := answer(step.result, 3)
		seen[got] = true
		ok := false
		for _, w := range step.want {
			ok = ok || w == got
		}
		if !ok {
			t.Errorf("answer %d on %v leaves it %v, want one of %v", day+1, now.Sub(end), got, step.want)
		}
	}
	for _, g := range []Grasp{Met, Shaky, Known, Kept} {
		if !seen[g] {
			t.Errorf("nothing was %v", g)
		}
	}
}

func TestLearntCountsEachInTheNext(t *testing.T) {
	var l Learnt
	for _, c := range []struct {
		grasp Grasp
		want  string
	}{
		{Unmet, "1 thing, none met yet"},
		{Met, "1 of 2 met, none known yet"},
		{Shaky, "2 of 3 met, none known yet"},
		{Known, "3 of 4 met, 1 known, none kept yet"},
		{Kept, "4 of 5 met, 2 known, 1 kept"},
	} {
		l.Add(c.grasp)
		if got := l.Words().Aloud(); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}

// The chapters on an instrument hold what its drills can ask there, each thing in the place that the course gives it.
func TestChaptersHoldTheWholeCourse(t *testing.T) {
	p, _ := appOf(t)
	chapters, err := p.Chapters()
	if err != nil {
		t.Fatal(err)
	}
	if n := len(chapters); n < 5 || n > 9 {
		t.Errorf("%d chapters", n)
	}
	n := 0
	for _, c := range chapters {
		for _, part := range c.Parts {
			n += len(part.Things)
			for i, thing := range part.Things {
				if thing.ID != part.Asks[i] {
					t.Errorf("%s stands where %s should", thing.ID, part.Asks[i])
				}
				if _, err := p.MeetingOf(thing); err != nil {
					t.Errorf("%s of %s cannot be met: %v", thing.ID, part.ID, err)
				}
			}
		}
		if steps := c.Way().Course; len(steps) != len(c.Parts) {
			t.Errorf("%v has %d steps to practise and %d parts", c.Name, len(steps), len(c.Parts))
		}
	}
	asks := 0
	for _, s := range p.Setup.Course {
		asks += len(s.Asks)
	}
	if n != asks-1 { // two octaves are more than a ukulele has
		t.Errorf("%d things, and the course asks %d", n, asks)
	}
}
