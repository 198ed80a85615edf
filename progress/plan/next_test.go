package plan

import (
	"fmt"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
)

func BenchmarkNext(b *testing.B) {
	var course []Candidate
	for i := range 480 {
		course = append(course, Candidate{Item: fmt.Sprint(i%24, "/", i/24), Drill: fmt.Sprint(i % 24), Near: []string{fmt.Sprint(i%24, "/", i/24+1)}, Ear: i%2 == 0})
	}
	known := memory.NewDerived(memory.StartWeights)
	for i, c := range course {
		a := answered(c.Item, today-progress.Day(i%30), progress.Result(1+i%3))
		if c.Ear {
			a.Voice = "soft"
		}
		known.Add(a, today-progress.Day(i%30))
	}
	p := newPlanner(known, course, time.Hour, time.UTC)
	for b.Loop() {
		p.Next(noon(today))
	}
}
