package progress

import (
	"maps"
	"math"
	"slices"
	"time"
)

// derived is all that follows from the answers, in the order they were given. The same code brings
// it up to date answer by answer, rebuilds it from the first answer on, and follows a session in the
// planner, so that there is one meaning of it.
type derived struct {
	weights  Weights
	memory   map[string]Memory // by item
	weeks    map[weekOf]Tally
	mistakes map[string]map[mistake]int // by item
	pace     map[string]pace            // by drill
	doubted  []int64                    // numbers of the answers whose time is doubted, in order
	lastIn   string                     // session of the last answer that is believed
	lastAt   time.Time                  // when it was given; zero if others of the session came after it, or there is none
}

type weekOf struct {
	item string
	week int
}

type mistake struct {
	takenFor string
	week     int
}

// Tally counts answers.
type Tally struct {
	Asked   int
	Held    int     // of these, right
	Guessed float64 // of these, right on average by guessing alone
}

// add counts another answer.
func (t *Tally) add(a Answer) {
	t.Asked++
	if a.Result == Right {
		t.Held++
	}
	t.Guessed += a.guess()
}

// pace is how long things take a student in one drill, in milliseconds, the latest last.
type pace struct {
	Took  []int64 // right answers: from the question standing there to the answer
	Cycle []int64 // any answers: from the answer before it, in the same session
}

const (
	paceKept   = 50              // times kept for each drill
	paceEnough = 8               // times needed before a usual one is known
	awake      = 3 * time.Minute // whoever takes longer has been called away
)

func newDerived(w Weights) *derived {
	return &derived{
		weights:  w,
		memory:   map[string]Memory{},
		weeks:    map[weekOf]Tally{},
		mistakes: map[string]map[mistake]int{},
		pace:     map[string]pace{},
	}
}

// add brings everything up to date after one more answer.
func (d *derived) add(a Answer, day Day) {
	p := d.pace[a.Drill]
	m, known := d.memory[a.Item]
	d.memory[a.Item] = m.after(&d.weights, d.gradeNext(a), a.Result, a.guess(), day, known)

	t := d.weeks[weekOf{a.Item, day.week()}]
	t.add(a)
	d.weeks[weekOf{a.Item, day.week()}] = t
	if a.TakenFor != "" && a.TakenFor != a.Item {
		d.mistake(a.Item, mistake{a.TakenFor, day.week()}, 1)
	}

	if a.Result == Right && a.Took < awake {
		p.Took = keepLatest(p.Took, a.Took)
	}
	if cycle := a.At.Sub(d.lastAt); a.Session == d.lastIn && !d.lastAt.IsZero() && cycle >= a.Took && cycle < awake {
		p.Cycle = keepLatest(p.Cycle, cycle)
	}
	d.pace[a.Drill] = p
	d.lastIn, d.lastAt = a.Session, a.At
}

// doubt passes over one more answer, whose time is doubted. It moves nothing; but how long after it the next one of its
// session came, nobody knows.
func (d *derived) doubt(n int64, a Answer) {
	d.doubted = append(d.doubted, n)
	if a.Session == d.lastIn {
		d.lastAt = time.Time{}
	}
}

// mistake counts that an item was taken for another.
func (d *derived) mistake(item string, m mistake, times int) {
	if d.mistakes[item] == nil {
		d.mistakes[item] = map[mistake]int{}
	}
	d.mistakes[item][m] += times
}

// gradeNext grades an answer that is about to be added.
func (d *derived) gradeNext(a Answer) Grade {
	_, known := d.memory[a.Item]
	return gradeOf(a, d.pace[a.Drill].usual(), !known)
}

// keepLatest adds a time to those that are kept.
func keepLatest(times []int64, t time.Duration) []int64 {
	times = append(times, t.Milliseconds())
	return slices.Clone(times[max(0, len(times)-paceKept):])
}

// usual returns the median time of the latest right answers, or 0 if they are too few.
func (p pace) usual() time.Duration { return median(p.Took) }

// cycle returns the median time from one answer to the next, or 0 if they are too few.
func (p pace) cycle() time.Duration { return median(p.Cycle) }

func median(ms []int64) time.Duration {
	if len(ms) < paceEnough {
		return 0
	}
	sorted := slices.Sorted(slices.Values(ms))
	return time.Duration(sorted[len(sorted)/2]) * time.Millisecond
}

// same reports whether two derivations agree, but for what another processor may round otherwise.
func (d *derived) same(e *derived) bool {
	return slices.Equal(d.doubted, e.doubted) &&
		maps.EqualFunc(d.weeks, e.weeks, func(a, b Tally) bool { return a == b }) &&
		maps.EqualFunc(d.mistakes, e.mistakes, maps.Equal) &&
		maps.EqualFunc(d.pace, e.pace, func(a, b pace) bool { return slices.Equal(a.Took, b.Took) && slices.Equal(a.Cycle, b.Cycle) }) &&
		maps.EqualFunc(d.memory, e.memory, func(a, b Memory) bool {
			near := math.Abs(a.Stability-b.Stability) <= 1e-9*b.Stability && math.Abs(a.Difficulty-b.Difficulty) <= 1e-9
			a.Trace = b.Trace
			return near && a == b
		})
}
