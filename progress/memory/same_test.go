package memory

import (
	"maps"
	"math"
	"slices"
	"testing"
	"time"

	"sparetone/progress"
)

// Two derivations are the same in all that they hold, but for what is rounded; a change of anything tells them apart.
func TestDerivationsAreTheSameInEverything(t *testing.T) {
	fresh := func() *Derived {
		return history(answered("major", 20_000, progress.Right), answered("major", 20_003, progress.Right), takenFor("minor", "major", 20_004))
	}
	if !fresh().Same(fresh()) {
		t.Fatal("the same answers make something else")
	}
	of := func(change func(m *Memory)) func(d *Derived) {
		return func(d *Derived) {
			m := d.Memory["major"]
			change(&m)
			d.Memory["major"] = m
		}
	}
	for what, change := range map[string]func(d *Derived){
		"doubted":         func(d *Derived) { d.Doubted = append(d.Doubted, 3) },
		"foretold by eye": func(d *Derived) { d.ByEye[3].Asked++ },
		"foretold by ear": func(d *Derived) { d.ByEar[3].Right++ },
		"weeks": func(d *Derived) {
			k := slices.Collect(maps.Keys(d.Weeks))[0]
			tally := d.Weeks[k]
			tally.Guessed += 0.25
			d.Weeks[k] = tally
		},
		"mistakes": func(d *Derived) { clear(d.Mistakes) },
		"pace": func(d *Derived) {
			for drill, p := range d.Pace {
				p.Took = append(slices.Clone(p.Took), 5000)
				d.Pace[drill] = p
			}
		},
		"an item":    func(d *Derived) { delete(d.Memory, "minor") },
		"stability":  of(func(m *Memory) { m.Stability *= 1.000001 }),
		"difficulty": of(func(m *Memory) { m.Difficulty += 0.000001 }),
		"kept":       of(func(m *Memory) { m.Telling.Kept += 0.000001 }),
		"added":      of(func(m *Memory) { m.Added += 0.000001 }),
		"unsure":     of(func(m *Memory) { m.Unsure += 0.000001 }),
		"favour":     of(func(m *Memory) { m.Favour += 0.000001 }),
		"due":        of(func(m *Memory) { m.Due++ }),
		"run":        of(func(m *Memory) { m.Run++ }),
		"rung":       of(func(m *Memory) { m.Rung++ }),
	} {
		d := fresh()
		change(d)
		if d.Same(fresh()) || fresh().Same(d) {
			t.Errorf("%s: what differs is taken for the same", what)
		}
	}
	d := fresh()
	of(func(m *Memory) {
		m.Stability *= 1 + 1e-12
		m.Difficulty += 1e-12
		m.Favour += 1e-12
	})(d)
	if !d.Same(fresh()) {
		t.Error("what is rounded otherwise is taken for something else")
	}
}

// Each way in which weights are fitted moves its own weights, and none goes beyond its bounds.
func TestWeightsAreMovedTheirWay(t *testing.T) {
	at := func(way int, by float64) Weights {
		x := make([]float64, ways)
		x[way] = by
		return weightsAt(x)
	}
	for way, moved := range [ways][]int{{0, 1, 2, 3}, {8}, {11}, {20}, {17}} {
		w := at(way, 0.01)
		for i := range w {
			if other := w[i] != StartWeights[i]; other != slices.Contains(moved, i) {
				t.Errorf("way %d: weight %d is %v, was %v", way, i, w[i], StartWeights[i])
			}
		}
		for _, by := range []float64{-50, 50} {
			for i, x := range at(way, by) {
				if x < weightBounds[i].least || x > weightBounds[i].most || math.IsNaN(x) {
					t.Errorf("way %d by %v: weight %d is %v, beyond %v", way, by, i, x, weightBounds[i])
				}
			}
		}
	}
	if w := weightsAt(make([]float64, ways)); w != StartWeights {
		t.Errorf("moved nowhere: %v", w)
	}
}

// What is seen is known as well as it is remembered; the other model is of what is heard.
func TestWhatIsSeenIsOnlyRemembered(t *testing.T) {
	m := Memory{Trace: Trace{Stability: 10, Difficulty: 5}, Day: 20_000, Asked: 3, Guess: 0.25}
	w := DefaultWeights
	remembered := w.Retrievability(m.Trace, 7)
	if got := m.Knows(&w, 20_007); got != remembered {
		t.Errorf("known with %v, want %v", got, remembered)
	}
	if got, want := m.chance(&w, 20_007), rightWith(remembered, 0.25); got != want {
		t.Errorf("right with %v, want %v", got, want)
	}
}

// How long after an answer whose time is doubted the next one of its session came, nobody knows; of another session it says nothing.
func TestADoubtedAnswerBreaksThePace(t *testing.T) {
	for session, want := range map[string]int{"its own": 0, "another": 1} {
		d := NewDerived(DefaultWeights)
		at := noon(today)
		given := func(session string, after time.Duration) progress.Answer {
			a := answered("major", today, progress.Right)
			a.Session, a.At = session, at.Add(after)
			return a
		}
		d.Add(given("its own", 0), today)
		d.Doubt(2, given(session, 10*time.Second))
		d.Add(given("its own", 20*time.Second), today)
		if got := d.Pace["d"].Cycle; len(got) != want {
			t.Errorf("doubted in %s session: the pace is %v, want %d", session, got, want)
		}
	}
}

// Sure is what was right twice in a row or more, and more often than luck gives.
func TestWhatIsSure(t *testing.T) {
	d := NewDerived(DefaultWeights)
	for item, m := range map[string]Memory{
		"once, by no luck":  {Run: 1, Luck: 1e-9},
		"twice, by no luck": {Run: 2, Luck: 1e-9},
		"often, by luck":    {Run: 9, Luck: 1},
	} {
		m.Trace, m.Day, m.Asked = Trace{Stability: 5, Difficulty: 5}, today, m.Run
		d.Memory[item] = m
	}
	for _, s := range d.Standings(nil, today, time.UTC) {
		if want := s.Item == "twice, by no luck"; s.Sure != want {
			t.Errorf("right %s is sure: %v", s.Item, s.Sure)
		}
	}
}
