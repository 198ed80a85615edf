package pupils

import (
	"math/rand/v2"
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

// TeacherKind is a kind of teacher.
type TeacherKind struct {
	Name string
	Make func(p *Pupil, rng *rand.Rand) Teacher
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
