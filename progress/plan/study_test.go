package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"sync"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// syllabus is a course for simulated students: drills of twenty items, each easily mistaken for the
// one before and after it, resting on the ones before.
type syllabus struct {
	course []Candidate
	place  map[string]int
	near   [][]int
}

func newSyllabus(items int) syllabus {
	const size = 20
	s := syllabus{place: map[string]int{}, near: make([][]int, items)}
	drills := items / size
	for i := range items {
		drill, step := i%drills, i/drills
		c := Candidate{Item: fmt.Sprintf("%d/%d", drill, step), Drill: fmt.Sprint(drill)}
		if step >= 2 {
			c.After = []string{fmt.Sprintf("%d/%d", drill, step-2)}
		}
		for _, n := range []int{step - 1, step + 1} {
			if n >= 0 && n < size {
				c.Near = append(c.Near, fmt.Sprintf("%d/%d", drill, n))
				s.near[i] = append(s.near[i], n*drills+drill)
			}
		}
		s.course = append(s.course, c)
		s.place[c.Item] = i
	}
	return s
}

// teacher is a way to choose what to ask.
type teacher interface {
	session(day progress.Day, at time.Time)
	next(at time.Time) (item, against int, ok bool)
	answered(item int, a progress.Answer)
}

// planned is the planner at work.
type planned struct {
	syllabus
	*Planner
	known *memory.Derived

	samples memory.Samples    // what the weights are fitted to
	answers []progress.Answer // the same
	tried   int
}

func (t *planned) session(day progress.Day, at time.Time) {
	if n := len(t.answers); memory.FitDue(n, t.tried) {
		if w, better := t.samples.Fit(t.known.Weights); better {
			t.reweigh(w)
		}
		t.tried = n
	}
	t.Planner = newPlanner(t.known, t.syllabus.course, practice, time.UTC)
}

func (t *planned) next(at time.Time) (item, against int, ok bool) {
	pick, ok := t.Next(at)
	against = -1
	if i, in := t.syllabus.place[pick.Against]; in && pick.Against != "" {
		against = i
	}
	return t.syllabus.place[pick.Item], against, ok
}

func (t *planned) answered(item int, a progress.Answer) {
	t.samples.Add(t.known, a, progress.DayOf(a.At))
	t.answers = append(t.answers, a)
	t.Answered(a)
}

// informed is the planner at work with the student's true memory in the place of what it believes: at the
// start of each session, what it takes for the chance of a right answer is the true one, lucky guesses
// included. What it believes of a day on which it is asked, and how it plans, stay as they are.
type informed struct {
	planned
	student
}

func (t *informed) session(day progress.Day, at time.Time) {
	t.planned.session(day, at)
	on := t.day(at)
	// A stability of one day times the days it takes is the one with which the chance has fallen so far.
	const leastStability, mostStability = 0.001, 36500
	for item, m := range t.known.Memory {
		remembered := t.chance(t.syllabus.place[item], float64(day))
		right := remembered + (1-remembered)/choices
		m.Stability = min(max(float64(on.Since(m.Day))/t.known.Weights.Interval(memory.Trace{Stability: 1}, right), leastStability), mostStability)
		m.Due = on + 1
		if right < memory.Aim {
			m.Due = on
		}
		t.known.Memory[item] = m
	}
}

// reweigh works out anew what is remembered, as a rebuild of a file does.
func (t *planned) reweigh(w memory.Weights) {
	*t.known = *memory.NewDerived(w)
	for _, a := range t.answers {
		t.known.Add(a, progress.DayOf(a.At))
	}
}

// until gives a simpler teacher its sessions of ten minutes.
type until struct {
	day progress.Day
	end time.Time
}

func (u *until) session(day progress.Day, at time.Time) { u.day, u.end = day, at.Add(practice) }

// ladder asks what is due, longest overdue first, and then the next new item. What is right rests
// twice as long as before; what is wrong comes back the next day.
type ladder struct {
	until
	due, step []progress.Day
}

func (t *ladder) next(at time.Time) (item, against int, ok bool) {
	best := -1
	for i, due := range t.due {
		if t.step[i] > 0 && due <= t.day && (best < 0 || due < t.due[best]) {
			best = i
		}
	}
	for i := 0; best < 0 && i < len(t.due); i++ {
		if t.step[i] == 0 {
			best = i
		}
	}
	for i, due := range t.due {
		if best < 0 || t.step[best] > 0 && t.due[best] > t.day && due < t.due[best] {
			best = i
		}
	}
	return best, -1, at.Before(t.end)
}

func (t *ladder) answered(item int, a progress.Answer) {
	t.step[item] = max(1, 2*t.step[item])
	if a.Result != progress.Right {
		t.step[item] = 1
	}
	t.due[item] = t.day + t.step[item]
}

