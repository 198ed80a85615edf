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

// A gain counts a week later, six hours later for who knew two fifths beforehand, and between the two as far as what is recalled grows.
func TestWhenAGainCounts(t *testing.T) {
	for _, c := range []struct {
		right        int
		growth, want float64
	}{{0, 1.08, 7}, {5, 1.08, 7}, {10, 1.08, 0.25}, {0, 1.1, 3.625}, {0, 1.12, 0.25}, {0, 4, 0.25}, {10, 0, 0.25}} {
		p := knowing(c.right, c.growth)
		if got := p.later(); got < c.want-1e-9 || got > c.want+1e-9 {
			t.Errorf("%d of ten right, w8 %v: %v days later, want %v", c.right, c.growth, got, c.want)
		}
	}
	near(t, "ten were missed: the level", levelOf(knowing(0, 0)), (0.8+10*0.05)/14)
	for level, want := range map[float64]float64{0.399: 7, 0.401: 0.25} {
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

// What is worked out for a week is not taken for what is counted sooner.
func TestAGainIsOfItsDays(t *testing.T) {
	p := remembering(map[string]memory.Memory{"a": fadedTo(0.7)})
	m := p.known.Memory["a"]
	for _, later := range []float64{7, 2, 7} {
		if got, want := p.gain(0, m, today, later).by, m.Gain(&p.known.Weights, today, later); got != want {
			t.Errorf("%v days later it gains %v, want %v", later, got, want)
		}
	}
}

// To who knew two fifths beforehand what was surely known counts for half, what was not for all of it; to others all counts.
func TestWhatWasKnownCounts(t *testing.T) {
	p := knowing(5, 0)
	p.alreadyKnown()
	p.already = []float64{0, 0.5, 1}
	for level, want := range map[float64][]float64{0.399: {1, 1, 1}, 0.401: {1, 0.75, 0.5}} {
		p.level = level
		for i, share := range want {
			near(t, fmt.Sprintf("who knew %v beforehand, of thing %d", level, i), p.counts(i), share)
		}
	}
}

// Of two things that gain alike who knew much is asked the one that was less likely known.
func TestWhoKnewMuchIsAskedWhatWasNot(t *testing.T) {
	all := map[string]memory.Memory{}
	for _, item := range []string{"a", "b"} {
		m := fadedTo(0.7)
		m.Asked, m.Right, m.Guess = 5, 5, 0.25
		all[item] = m
	}
	p := remembering(all)
	for _, c := range []struct {
		level float64
		known []float64
		want  string
	}{{0.5, []float64{0.9, 0.1}, "b"}, {0.5, []float64{0.1, 0.9}, "a"}, {0.3, []float64{0.9, 0.1}, "a"}} {
		p.alreadyKnown()
		p.level, p.already = c.level, c.known
		if chosen, _ := p.worthiest(today); chosen.Item != c.want {
			t.Errorf("with a level of %v and %v known %s is asked", c.level, c.known, chosen.Item)
		}
	}
}
