package plan

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// What a question is worth is kept from one question to the next. It is always what it would be if it were worked out anew: after answers,
// after one is taken back, with another course, on another day.
func TestWhatIsKeptOfGainsIsTrue(t *testing.T) {
	var course []Candidate
	known := memory.NewDerived(memory.DefaultWeights)
	for i := range 20 {
		c := Candidate{Item: fmt.Sprint(i%3, "/", i), Drill: fmt.Sprint(i % 3), Ear: i%2 == 0}
		course = append(course, c)
		a := answered(c.Item, today-progress.Day(1+i%5), progress.Result(1+i%3))
		if c.Ear {
			a.Voice = "soft"
		}
		known.Add(a, progress.DayOf(a.At))
	}
	p := planner(known, course[:12]...)
	isTrue := func(after string, day progress.Day) {
		t.Helper()
		for i, c := range p.course {
			m := p.known.Memory[c.Item]
			if g := p.gain(i, m, day, p.later()); g.by != m.Gain(&p.known.Weights, day, p.later()) || p.known.SetRight(m, g.foreseen) != p.known.Chance(m, day) {
				t.Errorf("after %s the gain of %s is not what it was", after, c.Item)
			}
		}
	}
	for n := range 12 {
		pick, _ := p.Next(noon(today))
		p.Answered(answered(pick.Item, today, progress.Result(1+n%3)))
		isTrue("answers", today)
	}
	isTrue("a day", today+1)
	isTrue("a day back", today)
	before := *p.known
	before.Memory, before.Weights = maps.Clone(p.known.Memory), memory.StartWeights
	p.TakeBack(&before)
	isTrue("an answer taken back", today)
	slices.Reverse(course)
	p.Follow(course)
	isTrue("a longer course", today)
	if kept := p.gains[3]; kept.of != p.known.Memory[course[3].Item] || kept.day != today {
		t.Errorf("nothing is kept: %+v", kept)
	}
}