// Chance asks anything.
type chance struct {
	until
	items int
	rng   *rand.Rand
}

func (t *chance) next(at time.Time) (item, against int, ok bool) {
	return t.rng.IntN(t.items), -1, at.Before(t.end)
}

func (t *chance) answered(int, progress.Answer) {}

// seer reads the student's true memory, and plans freely, bound by no order of the course: an item rests until the
// chance of it has truly fallen to aim; of those the one comes first that truly gains most, then what
// is new, then what is truly lost, then what has faded most. It sets each item against the one it is least
// well told from.
type seer struct {
	until
	syllabus
	student
	met   []bool
	worth []float64
	last  int
}

func (t *seer) session(day progress.Day, at time.Time) {
	t.until.session(day, at)
	for i := range t.worth {
		t.worth[i] = t.value(i)
	}
}

func (t *seer) value(i int) float64 {
	now := float64(t.day) + practice.Hours()/24/2
	chance := t.chance(i, now)
	switch {
	case !t.met[i]:
		return 2 - float64(i)*1e-6
	case chance < trulyLost:
		return 1 + t.gain(i, t.against(i), now, now+10)
	case chance < memory.Aim:
		return 3 + t.gain(i, t.against(i), now, now+10)
	}
	return 1 - chance
}

// trulyLost is the true chance below which something waits for what is new. Guessing apart it is less than
// what the planner takes for lost; a seer that draws the line elsewhere teaches these students less.
const trulyLost = 0.2

func (t *seer) against(i int) int {
	c, ok := t.student.(*confused)
	if !ok {
		return -1
	}
	worst, least := -1, 1.0
	for _, j := range t.near[i] {
		if a := c.apart(i, j, float64(t.day)); c.half[j] > 0 && a < least {
			worst, least = j, a
		}
	}
	return worst
}

func (t *seer) next(at time.Time) (item, against int, ok bool) {
	best := -1
	for i, w := range t.worth {
		if i != t.last && (best < 0 || w > t.worth[best]) {
			best = i
		}
	}
	t.last = best
	return best, t.against(best), at.Before(t.end)
}

func (t *seer) answered(item int, a progress.Answer) {
	t.met[item] = true
	t.worth[item] = t.value(item)
	for _, j := range t.near[item] {
		t.worth[j] = t.value(j)
	}
}

const (
	practice  = 10 * time.Minute
	days      = 60
	weekAfter = days + 6 // the last day of practice is days-1
)

// outcome is what sixty days came to.
type outcome struct {
	known   float64 // items known a week after
	minutes float64
	right   float64 // share of all answers
	held    float64 // share of the answers to what was not new
	met     int
	ends    []float64 // seconds that sessions ended after their time
}

// study lets one student practise with one teacher.
func study(s syllabus, p *pupil, t teacher) outcome {
	var o outcome
	var asked, right, again, held float64
	met := map[int]bool{}
	for day := range days {
		began := time.Date(2026, 1, 5+day, 18, 30, 0, 0, time.UTC)
		at := began
		t.session(progress.Day(day), at)
		for {
			item, against, ok := t.next(at)
			if !ok {
				break
			}
			r, taken, took, looked := p.answer(item, against, float64(day)+at.Sub(began).Hours()/24)
			at = at.Add(took)
			a := progress.Answer{Session: fmt.Sprint(day), Item: s.course[item].Item, Drill: s.course[item].Drill, At: at, Result: r, Choices: choices, Took: took}
			if taken >= 0 {
				a.TakenFor = s.course[taken].Item
			}
			t.answered(item, a)
			at = at.Add(looked)
			correct := 0.0
			if r == progress.Right {
				correct = 1
			}
			asked++
			right += correct
			if met[item] {
				again++
				held += correct
			}
			met[item] = true
		}
		o.minutes += at.Sub(began).Minutes()
		o.ends = append(o.ends, (at.Sub(began) - practice).Seconds())
	}
	for i := range s.course {
		o.known += p.chance(i, weekAfter)
	}
	o.right, o.held = right/asked, held/again
	o.met = len(met)
	return o
}

var models = []struct {
	name string
	make func(s syllabus, rng *rand.Rand) student
}{
	{"exponential", func(s syllabus, rng *rand.Rand) student { return newExponential(len(s.course), rng) }},
	{"power", func(s syllabus, rng *rand.Rand) student { return newPower(len(s.course), rng) }},
	{"confused", func(s syllabus, rng *rand.Rand) student { return newConfused(s.near, rng) }},
}

