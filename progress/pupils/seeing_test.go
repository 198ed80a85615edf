package pupils

import (
	"math"
	"testing"
	"time"

	"sparetone/progress"
)

// knower gains a fixed amount of each item, the last most.
type knower struct {
	stubborn
	gains []float64
}

func (k *knower) gain(i int, _ []pairing, _, _ float64) float64 { return k.gains[i] }

// The greedy teacher asks what gains most a second, never the same twice running: a right answer takes 4 and 2.5 seconds, a miss 7 and 10.
func TestGreedy(t *testing.T) {
	k := &knower{gains: []float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7}}
	p := newPupil(chords(), k, k, dice())
	g := newGreedy(p, dice()).(*greedy)
	g.session(firstDay, afternoon(0), 10*time.Minute)
	for chance, seconds := range map[float64]float64{1: 6.5, 0: 17, 0.5: 5.5 + 1.25 + 5} {
		k.chance = chance
		g.value(6)
		isNear(t, "worth a second", g.worth[6], 0.7/seconds)
	}
	k.chance = 0
	same(t, "greedy", asks(g, 0, 4, progress.Right), 6, 5, 6, 5)
	g.value(0)
	if g.best[0] != 1 || g.best[6] != -1 || g.best[3] != -1 {
		t.Errorf("set against %v", g.best)
	}
}

// In the course's order new things are begun as what they rest on was met, of the next six, and are worth 0.015 a second at least.
func TestInOrder(t *testing.T) {
	k := &knower{gains: make([]float64, 7)}
	p := newPupil(chords(), k, k, dice())
	o := newInOrder(p, dice()).(*inOrder)
	o.session(firstDay, afternoon(0), 10*time.Minute)
	for i := range 7 {
		o.worth[i] = float64(i) / 1000
	}
	o.worth[6] = 1
	if item, _, _ := o.next(afternoon(0)); item != 0 {
		t.Errorf("%d is begun, which rests on what was not met, or comes later", item)
	}
	o.last, o.met[3], o.worth[3], o.worth[6] = -1, true, 0.0149, 0
	if item, _, _ := o.next(afternoon(0)); item != 0 {
		t.Errorf("with 0.0149 a second %d is asked", item)
	}
	o.last, o.worth[3] = -1, 0.0151
	if item, _, _ := o.next(afternoon(0)); item != 3 {
		t.Errorf("with 0.0151 a second %d is asked", item)
	}
	o.last, o.worth[6] = -1, 0.02
	if item, _, _ := o.next(afternoon(0)); item != 6 {
		t.Errorf("of six new things %d is asked, not the best", item)
	}
	o.met[3], o.worth[3], o.last = false, 0, -1
	o.Items[6].After = nil
	if item, _, _ := o.next(afternoon(0)); item != 0 {
		t.Errorf("of seven new things the seventh is looked at: %d", item)
	}
	o.best[0], o.worth[0] = 1, 1
	o.last = -1
	if _, against, _ := o.next(afternoon(0)); against != -1 {
		t.Errorf("set against %d, which was not met", against)
	}
	o.last, o.met[2] = -1, true
	if _, against, _ := o.next(afternoon(0)); against != 2 {
		t.Errorf("set against %d, not what was met", against)
	}
}

// Where less than six in ten of a session was right, what is right with 0.6 is asked, of that what gains most; else what gains most.
func TestGentle(t *testing.T) {
	k := &knower{gains: make([]float64, 7)}
	p := newPupil(chords(), k, k, dice())
	g := newGentle(p, dice()).(*gentle)
	g.session(firstDay, afternoon(0), 10*time.Minute)
	for i := range 7 {
		g.met[i], g.worth[i], g.chance[i] = true, 0, 0
	}
	g.worth[1], g.chance[1] = 0.5, 0.59
	g.worth[2], g.chance[2] = 0.01, 0.95
	g.worth[3], g.chance[3] = 0.02, 0.61
	for _, c := range []struct{ right, of, want int }{{0, 0, 1}, {6, 10, 1}, {5, 9, 3}, {59, 100, 3}} {
		g.last, g.right, g.of = -1, c.right, c.of
		if item, _, _ := g.next(afternoon(0)); item != c.want {
			t.Errorf("where %d of %d were right %d is asked, want %d", c.right, c.of, item, c.want)
		}
	}
	g.session(firstDay+1, afternoon(1), 10*time.Minute)
	if g.right != 0 || g.of != 0 || g.day != firstDay+1 {
		t.Errorf("a new session begins with %d of %d on day %d", g.right, g.of, g.day)
	}
	g.met[2] = false
	g.answered(2, answer(1, progress.Right))
	g.answered(2, answer(1, progress.Wrong))
	if g.right != 1 || g.of != 2 || !g.met[2] {
		t.Errorf("%d of %d", g.right, g.of)
	}
	g.value(1)
	if g.chance[1] != k.right(1, nil, 0) {
		t.Errorf("the chance of a right answer is %v", g.chance[1])
	}
}

