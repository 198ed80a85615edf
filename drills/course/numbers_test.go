package course

import (
	"fmt"
	"math"
	"testing"
	"time"

	"sparetone/drills"
)

// Every number that a placement goes by has an example here that is no longer true once it is a little more or less.

func near(a, b float64) bool { return math.Abs(a-b) < 1e-12 }

// Before anything was asked a level four fifths further, by ear and by eye alike, is less likely by a factor e; and
// where one of them is three tenths further than the other, by the root of e.
func TestTheBeliefBeforeAnything(t *testing.T) {
	b := newBelief(10, 10)
	sum := 0.0
	for _, row := range b {
		for _, p := range row {
			sum += p
		}
	}
	if !near(sum, 1) {
		t.Errorf("it adds up to %v", sum)
	}
	if got := b[0][0] / b[8][8]; !near(got, math.E) {
		t.Errorf("eight steps of ten further is less likely by %v", got)
	}
	if got := b[5][5] / b[8][2]; !near(got, math.Exp(2)) { // six tenths apart: two standard deviations
		t.Errorf("six steps apart is less likely by %v", got)
	}
}

func TestWhatAnAnswerSays(t *testing.T) {
	for _, c := range []struct {
		level, step int
		want        float64
	}{
		{5, 4, 1 / (1 + math.Exp(-0.25))}, {5, 5, 1 / (1 + math.Exp(0.25))}, {5, 8, 1 / (1 + math.Exp(1.75))},
	} {
		k := knows(c.level, c.step)
		if !near(k, c.want) {
			t.Errorf("from level %d step %d is known with %v, want %v", c.level, c.step, k, c.want)
		}
		if got, want := rightAt(c.level, c.step, 4), 0.85*k+0.25*(1-k); !near(got, want) {
			t.Errorf("right with %v, want %v", got, want)
		}
		if got, want := unknownAt(c.level, c.step), 1-0.85*k; !near(got, want) {
			t.Errorf("not known with %v, want %v", got, want)
		}
	}
	for p, want := range map[float64]float64{0: 0, 0.5: 1, 0.25: 2 - 0.75*math.Log2(3), 1: 0} {
		if got := doubt(p); !near(got, want) {
			t.Errorf("what happens with %v is in doubt by %v bits", p, got)
		}
	}
	// What two levels tell apart surely is one bit; what they answer alike is none.
	if got := tells([]float64{0.5, 0, 0.5}, 1, 4); !near(got, doubt((rightAt(0, 1, 4)+rightAt(2, 1, 4))/2)-(doubt(rightAt(0, 1, 4))+doubt(rightAt(2, 1, 4)))/2) {
		t.Errorf("it tells %v bits", got)
	}
	if got := tells([]float64{0, 1, 0}, 1, 4); !near(got, 0) {
		t.Errorf("of a level that is known it tells %v bits", got)
	}
}

// The level to begin from is the one before which two fifths of the belief lie.
func TestBeginningTooLateIsWorse(t *testing.T) {
	for at, want := range map[float64]int{0.401: 0, 0.399: 1} {
		if level, _ := settled([]float64{at, 1 - at}, 0); level != want {
			t.Errorf("where the beginning is right with %v it begins at %d", at, level)
		}
	}
	levels := []float64{0.05, 0.05, 0.05, 0.3, 0.3, 0.15, 0.1}
	for within, want := range map[int]float64{0: 0.3, 1: 0.65, 2: 0.85, 9: 1} {
		if level, chance := settled(levels, within); level != 3 || !near(chance, want) {
			t.Errorf("at %d, within %d steps with %v", level, within, chance)
		}
	}
}

// placing is a placement of made-up steps by eye, each with a question of two choices.
func placing(steps int, belief belief) *Placement {
	p := &Placement{now: time.Now, belief: belief}
	for n := range steps {
		p.steps = append(p.steps, placed{Step: Step{ID: fmt.Sprint(n)}, number: n, question: &drills.Question{Choices: make([]drills.Choice, 2)}})
	}
	return p
}

// byEye is a belief over levels by eye alone.
func byEye(levels ...float64) belief { return belief{levels} }

// It begins among the first five steps, goes one further with every answer, and three times as far as the hardest that
// was right.
func TestHowFarAPlacementReaches(t *testing.T) {
	for _, c := range []struct{ asked, hardest, furthest int }{{0, 0, 5}, {1, 0, 6}, {3, 0, 8}, {3, 4, 20}, {1, 6, 24}} {
		// The last step within reach tells most: the true level is there or at the beginning.
		levels := make([]float64, 41)
		levels[0], levels[40] = 0.5, 0.5
		p := placing(40, byEye(levels...))
		p.count = c.asked
		p.steps[c.hardest].right = c.hardest > 0
		furthest := 0
		for best := p.best(); best != nil; best = p.best() {
			furthest = max(furthest, best.number+1)
			best.done = true
		}
		if furthest != c.furthest {
			t.Errorf("after %d answers, the hardest right one %d, it reaches as far as step %d, not %d", c.asked, c.hardest, furthest, c.furthest)
		}
	}
}

// What tells less than two hundredths of a bit is not asked, but for the first question.
func TestWhatTellsLittleIsNotAsked(t *testing.T) {
	for share, want := range map[float64]bool{0.1375: false, 0.1427: true} {
		levels := []float64{share, 0, 0, 0, 0, 0, 1 - share}
		told := tells(levels, 3, 2)
		if (told > 0.02) != want || told < 0.0195 || told > 0.0205 {
			t.Fatalf("it tells %.5f bits", told)
		}
		p := placing(6, byEye(levels...))
		for n := range p.steps {
			p.steps[n].done = n != 3
		}
		if p.best() == nil {
			t.Error("nothing is asked at first")
		}
		if p.count = 1; (p.best() != nil) != want {
			t.Errorf("what tells %.5f bits is asked: %v", told, !want)
		}
	}
}

// It is sure where the level is within two steps with four in five.
func TestWhenAPlacementIsSure(t *testing.T) {
	for _, c := range []struct {
		levels []float64
		sure   bool
	}{
		{[]float64{0.199, 0, 0, 0.801, 0, 0}, true}, {[]float64{0.201, 0, 0, 0.799, 0, 0}, false},
		{[]float64{0.3, 0, 0.7, 0, 0, 0}, true}, {[]float64{0.3, 0, 0, 0.7, 0, 0}, false},
	} {
		p := placing(5, byEye(c.levels...))
		p.silent = true
		if p.sure() != c.sure {
			t.Errorf("%v is sure: %v", c.levels, !c.sure)
		}
	}
}

// Two minutes, ten seconds of which are the next answer's; over one question no more than ten seconds count, so who walks away from
// one is asked the others as well.
func TestWhatTimeAPlacementTakes(t *testing.T) {
	for _, c := range []struct {
		each time.Duration
		want int
	}{{9 * time.Second, 13}, {10 * time.Second, 12}, {11 * time.Second, 12}, {time.Hour, 12}, {5 * time.Second, 23}} {
		p := placing(40, byEye(1))
		p.belief = newBelief(0, 40)
		now := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
		p.now = func() time.Time { return now }
		asked := 0
		for p.Next() != nil {
			asked++
			now = now.Add(c.each)
			p.asked.right = true // it reaches further, and nothing is learnt of it that would end it
		}
		if asked != c.want {
			t.Errorf("at %v an answer %d questions are asked, not %d", c.each, asked, c.want)
		}
	}
}
