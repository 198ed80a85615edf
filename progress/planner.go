package progress

import (
	"math/rand/v2"
	"slices"
	"time"
)

// Candidate is an item that may be asked, as the course has it. Candidates come in the course's order.
type Candidate struct {
	Item  string
	Drill string
	After []string // items it rests on: it is new only when all of them hold
	Near  []string // items it is easily mistaken for
}

// Pick is what to ask next.
type Pick struct {
	Item    string
	Drill   string
	Why     Why
	Against string // item to set it against; empty if none
}

// Today says what a day holds.
type Today struct {
	Due  int // items that have come back
	Weak int // items that are weak, due or not
	New  int // items that could be begun
}

// Planner chooses what is asked in one session.
type Planner struct {
	course []Candidate
	place  map[string]int // in the course
	length time.Duration
	zone   *time.Location
	rng    *rand.Rand
	known  *derived

	began   time.Time
	last    Pick
	asked   []string       // this session
	results []bool         // right or not, this session
	retries []retry        // what was missed and comes back within the session
	seen    map[string]int // times asked this session
}

// retry is an item that comes back in the session it was missed in.
type retry struct {
	Pick
	from int // number of questions asked before it may come
}

// NewPlanner plans a session of the given length over a course. Candidates that cannot be asked now,
// such as those for the ear where there is no sound, are left out by the caller. The same file,
// course and rng, asked at the same times and told the same answers, plan the same session.
func NewPlanner(f *File, course []Candidate, length time.Duration, rng *rand.Rand) (*Planner, error) {
	now := f.now()
	known, err := loadFrom(f.db, recent(DayOf(now)))
	if err != nil {
		return nil, plain(err)
	}
	return newPlanner(known, course, length, now.Location(), rng), nil
}

func newPlanner(known *derived, course []Candidate, length time.Duration, zone *time.Location, rng *rand.Rand) *Planner {
	p := &Planner{course: course, place: make(map[string]int, len(course)), length: length, zone: zone, rng: rng,
		known: known, seen: map[string]int{}}
	for i, c := range course {
		p.place[c.Item] = i
	}
	return p
}

// recentWeeks is how far back what is weak is judged.
const recentWeeks = 8

// recent returns the first week that still counts on a day.
func recent(day Day) int { return day.week() - recentWeeks + 1 }

// Today says what a moment's day holds.
func (p *Planner) Today(now time.Time) Today {
	day := DayOf(now.In(p.zone))
	var t Today
	for _, c := range p.course {
		m, known := p.known.memory[c.Item]
		switch {
		case known && m.isDue(day):
			t.Due++
		case !known && p.ready(c):
			t.New++
		}
		if p.known.isWeak(c.Item, day) {
			t.Weak++
		}
	}
	return t
}

const (
	firstGuess  = 15 * time.Second // a question and its answer, before the student's own pace is known
	apart       = 3                // questions between a miss and the same item again
	mostTries   = 3                // times an item is asked in one session, at the most, for having been missed
	closingSure = 0.9
)

// cycle returns how long a question of a drill and the look at its answer take this student.
func (p *Planner) cycle(drill string) time.Duration {
	if t := p.known.pace[drill].cycle(); t > 0 {
		return t
	}
	return firstGuess
}

// Next picks what to ask now. The session's time runs from its first call. It returns false when
// the time is up or the course is empty.
func (p *Planner) Next(now time.Time) (Pick, bool) {
	if p.began.IsZero() {
		p.began = now
	}
	if len(p.course) == 0 {
		return Pick{}, false
	}
	left := p.length - now.Sub(p.began)
	pick := p.choose(DayOf(now.In(p.zone)), left)
	if left < p.cycle(pick.Drill)/2 {
		return Pick{}, false
	}
	p.last = pick
	p.asked = append(p.asked, pick.Item)
	p.seen[pick.Item]++
	return pick, true
}

