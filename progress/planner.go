package progress

import (
	"cmp"
	"database/sql"
	"slices"
	"time"
)

// How the ten minutes are planned
//
//	  the course ──┬─ contrast ── just taken for another: the other, set against it
//	               ├─ due ─────── come back and not lost yet; first what a minute gains most
//	               ├─ new ─────── next in the course, while seven answers in twelve are right
//	               ├─ lost ────── come back too late: more likely wrong than right
//	               ├─ ahead ───── not due yet, but faded a little
//	               ├─ missed ──── wrong today: once more, some questions later
//	               └─ ahead ───── whatever has faded most
//	                                                       at the end, closing: something known
//
// Each question goes to the first of these that has anything. Items come back when the chance of
// being right has fallen to aim. That share is not asked of the answers to what is new, which is mostly
// guessed at first: new items wait only while many of the latest answers are wrong. What keeps being
// missed is lost again by the next day, and would take up all the time; it waits until the rest is done,
// which teaches simulated students more of both (STUDY.md). Nothing is asked ahead of its day more than a few
// times in a session as long as something new may come instead. What is asked again is set against what it is,
// or may be, mistaken for, each in its turn.
//
// A question costs one look at every item of the course and nothing else grows with time.

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

// Planner chooses what is asked in one session. It is used from one goroutine.
type Planner struct {
	course []Candidate
	place  map[string]int // in the course
	length time.Duration
	zone   *time.Location
	known  *derived
	latest Day // practice day of the last answer in the file that is believed
	behind int // days that the clock was behind that day at first, if it was doubted; else 0

	began    time.Time
	asked    []Pick                   // in order
	held     []bool                   // whether each answer was right
	tries    map[string]int           // times each was asked
	cycles   map[string]time.Duration // by drill, until its next answer
	contrast []Pick                   // what is to be set against something just missed
	missed   []missed                 // what was missed and may come once more

	passedOver map[string]bool // drills that are left out until the next answer, as long as there are others
}

// missed is an item that was missed in this session.
type missed struct {
	item, takenFor string
	from           int // number of questions before it may come once more
}

const (
	firstGuess = 15 * time.Second // a question and a look at its answer, before the student's own pace is known
	apart      = 3                // questions between a miss and the same item once more
	fadedABit  = 0.95             // chance below which what is not due, or the other of a mistaken pair, is worth a question
	lostBelow  = 0.5              // chance below which what has come back waits for what is new
	latestFew  = 12               // answers by which it is judged whether there is room for something new
	mostWrong  = 5                // of these that may be wrong while new things come
	fewWrong   = 2                // answers that may be wrong in any case before new things wait
	nextFew    = 6                // new items among which one of another drill is looked for
	oftenToday = 3                // times that something is asked in a session before new things come after all
	wellKnown  = 0.9              // chance of being right that is best to close with
	mostTurns  = 3                // turns that something an item was taken for has, where its neighbours have one
	sameDrill  = 0.8              // what an item is worth right after another of its drill
)

// NewPlanner plans a session of the given length over a course. Candidates that cannot be asked now,
// such as those for the ear where there is no sound, are left out by the caller. The same file and course,
// asked at the same times and told the same answers, plan the same session.
func NewPlanner(f *File, course []Candidate, length time.Duration) (*Planner, error) {
	now := f.now()
	var known *derived
	var is present
	err := f.read(func(tx *sql.Tx) (err error) {
		known, is, err = knownNow(tx, now, recent)
		return err
	})
	if err != nil {
		return nil, err
	}
	p := newPlanner(known, course, length, now.Location())
	p.latest, p.behind = is.last.day, int(is.today()-DayOf(is.clock))
	return p, nil
}

func newPlanner(known *derived, course []Candidate, length time.Duration, zone *time.Location) *Planner {
	p := &Planner{course: course, place: make(map[string]int, len(course)), length: length, zone: zone,
		known: known, tries: map[string]int{}, cycles: map[string]time.Duration{}, passedOver: map[string]bool{}}
	for i, c := range course {
		p.place[c.Item] = i
	}
	return p
}

// Today says what a moment's day holds.
func (p *Planner) Today(now time.Time) Today {
	day := p.day(now)
	var t Today
	for _, c := range p.course {
		m, met := p.known.memory[c.Item]
		switch {
		case met && m.isDue(day):
			t.Due++
		case !met && p.ready(c):
			t.New++
		}
		if p.known.isWeak(c.Item, day) {
			t.Weak++
		}
	}
	return t
}

// Met reports whether an item was ever asked.
func (p *Planner) Met(item string) bool {
	_, met := p.known.memory[item]
	return met
}

// Run returns how many right answers in a row an item has had up to now.
func (p *Planner) Run(item string) int { return p.known.memory[item].Run }

// day returns the practice day of a moment. What a clock says that is behind, or was never set, counts from the day of the
// last answer on: within the session it is learned from, even if it does not count afterwards.
func (p *Planner) day(t time.Time) Day {
	t = written(t)
	day := DayOf(t.In(p.zone))
	if !dated(t) || day < p.latest-slack {
		return max(p.latest, day+Day(p.behind))
	}
	return day
}

