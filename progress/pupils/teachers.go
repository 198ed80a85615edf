package pupils

import (
	"math/rand/v2"
	"slices"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/memory"
	"sparetone/progress/plan"
)

// Teacher is a way to choose what to ask.
type Teacher interface {
	session(day progress.Day, at time.Time, length time.Duration)
	next(at time.Time) (item, against int, ok bool)
	answered(item int, a progress.Answer)
}

// Planned is the planner at work, as the program has it at work.
type Planned struct {
	*Course
	*plan.Planner
	known   *memory.Derived
	samples memory.Samples // what the weights are fitted to
	answers []progress.Answer
	tried   int
	last    clock.Moment
}

// NewPlanned is a planner that knows nothing yet.
func NewPlanned(c *Course) *Planned {
	return &Planned{Course: c, known: memory.NewDerived(memory.StartWeights)}
}

func (t *Planned) session(day progress.Day, at time.Time, length time.Duration) {
	if n := len(t.answers); memory.FitDue(n, t.tried) {
		if w, better := t.samples.Fit(t.known.Weights); better {
			t.reweigh(w)
		}
		t.tried = n
	}
	t.Planner = plan.NewPlanner(t.known, clock.Present{Clock: at, Last: t.last}, t.Items, length)
}

// reweigh works out anew what is remembered, as a rebuild of a file does.
func (t *Planned) reweigh(w memory.Weights) {
	*t.known = *memory.NewDerived(w)
	for _, a := range t.answers {
		t.known.Add(a, progress.DayOf(a.At))
	}
}

func (t *Planned) next(at time.Time) (item, against int, ok bool) {
	pick, ok := t.Next(at)
	against = -1
	if i, in := t.place[pick.Against]; in && pick.Against != "" {
		against = i
	}
	return t.place[pick.Item], against, ok
}

func (t *Planned) answered(item int, a progress.Answer) {
	day := progress.DayOf(a.At)
	t.samples.Add(t.known, a, day)
	t.answers = append(t.answers, a)
	t.Answered(a)
	t.last = clock.Moment{Known: true, At: a.At, Day: day}
}

// foretells is a teacher that says how likely an answer is right.
type foretells interface {
	foretold(item int, day progress.Day) (chance float64, known bool)
}

func (t *Planned) foretold(item int, day progress.Day) (float64, bool) {
	m, met := t.known.Memory[t.Items[item].Item]
	return t.known.Chance(m, day), met
}

// until gives a simpler teacher its sessions.
type until struct {
	*Course
	day progress.Day
	end time.Time
	met []bool
	rng *rand.Rand
}

func newUntil(c *Course, rng *rand.Rand) until {
	return until{Course: c, met: make([]bool, len(c.Items)), rng: rng}
}

func (u *until) session(day progress.Day, at time.Time, length time.Duration) {
	u.day, u.end = day, at.Add(length)
}

// beside is something near an item that was met, at random.
func (u *until) beside(item int) int {
	var met []int
	for _, n := range u.near[item] {
		if u.met[n.other] {
			met = append(met, n.other)
		}
	}
	if len(met) == 0 {
		return -1
	}
	return met[u.rng.IntN(len(met))]
}

// fresh is the next item of the course that was never met; -1 if there is none.
func (u *until) fresh() int {
	for i, met := range u.met {
		if !met {
			return i
		}
	}
	return -1
}

// ladder asks what is due, longest overdue first, and then the next new item. What is right rests twice as long as before; what is
// wrong comes back the next day. Each question is set against something near that was met.
type ladder struct {
	until
	due, step []progress.Day
}

func newLadder(c *Course, rng *rand.Rand) Teacher {
	return &ladder{newUntil(c, rng), make([]progress.Day, len(c.Items)), make([]progress.Day, len(c.Items))}
}

