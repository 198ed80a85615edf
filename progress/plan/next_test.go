package plan

import (
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
)

func BenchmarkNext(b *testing.B) {
	s := newSyllabus(480)
	known := memory.NewDerived(memory.DefaultWeights)
	for i, c := range s.course {
		known.Add(answered(c.Item, today-progress.Day(i%30), progress.Result(1+i%3)), today-progress.Day(i%30))
	}
	p := newPlanner(known, s.course, time.Hour, time.UTC)
	for b.Loop() {
		p.Next(noon(today))
	}
}
