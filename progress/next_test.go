package progress

import (
	"testing"
	"time"
)

func BenchmarkNext(b *testing.B) {
	s := newSyllabus(480)
	known := newDerived(DefaultWeights)
	for i, c := range s.course {
		known.add(answered(c.Item, today-Day(i%30), Result(1+i%3)), today-Day(i%30))
	}
	p := newPlanner(known, s.course, time.Hour, time.UTC)
	for b.Loop() {
		p.Next(noon(today))
	}
}