func (p *Planner) choose(day Day, left time.Duration) Pick {
	if left < p.cycle(p.last.Drill)*3/2 && len(p.asked) > 0 {
		if pick, ok := p.closing(day); ok {
			return pick
		}
	}
	for i, r := range p.retries {
		if r.from <= len(p.asked) && r.Item != p.last.Item {
			p.retries = slices.Delete(p.retries, i, i+1)
			return r.Pick
		}
	}
	var best Pick
	most := -1.0
	fresh := p.mayBegin()
	for _, c := range p.course {
		if c.Item == p.last.Item {
			continue
		}
		m, known := p.known.memory[c.Item]
		if !known && !(fresh && p.ready(c)) {
			continue
		}
		if !known {
			fresh = false
		}
		worth, why := p.worth(c, m, known, day)
		if c.Drill == p.last.Drill {
			worth *= 0.8
		}
		if worth > most {
			most, best = worth, Pick{Item: c.Item, Drill: c.Drill, Why: why}
		}
	}
	if most < 0 {
		c := p.course[0]
		return Pick{Item: c.Item, Drill: c.Drill, Why: Why{Reason: Ahead}}
	}
	return best
}

func (p *Planner) worth(c Candidate, m Memory, known bool, day Day) (float64, Why) {
	if !known {
		return 1, Why{Reason: New}
	}
	r := m.chance(&p.known.weights, day)
	switch {
	case m.Day == day:
		return 0.001 * (1 - r) / float64(1+p.seen[c.Item]), Why{Reason: Ahead}
	case m.isDue(day):
		return 2 + gain(&p.known.weights, m, day), Why{Reason: Due, Days: day.since(m.Day)}
	}
	return 0.1 * gain(&p.known.weights, m, day), Why{Reason: Ahead}
}

// gain is how much more likely an item is to be known a month from now if it is asked today.
func gain(w *Weights, m Memory, day Day) float64 {
	const horizon = 30
	days := float64(day.since(m.Day))
	r := w.Retrievability(m.Trace, days)
	return r*w.Retrievability(w.Next(m.Trace, days, Firm), horizon) +
		(1-r)*w.Retrievability(w.Next(m.Trace, days, Missed), horizon) -
		w.Retrievability(m.Trace, days+horizon)
}

// mayBegin reports whether there is room for something new: about aim of the latest answers were
// right.
func (p *Planner) mayBegin() bool {
	latest := p.results[max(0, len(p.results)-12):]
	wrong := 0
	for _, r := range latest {
		if !r {
			wrong++
		}
	}
	return wrong <= 2
}

func (p *Planner) closing(day Day) (Pick, bool) {
	best, most := Pick{}, 0.0
	for _, c := range p.course {
		m, known := p.known.memory[c.Item]
		if !known || m.Run == 0 || c.Item == p.last.Item {
			continue
		}
		if r := min(m.chance(&p.known.weights, day), closingSure) - 0.05*float64(p.seen[c.Item]); r > most {
			most, best = r, Pick{Item: c.Item, Drill: c.Drill, Why: Why{Reason: Closing}}
		}
	}
	return best, most > 0
}

// ready reports whether all that an item rests on holds.
func (p *Planner) ready(c Candidate) bool {
	return !slices.ContainsFunc(c.After, func(item string) bool {
		_, inCourse := p.place[item]
		return inCourse && p.known.memory[item].Run == 0
	})
}

// Answered tells the planner of an answer that was recorded.
func (p *Planner) Answered(a Answer) {
	day := DayOf(a.At.In(p.zone))
	p.known.add(a, day)
	p.results = append(p.results, a.Result == Right)
	if a.Result == Right || p.seen[a.Item] >= mostTries {
		return
	}
	again := retry{from: len(p.asked) + apart}
	again.Item, again.Drill, again.Against = a.Item, a.Drill, a.TakenFor
	again.Why = Why{Reason: Contrast, TakenFor: a.TakenFor}
	p.retries = append(p.retries, again)
}

// isWeak reports whether an item is missed more often than it should be, beyond what chance explains.
func (d *derived) isWeak(item string, day Day) bool { return false }
