package plan

import (
	"fmt"
	"testing"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// afterADay is a planner of something new and of things that were asked the day before, of which so many were missed; and of something
// easy and something hard that were asked earlier, all of which has come back.
func afterADay(asked, missed int) *Planner {
	all := map[string]memory.Memory{"new": unmet, "easy": dueAt(0.97), "hard": dueAt(0.5)}
	for i := range asked {
		m := dueAt(0.9)
		m.Day, m.Due = today-1, today+9
		if i < missed {
			m.Run = 0
		}
		all[fmt.Sprintf("y%02d", i)] = m
	}
	return remembering(all)
}

// After a day on which more than 40 of 100 things were missed at last, a session opens with what is likelier right than wrong.
func TestASessionAfterABadOneOpensGently(t *testing.T) {
	for _, c := range []struct {
		asked, missed int
		gently        bool
	}{{20, 9, true}, {20, 8, false}, {20, 0, false}, {0, 0, false}, {100, 41, true}, {100, 40, false}} {
		p := afterADay(c.asked, c.missed)
		for n := range 12 {
			pick, ok := p.Next(noon(today))
			if !ok {
				t.Fatal("nothing to ask")
			}
			likely := p.Met(pick.Item) && p.known.Chance(p.known.Memory[pick.Item], today) >= likelier
			if c.gently && !likely && pick.Why.Reason != New {
				t.Errorf("%d of %d missed: question %d is %s", c.missed, c.asked, n+1, pick.Item)
			}
			if n == 0 && (pick.Item == "easy" || pick.Item[0] == 'y') != c.gently {
				t.Errorf("%d of %d missed: it opens with %s", c.missed, c.asked, pick.Item)
			}
			p.Answered(answered(pick.Item, today, progress.Right))
		}
	}
}

// That ends with the twelfth answer; what is missed in the session itself says nothing of the day before.
func TestAGentleOpeningEnds(t *testing.T) {
	p := afterADay(20, 10)
	p.Next(noon(today))
	for n := range 12 {
		if !p.opensGently() {
			t.Errorf("it is over after %d answers", n)
		}
		p.right = append(p.right, true)
	}
	if p.opensGently() {
		t.Error("it is not over after twelve answers")
	}
	if pick, _ := p.Next(noon(today)); pick.Item != "new" && pick.Item != "hard" {
		t.Errorf("then %s is asked", pick.Item)
	}
	p = afterADay(20, 8)
	p.Next(noon(today))
	for i := range 20 {
		p.Answered(answered(fmt.Sprintf("y%02d", i), today, progress.Wrong))
		if p.afterABadDay {
			t.Fatal("it is judged by the session itself")
		}
	}
}

// A bad day long ago is no bad day: the latest counts.
func TestTheLatestDayCounts(t *testing.T) {
	p := afterADay(20, 20)
	good := dueAt(0.9)
	good.Day = today
	p.known.Memory["easy"] = good
	if p.wentBadly() {
		t.Error("a day before the latest counts")
	}
}
