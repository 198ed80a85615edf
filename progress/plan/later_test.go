package plan

import (
	"fmt"
	"testing"

	"sparetone/progress/memory"
)

// knowing is a planner of a student who was asked ten things among four, so many of which were right at first.
func knowing(right int, growth float64) *Planner {
	all := map[string]memory.Memory{}
	for i := range 10 {
		m := dueAt(0.8)
		m.Asked, m.Right, m.Guess = 1, 0, 0.25
		if i < right {
			m.Right = 1
		}
		all[fmt.Sprint("d", i)] = m
	}
	p := remembering(all)
	p.known.Weights[8] = growth
	return p
}

// A gain counts a week later, two days later for who knew two fifths beforehand, and between the two as far as what is recalled grows.
func TestWhenAGainCounts(t *testing.T) {
	for _, c := range []struct {
		right        int
		growth, want float64
	}{{0, 1.08, 7}, {5, 1.08, 7}, {10, 1.08, 2}, {0, 1.1, 4.5}, {0, 1.12, 2}, {0, 4, 2}, {10, 0, 2}} {
		p := knowing(c.right, c.growth)
		if got := p.later(); got < c.want-1e-9 || got > c.want+1e-9 {
			t.Errorf("%d of ten right, w8 %v: %v days later, want %v", c.right, c.growth, got, c.want)
		}
	}
	near(t, "ten were missed: the level", levelOf(knowing(0, 0)), (0.8+10*0.05)/14)
	for level, want := range map[float64]float64{0.399: 7, 0.401: 2} {
		p := knowing(5, 0)
		p.alreadyKnown()
		p.level = level
		if got := p.later(); got != want {
			t.Errorf("who knew %v beforehand: %v days later, want %v", level, got, want)
		}
	}
}

func levelOf(p *Planner) float64 {
	p.alreadyKnown()
	return p.level
}

// What is worked out for a week is not taken for what is counted two days later.
func TestAGainIsOfItsDays(t *testing.T) {
	p := remembering(map[string]memory.Memory{"a": fadedTo(0.7)})
	m := p.known.Memory["a"]
	for _, later := range []float64{7, 2, 7} {
		if got, want := p.gain(0, m, today, later).by, m.Gain(&p.known.Weights, today, later); got != want {
			t.Errorf("%v days later it gains %v, want %v", later, got, want)
		}
	}
}
