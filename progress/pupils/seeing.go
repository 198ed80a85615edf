package pupils

import (
	"math"
	"math/rand/v2"
	"slices"
	"time"

	"sparetone/progress"
)

// Way is how somebody chooses who sees into heads and keeps the course's order.
type Way struct {
	New       float64 // chance later for each second that something new is worth at least
	Right     float64 // chance later that a surely right answer is worth beside what it teaches, beside one that is right with RightWished
	Later     float64 // days after which what a question gains is counted
	Today     float64 // share of its worth that something has which was asked in the session
	Yesterday float64 // the same, of what was asked the day before
	Times     int     // times that something is asked in a session at most; 0 for as often as it is worth it
}

// RightWished is the share of right answers that is wished for at least.
const RightWished = 0.65

// plainly is to look at nothing but what is known a week later.
var plainly = Way{New: newWorth, Later: 7, Today: 1, Yesterday: 1}

// Teacher is who goes this way.
func (w Way) Teacher() TeacherKind {
	return TeacherKind{"in order, some way", func(p *Pupil, rng *rand.Rand) Teacher {
		t := newInOrder(p, rng).(*inOrder)
		t.way = w
		return t
	}}
}

// greedy reads the student's true memory, and asks whatever adds most to what is known a week later for each second that it takes,
// set against what it is told from with most gain; it is bound by no order of the course.
type greedy struct {
	until
	pupil  *Pupil
	way    Way
	worth  []float64
	chance []float64 // of a right answer
	best   []int     // what each is best set against
	last   int
}

func newGreedy(p *Pupil, rng *rand.Rand) Teacher {
	return &greedy{until: newUntil(p.Course, rng), pupil: p, way: plainly, worth: make([]float64, len(p.Items)), chance: make([]float64, len(p.Items)), best: make([]int, len(p.Items)), last: -1}
}

func (t *greedy) session(day progress.Day, at time.Time, length time.Duration) {
	t.until.session(day, at, length)
	for i := range t.worth {
		t.value(i)
	}
}

// value works out what an item is worth.
func (t *greedy) value(i int) {
	now := float64(t.day) + 0.005
	t.worth[i], t.best[i] = math.Inf(-1), -1
	m := t.pupil.of(i)
	all := t.near[i]
	if len(all) == 0 || t.pupil.among[i] == 0 || !t.Items[i].Ear {
		all = t.rest[i : i+1]
	}
	chance := m.right(i, nil, now)
	if t.Items[i].Ear {
		chance = m.right(i, all[:1], now)
	}
	t.chance[i] = chance
	seconds := 7 - 3*chance + chance*2.5 + (1-chance)*10
	for _, n := range all {
		if worth := (m.gain(i, []pairing{n}, now, now+t.way.Later) + t.way.Right*(chance-RightWished)) / seconds; worth > t.worth[i] {
			t.worth[i], t.best[i] = worth, n.other
		}
	}
}

func (t *greedy) next(at time.Time) (item, against int, ok bool) {
	best := -1
	for i, w := range t.worth {
		if i != t.last && (best < 0 || w > t.worth[best]) {
			best = i
		}
	}
	t.last = best
	return best, t.best[best], at.Before(t.end)
}

func (t *greedy) answered(item int, _ progress.Answer) {
	t.met[item] = true
	t.value(item)
	for _, n := range t.near[item] {
		t.value(n.other)
	}
}

// inOrder is greedy, but begins things in the course's order as the planner does: of what was never asked it looks at the next few that
// rest on nothing unmet, and holds each to be worth something at least, without which it would never begin what gains nothing the first
// time. It shows what the best of planners could teach that knows the student's memory and keeps the order.
type inOrder struct {
	greedy
	spares func(item int) float64 // what not to be missed is worth just now; nil where it is worth nothing
	asked  []timesAsked           // by item
}

// timesAsked is how often something was asked on the latest day on which it was.
type timesAsked struct {
	on    progress.Day
	times int
}

const (
	nextNew  = 6     // new things it looks at
	newWorth = 0.015 // chance a week later for each second that something new is worth at least; of 0.002 to 0.015 the best on day 7 for most
)

func newInOrder(p *Pupil, rng *rand.Rand) Teacher {
	return &inOrder{greedy: *newGreedy(p, rng).(*greedy), asked: make([]timesAsked, len(p.Items))}
}

func (t *inOrder) next(at time.Time) (item, against int, ok bool) {
	best, most, left := -1, 0.0, nextNew
	for i, worth := range t.worth {
		if !t.met[i] {
			if left == 0 || slices.ContainsFunc(t.Items[i].After, func(a string) bool { return !t.met[t.place[a]] }) {
				continue
			}
			left--
			worth = max(worth, t.way.New)
		} else if a := t.asked[i]; a.on == t.day {
			if a.times == t.way.Times {
				continue
			}
			worth *= t.way.Today
		} else if a.on == t.day-1 {
			worth *= t.way.Yesterday
		}
		if t.spares != nil {
			worth += t.spares(i)
		}
		if i != t.last && (best < 0 || worth > most) {
			best, most = i, worth
		}
	}
	if best < 0 { // all that may be asked was asked as often as it may be
		return t.greedy.next(at)
	}
	t.last = best
	against = t.best[best]
	if against >= 0 && !t.met[against] {
		against = t.beside(best)
	}
	return best, against, at.Before(t.end)
}

func (t *inOrder) answered(item int, a progress.Answer) {
	if t.asked[item].on != t.day {
		t.asked[item] = timesAsked{on: t.day}
	}
	t.asked[item].times++
	t.greedy.answered(item, a)
}

// gentle keeps the order, and spares its student: as long as less of a session is right than spared, it asks what is likeliest right rather
// than what gains most. It shows what there is to teach without sessions that go badly.
type gentle struct {
	inOrder
	right, of int // answers of the session
}

const (
	spared       = 0.6 // share of right answers from which a session goes well
	likelyEnough = 0.6 // chance from which it is no longer asked how much likelier something is right
	outweighs    = 100 // times that a chance counts beside what is gained a second
)

func newGentle(p *Pupil, rng *rand.Rand) Teacher {
	t := &gentle{inOrder: *newInOrder(p, rng).(*inOrder)}
	t.spares = func(i int) float64 {
		if float64(t.right) >= spared*float64(t.of) {
			return 0
		}
		return outweighs * min(likelyEnough, t.chance[i])
	}
	return t
}

func (t *gentle) session(day progress.Day, at time.Time, length time.Duration) {
	t.right, t.of = 0, 0
	t.inOrder.session(day, at, length)
}

func (t *gentle) answered(item int, a progress.Answer) {
	t.of++
	if a.Result == progress.Right {
		t.right++
	}
	t.inOrder.answered(item, a)
}