func (t *ladder) next(at time.Time) (item, against int, ok bool) {
	best := -1
	for i, due := range t.due {
		if t.met[i] && due <= t.day && (best < 0 || due < t.due[best]) {
			best = i
		}
	}
	if best < 0 {
		best = t.fresh()
	}
	if best < 0 {
		for i, due := range t.due {
			if best < 0 || due < t.due[best] {
				best = i
			}
		}
	}
	return best, t.beside(best), at.Before(t.end)
}

func (t *ladder) answered(item int, a progress.Answer) {
	t.met[item] = true
	t.step[item] = max(1, 2*t.step[item])
	if a.Result != progress.Right {
		t.step[item] = 1
	}
	t.due[item] = t.day + t.step[item]
}

// dueOnly asks what the memory model with its published weights holds for right with 0.8 or less, the least likely first, and then
// the next new item.
type dueOnly struct {
	until
	known *memory.Derived
}

func newDueOnly(c *Course, rng *rand.Rand) Teacher {
	return &dueOnly{newUntil(c, rng), memory.NewDerived(memory.DefaultWeights)}
}

func (t *dueOnly) next(at time.Time) (item, against int, ok bool) {
	best, least, soonest := -1, 0.8, 2.0
	var faded int
	for i, it := range t.Items {
		if !t.met[i] {
			continue
		}
		chance := t.known.Memory[it.Item].Knows(&t.known.Weights, t.day)
		if chance <= least {
			best, least = i, chance
		}
		if chance < soonest {
			faded, soonest = i, chance
		}
	}
	if best < 0 {
		best = t.fresh()
	}
	if best < 0 {
		best = faded
	}
	return best, t.beside(best), at.Before(t.end)
}

func (t *dueOnly) answered(item int, a progress.Answer) {
	t.met[item] = true
	t.known.Add(a, t.day)
}

// anything asks anything.
type anything struct{ until }

func newAnything(c *Course, rng *rand.Rand) Teacher { return &anything{newUntil(c, rng)} }

func (t *anything) next(at time.Time) (item, against int, ok bool) {
	item = t.rng.IntN(len(t.Items))
	return item, t.beside(item), at.Before(t.end)
}

func (t *anything) answered(item int, _ progress.Answer) { t.met[item] = true }

// greedy reads the student's true memory, and asks whatever adds most to what is known a week later for each second that it takes,
// set against what it is told from with most gain; it is bound by no order of the course.
type greedy struct {
	until
	pupil  *Pupil
	worth  []float64
	chance []float64 // of a right answer
	best   []int     // what each is best set against
	last   int
}

func newGreedy(p *Pupil, rng *rand.Rand) Teacher {
	return &greedy{until: newUntil(p.Course, rng), pupil: p, worth: make([]float64, len(p.Items)), chance: make([]float64, len(p.Items)), best: make([]int, len(p.Items)), last: -1}
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
	t.worth[i], t.best[i] = -1, -1
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
		if gain := m.gain(i, []pairing{n}, now, now+7) / seconds; gain > t.worth[i] {
			t.worth[i], t.best[i] = gain, n.other
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
}

const (
	nextNew  = 6     // new things it looks at
	newWorth = 0.015 // chance a week later for each second that something new is worth at least; of 0.002 to 0.015 the best on day 7 for most
)

func newInOrder(p *Pupil, rng *rand.Rand) Teacher {
	return &inOrder{greedy: *newGreedy(p, rng).(*greedy)}
}

func (t *inOrder) next(at time.Time) (item, against int, ok bool) {
	best, most, left := -1, 0.0, nextNew
	for i, worth := range t.worth {
		if !t.met[i] {
			if left == 0 || slices.ContainsFunc(t.Items[i].After, func(a string) bool { return !t.met[t.place[a]] }) {
				continue
			}
			left--
			worth = max(worth, newWorth)
		}
		if t.spares != nil {
			worth += t.spares(i)
		}
		if i != t.last && (best < 0 || worth > most) {
			best, most = i, worth
		}
	}
	t.last = best
	against = t.best[best]
	if against >= 0 && !t.met[against] {
		against = t.beside(best)
	}
	return best, against, at.Before(t.end)
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