// A way adds what a right answer is worth to what is gained so many days later.
func TestAWayIsWorth(t *testing.T) {
	k := &knower{gains: []float64{0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7}}
	p := newPupil(chords(), k, k, dice())
	g := newGreedy(p, dice()).(*greedy)
	g.way.Right = 0.2
	g.session(firstDay, afternoon(0), 10*time.Minute)
	for chance, seconds := range map[float64]float64{1: 6.5, 0: 17} {
		k.chance = chance
		g.value(6)
		isNear(t, "worth a second", g.worth[6], (0.7+0.2*(chance-0.65))/seconds)
	}
	h := newHalving(7, dice())
	g.pupil = newPupil(chords(), h, h, dice())
	for _, later := range []float64{1, 7} {
		g.way = Way{Later: later}
		g.value(2)
		now := float64(firstDay) + 0.005
		isNear(t, "gained later", g.worth[2], h.gain(2, nil, now, now+later)/(7-3*g.chance[2]+2.5*g.chance[2]+10*(1-g.chance[2])))
	}
}

// What was asked in the session and on the day before counts as the way says, and no more often than it says.
func TestAWayRests(t *testing.T) {
	k := &knower{gains: make([]float64, 7)}
	p := newPupil(chords(), k, k, dice())
	way := Way{New: 0.01, Later: 7, Today: 0.5, Yesterday: 0.8, Times: 2}
	o := way.Teacher().Make(p, dice()).(*inOrder)
	if o.way != way {
		t.Errorf("goes %+v", o.way)
	}
	for i, gain := range []float64{0.017 * 1.3, 0.017 * 1.1, 0.017} { // a second 0.0013, 0.0011, 0.001
		k.gains[i], o.met[i] = gain, true
	}
	for i := 3; i < 7; i++ {
		o.met[i] = true
	}
	o.session(firstDay, afternoon(0), 10*time.Minute)
	if got := o.worth[0]; math.Abs(got-0.0013) > 1e-9 {
		t.Fatalf("worth %v", got)
	}
	chosen := func() int {
		item, _, _ := o.next(afternoon(0))
		o.last = -1
		return item
	}
	for _, c := range []struct {
		asked []timesAsked
		want  int
	}{
		{[]timesAsked{{}, {}, {}}, 0},
		{[]timesAsked{{firstDay, 1}, {}, {}}, 1},                       // half of 0.0013
		{[]timesAsked{{firstDay - 1, 1}, {}, {}}, 1},                   // eight tenths of it
		{[]timesAsked{{firstDay - 2, 1}, {}, {}}, 0},                   // it has rested
		{[]timesAsked{{firstDay - 1, 2}, {firstDay, 1}, {}}, 0},        // what was asked twice yesterday may be asked
		{[]timesAsked{{firstDay, 2}, {firstDay, 1}, {firstDay, 1}}, 1}, // twice is enough
	} {
		for i := range o.asked {
			o.asked[i] = timesAsked{}
			if i < len(c.asked) {
				o.asked[i] = c.asked[i]
			}
		}
		if got := chosen(); got != c.want {
			t.Errorf("%v: %d is asked, want %d", c.asked, got, c.want)
		}
	}
	for i := range o.asked {
		o.asked[i] = timesAsked{firstDay, 2}
	}
	if got := chosen(); got != 0 {
		t.Errorf("where all was asked twice %d is asked", got)
	}
	o.answered(3, answer(0, progress.Right))
	o.session(firstDay+1, afternoon(1), 10*time.Minute)
	o.answered(3, answer(1, progress.Right))
	if want := (timesAsked{firstDay + 1, 1}); o.asked[3] != want || o.asked[0] != (timesAsked{firstDay, 2}) {
		t.Errorf("asked %+v", o.asked)
	}
}
