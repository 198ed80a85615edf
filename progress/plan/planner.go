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
//	the course ── what a minute is worth most ── of what was met, and of the next few new things
//	                  at the end, closing: something known
//
// A question is worth what it adds to the chance that its item is known a week later (for some six hours, see later.go), for the time that it takes: of what is
// remembered that is most where it has faded and is not gone, of what is told by ear where it is neither guessed nor sure. A miss
// takes longer than a right answer, so what is likely to be missed has to promise more. New things compete with what was met;
// they count double, since a day with no room for them is followed by others. That decides all at once what comes back, what is
// new and what is left alone for now: what is sure, what is lost, what has just been asked. New things come in the course's order,
// but what is likely known already comes last, see already.go.
//
// Drills that were asked for by name have turns, see turns.go. Two more things stand above worth, for how practice feels: new things wait while more than four of the latest twelve answers were wrong,
// and where more than five were, only what is likelier right than wrong is asked; after a bad day a session opens so, see opening.go.
// What was asked a little while ago rests, see rest.go. What is asked again is set against what it
// is, or may be, mistaken for, each in its turn; the other of a pair that was just mistaken is not asked at once, which taught
// simulated students less. STUDY.md has what all of this was worth.
//
// A question costs one look at every item of the course and nothing else grows with time.

// Candidate is an item that may be asked, as the course has it. Candidates come in the course's order.
type Candidate struct {
	Item   string
	Drill  string
	After  []string // items it rests on: it is new only when all of them were met, or are likely known
	Near   []string // items it is easily mistaken for
	Ear    bool     // it is told by ear
	Shown  bool     // it is shown before it is asked for the first time
	ByName bool     // its drill was asked for by name, by the student or a lesson
}

// Chosen is what to ask next.
type Chosen struct {
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
	index  map[string]int // of each item, in the course
	length time.Duration
	zone   *time.Location
	known  *memory.Derived
	latest progress.Day // practice day of the last answer in the file that is believed
	behind int          // days that the clock was behind that day at first, if it was doubted; else 0

	began        time.Time
	afterABadDay bool                     // much was missed on the latest day before
	asked        []Chosen                 // in order
	right        []bool                   // whether each answer was right
	tries        map[string]int           // times each was asked
	missed       map[string]bool          // what was wrong the last time it was asked in this session
	before       missedBefore             // of the last answer
	cycles       map[string]time.Duration // by drill, until its next answer

	already []float64 // how likely each thing of the course was known before, by index; nil until it is asked for
	level   float64   // share of all that was known before, worked out with it
	gains   []gained  // of each thing of the course, by index; nil until one is asked for

	passedOver map[string]bool // drills that are left out until the next answer, as long as there are others
	since      map[string]int  // by drill asked for by name: len(asked) when it joined the course, see turns.go
	waited     map[string]int  // how many questions each of these has waited
	longest    int             // questions in a row of which each of these has at least one
	turn       string          // drill whose turn it is; "" if none's
}

// gained is what a thing gains by being asked on a day, and how likely it is right then, as its memory has it.
type gained struct {
	of       memory.Memory
	day      progress.Day
	later    float64 // days until it is counted
	by       float64 // how much more likely it is known later
	foreseen float64 // chance of a right answer, before it is set right by other answers
}

const (
	firstCycle = 15 * time.Second // a question and a look at its answer, before the student's own pace is known
	missTakes  = 2.5              // times as long as a right answer: it is thought about longer, and looked at (from judgement)
	fadedABit  = 0.95             // chance below which what is not due is worth a question
	latestFew  = 12               // answers by which it is judged how practice goes
	mostWrong  = 4                // of these that may be wrong while new things come
	fewWrong   = 2                // answers that may be wrong in any case before new things wait
	tooWrong   = 5                // of the latest few: with more, only what is likelier right is asked
	likelier   = 0.6              // chance of being right of what is likelier right
	nextFew    = 6                // new items that are looked at
	newCounts  = 2                // times its own gain that something new is worth
	mostTries  = 2                // times that something is asked in a session, after which it waits until nothing else is worth asking
	wellKnown  = 0.9              // chance of being right that is best to close with
	mostCopies = 3                // times that what an item was taken for stands in the list from which its company comes; its neighbours stand there once
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
	p := &Planner{course: course, index: make(map[string]int, len(course)), length: length, zone: zone,
		known: known, tries: map[string]int{}, missed: map[string]bool{}, cycles: map[string]time.Duration{}, passedOver: map[string]bool{}, since: map[string]int{}, waited: map[string]int{}}
	for i, c := range course {
		p.index[c.Item] = i
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
	_, ok := p.index[item]
	return ok
}

// cycle returns how long a question of a drill and a look at its answer take this student.
func (p *Planner) cycle(drill string) time.Duration {
	t, ok := p.cycles[drill]
	if !ok {
		t = cmp.Or(p.known.Pace[drill].UsualCycle(), firstCycle)
		p.cycles[drill] = t
	}
	return t
}

// last returns what was asked last, the zero Pick if nothing was.
func (p *Planner) last() Chosen {
	if len(p.asked) == 0 {
		return Chosen{}
	}
	return p.asked[len(p.asked)-1]
}

// Extend makes the session longer, by time in which nothing could be asked.
func (p *Planner) Extend(by time.Duration) { p.length += by }