var teachers = []struct {
	name string
	make func(s syllabus, p *pupil, rng *rand.Rand) teacher
}{
	{"planner", func(s syllabus, p *pupil, rng *rand.Rand) teacher {
		return &planned{syllabus: s, known: memory.NewDerived(memory.DefaultWeights)}
	}},
	{"informed", func(s syllabus, p *pupil, rng *rand.Rand) teacher {
		return &informed{planned{syllabus: s, known: memory.NewDerived(memory.DefaultWeights)}, p.student}
	}},
	{"ladder", func(s syllabus, p *pupil, rng *rand.Rand) teacher {
		return &ladder{due: make([]progress.Day, len(s.course)), step: make([]progress.Day, len(s.course))}
	}},
	{"random", func(s syllabus, p *pupil, rng *rand.Rand) teacher { return &chance{items: len(s.course), rng: rng} }},
	{"seer", func(s syllabus, p *pupil, rng *rand.Rand) teacher {
		return &seer{syllabus: s, student: p.student, met: make([]bool, len(s.course)), worth: make([]float64, len(s.course)), last: -1}
	}},
}

// The study asks how much of what is practised is known a week after sixty days of ten minutes, with
// the planner, with simpler ways, and with one that can read the student's true memory.
//
// Here a few students of each kind are enough to see that the planner works. The study that STUDY.md tells of has 200:
//
//	SPARETONE_STUDY=200 go test -run TestStudy -v -timeout 2h ./progress/plan
//
// It is not asserted that the planner is best for everyone, because it is not: who forgets as a power
// of time learns more from broad and careless choice. STUDY.md has the figures.
//
// The planner was tuned on other students than these.
func TestStudy(t *testing.T) {
	const fresh = 1000 // number of the first student
	students := 2
	if text := os.Getenv("SPARETONE_STUDY"); text != "" {
		var err error
		if students, err = strconv.Atoi(text); err != nil {
			t.Fatal(err)
		}
	}
	s := newSyllabus(480)
	var ends []float64
	for number, m := range models {
		results := map[string][]outcome{}
		for _, teach := range teachers {
			all := make([]outcome, students)
			var running sync.WaitGroup
			next := make(chan int)
			for range 2 {
				running.Go(func() {
					for i := range next {
						random := func(stream uint64) *rand.Rand {
							return rand.New(rand.NewPCG(uint64(fresh+i), uint64(number)<<8|stream))
						}
						p := &pupil{student: m.make(s, random(1)), near: s.near, slow: math.Exp(0.25 * random(2).NormFloat64()), rng: random(3)}
						all[i] = study(s, p, teach.make(s, p, random(4)))
					}
				})
			}
			for i := range students {
				next <- i
			}
			close(next)
			running.Wait()
			results[teach.name] = all
			o := mean(all)
			t.Logf("%-11s %-8s: %5.1f items known, %.3f a minute; %3d met; right %.2f of all, %.2f of what was not new",
				m.name, teach.name, o.known, o.known/o.minutes, o.met, o.right, o.held)
		}
		for _, other := range []string{"ladder", "random", "informed", "seer"} {
			ratio, low, high := compare(results["planner"], results[other])
			t.Logf("%-11s planner to %s: %.2f (%.2f to %.2f)", m.name, other, ratio, low, high)
			if other == "informed" && ratio < 0.7 {
				t.Errorf("%s: only %.2f of what the planner would teach that can read memory", m.name, ratio)
			}
			if other == "random" && m.name != "power" && ratio < 2 {
				t.Errorf("%s: only %.2f of what random choice teaches", m.name, ratio)
			}
		}
		for _, o := range results["planner"] {
			ends = append(ends, o.ends...)
		}
	}
	late := 0
	for _, e := range ends {
		if math.Abs(e) > 20 {
			late++
		}
	}
	t.Logf("%d of %d sessions ended more than 20 s before or after their time", late, len(ends))
	if late*20 > len(ends) {
		t.Error("more than one session in twenty does not end on time")
	}
}

// mean averages outcomes.
func mean(all []outcome) outcome {
	var sum outcome
	n := float64(len(all))
	met := 0
	for _, o := range all {
		sum.known += o.known / n
		sum.minutes += o.minutes / n
		sum.right += o.right / n
		sum.held += o.held / n
		met += o.met
	}
	sum.met = met / len(all)
	return sum
}

// Compare returns how many times as much is known for each minute with one teacher as with another,
// with a 95 % interval from drawing the same students over and over (the bootstrap).
func compare(a, b []outcome) (ratio, low, high float64) {
	of := func(pick func(i int) int) float64 {
		var known, minutes [2]float64
		for i := range a {
			j := pick(i)
			for k, o := range []outcome{a[j], b[j]} {
				known[k] += o.known
				minutes[k] += o.minutes
			}
		}
		return known[0] / minutes[0] / (known[1] / minutes[1])
	}
	rng := rand.New(rand.NewPCG(1, 1))
	var drawn []float64
	for range 2000 {
		drawn = append(drawn, of(func(int) int { return rng.IntN(len(a)) }))
	}
	slices.Sort(drawn)
	return of(func(i int) int { return i }), drawn[50], drawn[1949]
}
