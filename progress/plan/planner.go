package plan

import (
	"cmp"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/memory"
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
	known  *memory.Derived
	latest progress.Day // practice day of the last answer in the file that is believed
	behind int          // days that the clock was behind that day at first, if it was doubted; else 0

	began    time.Time
	asked    []Pick                   // in order
	held     []bool                   // whether each answer was right
	tries    map[string]int           // times each was asked
	cycles   map[string]time.Duration // by drill, until its next answer
	contrast []Pick                   // what is to be set against something just missed
	missed   []missedItem             // what was missed and may come once more

	passedOver map[string]bool // drills that are left out until the next answer, as long as there are others
}

// missedItem is an item that was missed in this session.
type missedItem struct {
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
func NewPlanner(known *memory.Derived, is clock.Present, course []Candidate, length time.Duration) *Planner {
	p := newPlanner(known, course, length, is.Clock.Location())
	p.latest, p.behind = is.Last.Day, int(is.Today()-progress.DayOf(is.Clock))
	return p
}

func newPlanner(known *memory.Derived, course []Candidate, length time.Duration, zone *time.Location) *Planner {
	p := &Planner{course: course, place: make(map[string]int, len(course)), length: length, zone: zone,
		known: known, tries: map[string]int{}, cycles: map[string]time.Duration{}, passedOver: map[string]bool{}}
	for i, c := range course {
		p.place[c.Item] = i
	}
	return p
}

// Met reports whether an item was ever asked.
func (p *Planner) Met(item string) bool {
	_, met := p.known.Memory[item]
	return met
}

// Run returns how many right answers in a row an item has had up to now.
func (p *Planner) Run(item string) int { return p.known.Memory[item].Run }

// day returns the practice day of a moment. What a clock says that is behind, or was never set, counts from the day of the
// last answer on: within the session it is learned from, even if it does not count afterwards.
func (p *Planner) day(t time.Time) progress.Day {
	t = clock.Writable(t)
	day := progress.DayOf(t.In(p.zone))
	if !clock.Dated(t) || day < p.latest-clock.Slack {
		return max(p.latest, day+progress.Day(p.behind))
	}
	return day
}

func (p *Planner) inCourse(item string) bool {
	_, ok := p.place[item]
	return ok
}

// cycle returns how long a question of a drill and a look at its answer take this student.
func (p *Planner) cycle(drill string) time.Duration {
	t, ok := p.cycles[drill]
	if !ok {
		t = cmp.Or(p.known.Pace[drill].UsualCycle(), firstGuess)
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
