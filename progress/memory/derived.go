package memory

import (
	"maps"
	"math"
	"slices"
	"time"

	"sparetone/progress"
)

// Derived is all that follows from the answers, in the order they were given. The same code brings
// it up to date answer by answer, rebuilds it from the first answer on, and follows a session in the
// planner, so that there is one meaning of it.
type Derived struct {
	Weights  Weights
	Memory   map[string]Memory // by item
	Weeks    map[WeekOf]Tally
	Mistakes map[string]map[Mistake]int // by item
	Pace     map[string]Pace            // by drill
	Doubted  []int64                    // numbers of the answers whose time is doubted, in order
	ByEye    Calibration                // of what is seen or named
	ByEar    Calibration                // of what is heard
	LastIn   string                     // session of the last answer that is believed
	LastAt   time.Time                  // when it was given; zero if others of the session came after it, or there is none
}

type WeekOf struct {
	Item string
	Week int
}

type Mistake struct {
	TakenFor string
	Week     int
}

// Tally counts answers.
type Tally struct {
	Asked   int
	Right   int     // of these
	Guessed float64 // of these, right on average by guessing alone
}

// add counts another answer.
func (t *Tally) add(a progress.Answer) {
	t.Asked++
	if a.Result == progress.Right {
		t.Right++
	}
	t.Guessed += a.Guess()
}

// Pace is how long things take a student in one drill, in milliseconds, the latest last.
type Pace struct {
	Took  []int64 // right answers: from the question standing there to the answer
	Cycle []int64 // any answers: from the answer before it, in the same session
}

const (
	paceKept   = 50              // times kept for each drill
	paceEnough = 8               // times needed before a usual one is known
	awake      = 3 * time.Minute // whoever takes longer has been called away
)

func NewDerived(w Weights) *Derived {
	return &Derived{
		Weights:  w,
		Memory:   map[string]Memory{},
		Weeks:    map[WeekOf]Tally{},
		Mistakes: map[string]map[Mistake]int{},
		Pace:     map[string]Pace{},
	}
}

// Add brings everything up to date after one more answer.
func (d *Derived) Add(a progress.Answer, day progress.Day) {
	p := d.Pace[a.Drill]
	m, known := d.Memory[a.Item]
	m.Ear = m.Ear || a.Voice != ""
	if known && (!m.Ear || m.Unsure > 0) { // of what is heard for the first time nothing was foretold
		d.calibration(m.Ear).count(d.Chance(m, day), a.Result == progress.Right)
	}
	next := m.after(&d.Weights, d.gradeNext(a), a.Result, a.Guess(), day, known)
	next.Rung, next.OnRung = m.rung(a)
	d.Memory[a.Item] = next

	t := d.Weeks[WeekOf{a.Item, day.Week()}]
	t.add(a)
	d.Weeks[WeekOf{a.Item, day.Week()}] = t
	if a.TakenFor != "" && a.TakenFor != a.Item {
		d.AddMistake(a.Item, Mistake{a.TakenFor, day.Week()}, 1)
	}

	if a.Result == progress.Right && a.Took < awake {
		p.Took = keepLatest(p.Took, a.Took)
	}
	if cycle := a.At.Sub(d.LastAt); a.Session == d.LastIn && !d.LastAt.IsZero() && cycle >= a.Took && cycle < awake {
		p.Cycle = keepLatest(p.Cycle, cycle)
	}
	d.Pace[a.Drill] = p
	d.LastIn, d.LastAt = a.Session, a.At
}

// Doubt passes over one more answer, whose time is doubted. It moves nothing; but how long after it the next one of its
// session came, nobody knows.
func (d *Derived) Doubt(n int64, a progress.Answer) {
	d.Doubted = append(d.Doubted, n)
	if a.Session == d.LastIn {
		d.LastAt = time.Time{}
	}
}

// AddMistake counts that an item was taken for another.
func (d *Derived) AddMistake(item string, m Mistake, times int) {
	if d.Mistakes[item] == nil {
		d.Mistakes[item] = map[Mistake]int{}
	}
	d.Mistakes[item][m] += times
}

// gradeNext grades an answer that is about to be added.
func (d *Derived) gradeNext(a progress.Answer) Grade {
	_, known := d.Memory[a.Item]
	return gradeOf(a, d.Pace[a.Drill].usualTook(), !known)
}

// keepLatest adds a time to those that are kept.
func keepLatest(times []int64, t time.Duration) []int64 {
	times = append(times, t.Milliseconds())
	return slices.Clone(times[max(0, len(times)-paceKept):])
}

// usualTook returns the median time of the latest right answers, or 0 if they are too few.
func (p Pace) usualTook() time.Duration { return median(p.Took) }

// UsualCycle returns the median time from one answer to the next, or 0 if they are too few.
func (p Pace) UsualCycle() time.Duration { return median(p.Cycle) }

func median(ms []int64) time.Duration {
	if len(ms) < paceEnough {
		return 0
	}
	sorted := slices.Sorted(slices.Values(ms))
	return time.Duration(sorted[len(sorted)/2]) * time.Millisecond
}

// Same reports whether two derivations agree, but for what another processor may round otherwise.
func (d *Derived) Same(e *Derived) bool {
	return slices.Equal(d.Doubted, e.Doubted) &&
		d.ByEye.same(e.ByEye) && d.ByEar.same(e.ByEar) &&
		maps.EqualFunc(d.Weeks, e.Weeks, func(a, b Tally) bool { return a == b }) &&
		maps.EqualFunc(d.Mistakes, e.Mistakes, maps.Equal) &&
		maps.EqualFunc(d.Pace, e.Pace, func(a, b Pace) bool { return slices.Equal(a.Took, b.Took) && slices.Equal(a.Cycle, b.Cycle) }) &&
		maps.EqualFunc(d.Memory, e.Memory, func(a, b Memory) bool {
			near := math.Abs(a.Stability-b.Stability) <= 1e-9*b.Stability && math.Abs(a.Difficulty-b.Difficulty) <= 1e-9 &&
				math.Abs(a.Telling.Kept-b.Telling.Kept) <= 1e-9 && math.Abs(a.Added-b.Added) <= 1e-9 && math.Abs(a.Unsure-b.Unsure) <= 1e-9 &&
				math.Abs(a.Favour-b.Favour) <= 1e-9
			a.Trace, a.Telling, a.Favour = b.Trace, b.Telling, b.Favour
			return near && a == b
		})
}
