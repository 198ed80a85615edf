package memory

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"sparetone/progress"
)

// What was foretold is counted by tenths, by eye and by ear apart, with what happened.
func TestForetoldAndHappened(t *testing.T) {
	for _, voice := range []string{"", "soft"} {
		d := NewDerived(StartWeights)
		one, other := &d.ByEye, &d.ByEar
		if voice != "" {
			one, other = other, one
		}
		add := func(day progress.Day, r progress.Result) {
			a := answered("a", day, r)
			a.Voice = voice
			d.Add(a, day)
		}
		add(today-9, progress.Right)
		if one.Total().Asked != 0 {
			t.Errorf("something was foretold of the first answer: %v", one)
		}
		chance := d.Chance(d.Memory["a"], today)
		add(today, progress.Wrong)
		var want Calibration
		want[int(10*chance)] = Foretold{Asked: 1, Sum: chance}
		if *one != want {
			t.Errorf("%v, want %v", *one, want)
		}
		later := d.Chance(d.Memory["a"], today+1)
		add(today+1, progress.Right)
		if f := one[int(10*later)]; f.Right != 1 {
			t.Errorf("%v", f)
		}
		if sum := one.Total(); sum.Asked != 2 || sum.Right != 1 || math.Abs(sum.Sum-chance-later) > 1e-12 {
			t.Errorf("all in all %+v", sum)
		}
		if *other != (Calibration{}) {
			t.Errorf("it counts as the other kind: %v", other)
		}
	}
}

// Each right answer more than was foretold raises all chances of its kind by a tenth of a nat, and no chance is ever sure.
func TestWhatHappenedSetsRightWhatFollows(t *testing.T) {
	var c Calibration
	near(t, "nothing is set right yet", c.corrected(0.6), 0.6)
	c.count(0.5, false)
	c.count(0.9, false)
	c.count(0.92, true)
	near(t, "1.32 too many were foretold", c.corrected(0.6), 1/(1+math.Exp(0.1*1.32)/1.5))
	near(t, "off on the average", c.Off(), (0.5+math.Abs(0.9+0.92-1))/3)
	var low Calibration
	low.count(0.3, true)
	near(t, "and 0.7 too few", low.corrected(0.6), 1/(1+math.Exp(-0.1*0.7)/1.5))
	for _, chance := range []float64{0, 1} {
		near(t, "none is sure", Calibration{}.corrected(chance), math.Abs(chance-0.01))
	}
	c.count(1, true)
	if c[9].Asked != 3 {
		t.Errorf("a chance of 1 counts among %v", c)
	}
	near(t, "nothing is off where nothing was asked", Calibration{}.Off(), 0)
}

// Who is right less often than the models say is foretold what happens after some hundred answers, by ear as by eye.
func TestForetoldLearnsFromTheStudent(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, right := range []float64{0.3, 0.6, 0.85} {
		var c, late Calibration
		for n := range 900 {
			chance, is := c.corrected(0.7), rng.Float64() < right
			c.count(chance, is)
			if n >= 100 {
				late.count(chance, is)
			}
		}
		if off := late.Off(); off > 0.05 {
			t.Errorf("right with %v: off by %.3f from the hundredth answer on", right, off)
		}
	}
}

// What is said of an item is its own chance as the answers of its kind set it right.
func TestChancesAreThoseOfTheKind(t *testing.T) {
	d := NewDerived(StartWeights)
	d.Add(answered("a", today, progress.Right), today)
	m := d.Memory["a"]
	d.ByEye[9] = Foretold{Asked: 10, Right: 5, Sum: 9.5}
	near(t, "by eye", d.Chance(m, today+2), d.ByEye.corrected(m.chance(&d.Weights, today+2)))
	m.Ear = true
	near(t, "by ear", d.Chance(m, today+2), m.chance(&d.Weights, today+2))
	if got := d.Standings(nil, today+2, time.UTC); got[0].Chance != d.Chance(d.Memory["a"], today+2) {
		t.Errorf("it stands at %v", got[0].Chance)
	}
}
