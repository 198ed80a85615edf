package plan

import (
	"fmt"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// A question is chosen by somebody who has practised for years: 100,000 answers, of which many were taken for neighbours.
func BenchmarkNext(b *testing.B) {
	var course []Candidate
	for i := range 480 {
		course = append(course, Candidate{Item: fmt.Sprint(i%24, "/", i/24), Drill: fmt.Sprint(i % 24), Near: []string{fmt.Sprint(i%24, "/", i/24+1)}, Ear: i%2 == 0})
	}
	known := memory.NewDerived(memory.StartWeights)
	const answers, aDay = 100_000, 60
	for n := range answers {
		c := course[n*7%(len(course)-40)]
		day := today - progress.Day((answers-n)/aDay)
		a := answered(c.Item, day, progress.Result(1+n%3))
		if a.Result == progress.Wrong {
			a.TakenFor = c.Near[0]
		}
		if c.Ear {
			a.Voice = "soft"
		}
		known.Add(a, day)
	}
	p := newPlanner(known, course, time.Hour, time.UTC)
	for n := 0; b.Loop(); n++ {
		pick, ok := p.Next(noon(today).Add(time.Duration(n%240) * 14 * time.Second))
		if !ok {
			b.Fatal("nothing to ask")
		}
		b.StopTimer()
		p.Answered(answered(pick.Item, today, progress.Result(1+n%2)))
		p.asked, p.right = p.asked[:1], p.right[max(0, len(p.right)-60):]
		b.StartTimer()
	}
}

// How long a question of a drill takes is worked out anew after each of its answers, and stays for the others.
func TestAnAnswerBringsThePaceUpToDate(t *testing.T) {
	p := planner(history(), Candidate{Item: "a", Drill: "d"}, Candidate{Item: "b", Drill: "e"})
	p.cycles["d"], p.cycles["e"] = time.Minute, time.Minute
	p.Answered(answered("a", today, progress.Right))
	if p.cycle("d") != firstCycle || p.cycle("e") != time.Minute {
		t.Errorf("a question takes %v of its drill, and %v of another", p.cycle("d"), p.cycle("e"))
	}
}
