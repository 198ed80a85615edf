package plan

import (
	"testing"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// rests is something that was asked so often, so many days ago.
func rests(times, run, days int) memory.Memory {
	m := fadedTo(0.8)
	m.Asked, m.Run, m.Day = times, run, today-progress.Day(days)
	return m
}

// A thing rests for a day after its first four questions, then for a day more after each, for three at the most; what was missed for 0.35 of
// that. A tenth of a day counts as rested at once.
func TestHowLongAThingRests(t *testing.T) {
	for _, c := range []struct {
		times, run, days int
		want             float64
	}{
		{1, 1, 0, 0.1 / 1.1}, {1, 1, 1, 1}, {4, 4, 0, 0.1 / 1.1}, {4, 4, 1, 1}, // a day
		{5, 1, 1, 1.1 / 2.1}, {5, 1, 2, 1}, // two
		{6, 1, 1, 1.1 / 3.1}, {6, 1, 2, 2.1 / 3.1}, {6, 1, 3, 1}, {7, 1, 2, 2.1 / 3.1}, {50, 9, 2, 2.1 / 3.1}, {50, 9, 3, 1}, {50, 9, 90, 1}, // three
		{1, 0, 0, 0.1 / 0.45}, {5, 0, 0, 0.1 / 0.8}, {8, 0, 0, 0.1 / 1.15}, {8, 0, 1, 1.1 / 1.15}, {8, 0, 2, 1}, // missed
	} {
		if got := rested(rests(c.times, c.run, c.days), today, 0); got < c.want-1e-9 || got > c.want+1e-9 {
			t.Errorf("asked %d times, right %d times in a row, %d days ago: %v, want %v", c.times, c.run, c.days, got, c.want)
		}
	}
}

// What has not rested is worth less, in proportion: it is asked before what has only where it gains so much more.
func TestWhatHasNotRestedWaits(t *testing.T) {
	fresh, other := rests(8, 1, 2), rests(1, 1, 3)
	gain := func(p *Planner, item string) float64 {
		m := p.known.Memory[item]
		return m.Gain(&p.known.Weights, today, p.later()) / p.secondsFor(item, p.known.Chance(m, today))
	}
	waited := 0
	for at := 0.2; at < 0.99; at += 0.02 {
		fresh.Trace = fadedTo(at).Trace
		p := remembering(map[string]memory.Memory{"fresh": fresh, "other": other})
		p.known.Weights[8] = memory.StartWeights[8]
		want := "other"
		if 2.1/3.1*gain(p, "fresh") > gain(p, "other") {
			want = "fresh"
		} else if gain(p, "fresh") > gain(p, "other") {
			waited++
		}
		if pick, _ := p.worthiest(today); pick.Item != want {
			t.Errorf("where its chance is %.2f: %s, want %s", at, pick.Item, want)
		}
	}
	if waited == 0 {
		t.Error("nothing waits that gains more")
	}
}

// Whose gains are counted soon needs no rests, and by half of that half as long ones.
func TestWhoseGainsCountSoonNeedsNoRests(t *testing.T) {
	m := rests(9, 1, 1)
	for hastens, want := range map[float64]float64{0: 1.1 / 3.1, 0.5: 1.1 / 1.6, 1: 1} {
		if got := rested(m, today, hastens); got < want-1e-9 || got > want+1e-9 {
			t.Errorf("hastening %v: %v, want %v", hastens, got, want)
		}
	}
	// And the planner reckons with it: what has not rested gains more and is asked, where it would wait.
	fresh, other := rests(8, 1, 2), rests(1, 1, 3)
	fresh.Trace = fadedTo(0.7).Trace
	for growth, want := range map[float64]string{memory.StartWeights[8]: "other", 1.12: "fresh"} {
		p := remembering(map[string]memory.Memory{"fresh": fresh, "other": other})
		p.known.Weights[8] = growth
		if pick, _ := p.worthiest(today); pick.Item != want {
			t.Errorf("where w8 is %v: %s, want %s", growth, pick.Item, want)
		}
	}
	for level, want := range map[float64]string{0.399: "other", 0.401: "fresh"} {
		p := remembering(map[string]memory.Memory{"fresh": fresh, "other": other})
		p.known.Weights[8] = memory.StartWeights[8]
		p.alreadyKnown()
		p.level = level
		if pick, _ := p.worthiest(today); pick.Item != want {
			t.Errorf("where %v was known beforehand: %s, want %s", level, pick.Item, want)
		}
	}
}