// Next picks what to ask now. The session's time runs from its first call. It returns false when
// another question would end nearer to the end of the time than no other, or the course is empty.
// No item comes twice running, unless nothing else may be asked.
func (p *Planner) Next(now time.Time) (Pick, bool) {
	if p.began.IsZero() {
		p.began = now
	}
	if len(p.course) == 0 {
		return Pick{}, false
	}
	pick := p.choose(p.day(now), p.length-now.Sub(p.began))
	if p.length-now.Sub(p.began) < p.cycle(pick.Drill)/2 {
		return Pick{}, false
	}
	p.asked = append(p.asked, pick)
	p.tries[pick.Item]++
	return pick, true
}

// Answered tells the planner of an answer, right after it was recorded.
func (p *Planner) Answered(a Answer) {
	day := p.day(a.At)
	p.known.add(a, day)
	delete(p.cycles, a.Drill)
	clear(p.passedOver)
	p.held = append(p.held, a.Result == Right)
	if a.Result == Right {
		return
	}
	other := p.known.memory[a.TakenFor]
	if p.canBeSetAgainst(a.TakenFor, a.Item) && other.Day != day && other.chance(&p.known.weights, day) < fadedABit {
		p.contrast = append(p.contrast, Pick{Item: a.TakenFor, Against: a.Item})
	}
	if p.tries[a.Item] == 1 {
		p.missed = append(p.missed, missed{a.Item, a.TakenFor, len(p.asked) + apart})
	}
}

// Wanted reports whether an item is worth a question now: it has come back or faded, was not right the last time, or is
// next in the course.
func (p *Planner) Wanted(item string, now time.Time) bool {
	if !p.inCourse(item) {
		return false
	}
	day := p.day(now)
	m, met := p.known.memory[item]
	if !met {
		return p.ready(p.course[p.place[item]])
	}
	return m.isDue(day) || m.Run == 0 || m.chance(&p.known.weights, day) < fadedABit
}

// AskedInstead tells the planner that another item of the course was asked in the place of what it picked last, and
// returns why it might have been. What was picked still waits for its turn.
func (p *Planner) AskedInstead(item string, now time.Time) Why {
	picked := p.takeBack()
	p.tries[item]++
	day := p.day(now)
	m, met := p.known.memory[item]
	why := Why{Reason: Beside}
	switch {
	case !met:
		why.Reason = New
	case m.isDue(day):
		why.Reason = Due
	}
	if met {
		why.Days = day.since(m.Day)
	}
	p.asked = append(p.asked, Pick{Item: item, Drill: picked.Drill, Why: why, Against: picked.Item})
	return why
}

// PassOver takes back what was picked last and leaves its drill out until the next answer: there is no question of it
// now that nothing shown before gives away. It does nothing and reports false where no other drill has anything to ask.
func (p *Planner) PassOver() bool {
	drill := p.last().Drill
	if !slices.ContainsFunc(p.course, func(c Candidate) bool {
		return c.Drill != drill && !p.passedOver[c.Drill] && (p.Met(c.Item) || p.ready(c))
	}) {
		return false
	}
	p.passedOver[p.takeBack().Drill] = true
	return true
}

// takeBack forgets what was picked last; what was to come once more still will.
func (p *Planner) takeBack() Pick {
	picked := p.last()
	p.asked = p.asked[:len(p.asked)-1]
	p.tries[picked.Item]--
	if picked.Why.Reason == OnceMore {
		p.missed = append(p.missed, missed{picked.Item, picked.Against, len(p.asked) + 1})
	}
	return picked
}

func (p *Planner) inCourse(item string) bool {
	_, ok := p.place[item]
	return ok
}

// cycle returns how long a question of a drill and a look at its answer take this student.
func (p *Planner) cycle(drill string) time.Duration {
	t, ok := p.cycles[drill]
	if !ok {
		t = cmp.Or(p.known.pace[drill].cycle(), firstGuess)
		p.cycles[drill] = t
	}
	return t
}

// last returns what was asked last, the zero Pick if nothing was.
func (p *Planner) last() Pick {
	if len(p.asked) == 0 {
		return Pick{}
	}
	return p.asked[len(p.asked)-1]
}

// Extend makes the session longer, by time in which nothing could be asked.
func (p *Planner) Extend(by time.Duration) { p.length += by }

// choose goes through what a question may be for, in order.
func (p *Planner) choose(day Day, left time.Duration) Pick {
	var pick Pick
	var found bool
	if len(p.asked) > 0 && left < p.cycle(p.last().Drill)*3/2 {
		pick, found = p.closing(day)
	}
	for _, from := range []func(Day) (Pick, bool){p.contrasted, p.due, p.fresh, p.lost, p.faded, p.onceMore, p.ahead, p.anything} {
		if found {
			break
		}
		pick, found = from(day)
	}
	c := p.course[p.place[pick.Item]]
	pick.Item, pick.Drill = c.Item, c.Drill
	m, met := p.known.memory[c.Item]
	if !met {
		return pick
	}
	pick.Why.Days = day.since(m.Day)
	if (pick.Why.Reason == Due || pick.Why.Reason == Ahead) && p.known.isWeak(c.Item, day) {
		pick.Why.Reason = Weak
		pick.Why.TakenFor, pick.Why.Times = p.known.mostTakenFor(c.Item, day)
		if p.canBeSetAgainst(pick.Why.TakenFor, c.Item) {
			pick.Against = pick.Why.TakenFor
		}
	}
	if pick.Against == "" {
		pick.Against = p.company(c, day)
	}
	return pick
}
