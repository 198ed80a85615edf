// Package session is one practice from its first question to its summary: what is asked next, what is shown before that, marking,
// recording, and whose turn it is while lessons run.
package session

import (
	"cmp"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/lesson"
	"sparetone/drills/meet"
	"sparetone/drills/neck"
	"sparetone/progress"
	"sparetone/progress/plan"
	"sparetone/progress/store"
	"sparetone/theory/say"
)

// Session is the practice loop without a screen: what to ask next, marking, recording, the time that
// is left. The full screen, the plain line mode and the tests all drive the same Session.
//
// The loop is: Next, then Answer until it returns no error, then Next again. An answer is on the disk
// when Answer returns. A Session is used from one goroutine.
type Session struct {
	set     Setup
	planner *plan.Planner
	items   map[string]item // by id, all that the course has for this instrument
	order   []string        // ids of the items in which they are new, of the lessons first, then of the course
	never   map[string]bool // items that the neck turned out to have no question for
	met     map[string]bool // items that were shown in this session
	looked  map[string]bool // questions that were shown in this session before they were asked, by lookKey
	toMeet  []string        // targets that the present question asks for or offers and that were not shown yet
	rng     *rand.Rand
	shown   revealed
	tried   map[string]int // times each item was asked for a lesson

	id    string
	began time.Time
	idle  time.Duration // of the time since then, in which the clocks stood still
	still time.Time     // since when the clocks stand still; zero while they run
	slept time.Duration // for how long the program was suspended, as far as the clocks know of it
	ended bool
	asked *Asked
	since time.Time // when the question stood there, later by what its clock stood still
	here  time.Time // when the student did something last, later by what the clocks stood still; zero before the first question
	done  []Done
	back  *mayGo // the last answer, as long as it can be taken back; nil if it cannot
	gone  progress.TakenBack
}

// Setup is what a session is made of.
type Setup struct {
	File   *store.File
	On     *neck.Instrument
	Course course.Course
	// Lessons are those that run: their things come first, and of the course only what was met. Alone is the one lesson that the course
	// is of; nil if it is of none.
	Lessons []*Running
	Alone   *lesson.Taught
	Drills  []string      // only these; empty means all of the course's
	ByName  bool          // the drills were asked for by name: none waits for what it rests on in another
	Length  time.Duration // of practice
	Silent  bool          // there is no sound: ask only what needs no ears
	AtOnce  bool          // new things are asked without being shown before
	Seed    uint64        // the same seed, file, clock and answers make the same session
	Now     func() time.Time
	// Suspended says for how long the program was suspended until now, which is no time of practice; nil if never.
	Suspended func() time.Duration
}

// Asked is a question with its place in the session.
type Asked struct {
	*drills.Question
	Item    string
	Seed    uint64   // makes the question again
	Rung    int      // how closely it is asked, counted from 1, the clearest
	Why     say.Text // why it is asked now
	Tells   bool     // why it is asked now could tell which choice is right: it is for after the answer
	Number  int      // counted from 1
	Replays int      // times it was heard again
	Hints   int      // times it was opened up
	Again   bool     // it may have been shown not long ago: it is asked in its first form alone, or was shown just before
}

// Done is a question that was answered.
type Done struct {
	Drill    string
	Asked    say.Text // the name of what was asked, where an answer says little without it; else zero
	Tells    bool     // that name says what would have been right
	Chord    say.Text // that it was about, where the answer is no choice but its strings or notes; else zero
	Expected say.Text
	Given    say.Text
	NotKnown bool // the answer was that it is not known
	Result   progress.Result
}

// New plans a session. It asks and records nothing yet.
func New(set Setup) (*Session, error) {
	s := &Session{
		set:    set,
		items:  map[string]item{},
		never:  map[string]bool{},
		met:    map[string]bool{},
		tried:  map[string]int{},
		looked: map[string]bool{},
		rng:    rand.New(rand.NewPCG(set.Seed, 0x73706172)),
		id:     progress.NewID(),
	}
	if set.Suspended != nil {
		s.slept = set.Suspended()
	}
	if err := s.plan(); err != nil {
		return nil, err
	}
	return s, nil
}

// plan lays out the course for the planner as it stands now. One that is in the middle of the session goes
// on with what it has asked; where nothing is left it stays as it was.
func (s *Session) plan() error {
	course := s.candidates()
	if len(course) == 0 {
		return drills.ErrNothing
	}
	if s.planner != nil {
		if len(s.set.Lessons) > 0 {
			course = slices.DeleteFunc(course, func(c plan.Candidate) bool { return s.items[c.Item].lesson == "" && !s.planner.Met(c.Item) })
		}
		s.planner.Follow(course)
		return nil
	}
	known, now, err := s.set.File.Known()
	if err == nil {
		if len(s.set.Lessons) > 0 { // what is new in the course waits
			course = slices.DeleteFunc(course, func(c plan.Candidate) bool {
				_, met := known.Memory[c.Item]
				return !met && s.items[c.Item].lesson == ""
			})
		}
		s.planner = plan.NewPlanner(known, now, course, s.Left())
	}
	return err
}

// SetSilent says that sound went away or came back; what is asked from now on follows it. Where nothing
// could be asked without sound the error is drills.ErrNothing, and the session stays as it was.
func (s *Session) SetSilent(silent bool) error {
	was := s.set.Silent
	if was == silent {
		return nil
	}
	s.set.Silent = silent
	err := s.plan()
	if err != nil {
		s.set.Silent = was
	}
	return err
}

// Silent reports whether only questions are asked that need no sound.
func (s *Session) Silent() bool { return s.set.Silent }

// Today says what the day holds.
func (s *Session) Today() plan.Today { return s.holds(s.set.Now()) }

// holds says what the day of a moment holds.
func (s *Session) holds(at time.Time) plan.Today {
	return s.planner.Today(at)
}

// Next makes the next question. It returns nil when the time is up.
func (s *Session) Next() (*Asked, error) {
	s.Resume()
	s.isHere()
	now := s.set.Now()
	if s.began.IsZero() {
		s.began = now
	}
	if s.Left() <= 0 {
		s.asked = nil
		return nil, nil
	}
	for passed := 0; ; passed++ {
		pick, ok := s.planner.Next(now)
		if !ok {
			s.asked = nil
			return nil, nil
		}
		pick = s.ofLessons(pick, now)
		given, err := s.ask(pick, now)
		if errors.Is(err, errNoQuestion) {
			return s.Next()
		} else if err != nil {
			return nil, err
		}
		if given == 0 || passed == mostPassed || !s.planner.PassOver() {
			return s.asked, nil
		}
	}
}

// errNoQuestion is the error of an item for which the neck has no question; it is not asked again.
var errNoQuestion = errors.New("no question")

// mostPassed is how many drills are passed over at the most for one that has a question which nothing gives away.
const mostPassed = 4

// ask makes a question of what was picked, and returns the number of the question that gives it away; 0 if none does.
func (s *Session) ask(pick plan.Chosen, now time.Time) (given int, err error) {
	it := s.items[pick.Item]
	anew := drills.NewAnew(func(target string) bool { return s.mayAsk(it, target) }, s.rng)
	id := it.drill.About().ID
	first, _ := catalogue.AtRung(s.On(), id, it.target.ID, 1)
	wasAsked := func(target string) bool { return s.planner.Met(s.itemID(it.drill, target)) }
	anew.AskNewAt(first, func(target string) bool { return !wasAsked(target) })
	request := drills.Request{
		Target:  it.target.ID,
		On:      s.on(it),
		InPlay:  s.inPlay(it),
		Wanted:  s.wanted(it.drill, now),
		Anew:    anew,
		Against: s.targetOf(pick.Against, it.drill),
		First:   !wasAsked(it.target.ID),
	}
	found, impossible := s.shown.fresh(it.drill, request, s.planner.Rung(pick.Item), s.rng)
	if impossible != nil {
		// This neck has no such question: go on without it.
		s.never[s.itemID(it.drill, cmp.Or(anew.Target(), it.target.ID))] = true
		if err := s.plan(); err != nil {
			return 0, fmt.Errorf("%w: %w", err, impossible)
		}
		return 0, errNoQuestion
	}
	if found.given == 0 {
		found.given = s.shown.givesOther(it.drill, request, found)
	}
	q := found.Question
	if anew.AnyNew() {
		found.rung = 1
	}
	s.asked = &Asked{Question: q, Rung: found.rung, Item: s.itemID(it.drill, q.Target), Seed: found.seed, Number: len(s.done) + s.gone.Counted + 1, Tells: anew.Settled(), Again: inFirstForm(it.drill, request) || q.Instead != nil}
	if s.asked.Item != pick.Item {
		pick.Why = s.planner.AskedInstead(s.asked.Item, now)
	}
	if s.asked.Why = sayWhy(pick.Why, s.Name); it.lesson != "" && len(s.set.Lessons) > 0 {
		s.asked.Why = s.sayOfLesson(it.lesson)
		s.tried[s.asked.Item]++
	}
	s.toMeet = s.unmet(it.drill, q)
	if form, _ := catalogue.AtRung(s.on(it), id, q.Target, found.rung); form.Clarity.Turned && !s.IsMet(it.drill, meet.AnotherBass) {
		s.toMeet = append(s.toMeet, meet.AnotherBass)
	}
	s.since = now
	return found.given, nil
}

// Heard counts that the question was heard again before it was answered.
func (s *Session) Heard() {
	s.isHere()
	s.asked.Replays++
}

// Hinted counts that the question was opened up before it was answered.
func (s *Session) Hinted() {
	s.isHere()
	s.asked.Hints++
}

// Pause stops the clocks, of the session and of the present question, for as long as nothing can be heard that has to
// be. They run again with Resume, or with the next question. Clocks that stand still already go on doing so.
func (s *Session) Pause() {
	s.isHere()
	if s.still.IsZero() {
		s.still = s.set.Now()
	}
}

// Resume lets the clocks run on from where they stopped. Where they run it only leaves out what the program was suspended.
func (s *Session) Resume() {
	s.leaveOutSuspension()
	if s.still.IsZero() {
		return
	}
	stood := s.set.Now().Sub(s.still)
	s.still = time.Time{}
	s.leaveOut(stood)
}

// leaveOutSuspension leaves out the time for which the program was suspended since it last looked. Where the clocks stand
// still that is left out already.
func (s *Session) leaveOutSuspension() {
	if s.set.Suspended == nil {
		return
	}
	slept := s.set.Suspended()
	if s.still.IsZero() {
		s.leaveOut(slept - s.slept)
	}
	s.slept = slept
}

// leaveOut leaves a time that is just over out of that of the session and of the present question.
func (s *Session) leaveOut(stood time.Duration) {
	stood = max(0, stood)
	s.since = s.since.Add(stood)
	if !s.here.IsZero() {
		s.here = s.here.Add(stood)
	}
	if !s.began.IsZero() { // before the first question no time runs
		s.idle += stood
		s.planner.Extend(stood)
	}
}

// clock is the present moment, or the one at which the clocks stopped.
func (s *Session) clock() time.Time {
	if s.still.IsZero() {
		return s.set.Now()
	}
	return s.still
}

// Answer marks an answer to the present question and records it. It is on the disk when Answer returns
// nil. An answer that makes no sense is an error of Mark and is not recorded. One that could not be recorded
// comes with its verdict and an error that wraps ErrNotKept; the first one after the progress file was taken
// away or replaced comes with its verdict and an error that says so.
func (s *Session) Answer(text string) (drills.Verdict, error) { return s.answer(text, false) }

// AnswerPlayed is Answer of what was played on an instrument or sung. It can be taken back until the next question is answered.
func (s *Session) AnswerPlayed(text string) (drills.Verdict, error) { return s.answer(text, true) }

func (s *Session) answer(text string, played bool) (drills.Verdict, error) {
	s.isHere()
	now := s.set.Now()
	v, err := s.asked.Mark(text)
	if err != nil {
		return drills.Verdict{}, err
	}
	a := progress.Answer{
		Session:  s.id,
		Item:     s.asked.Item,
		Drill:    s.asked.Drill,
		Seed:     s.asked.Seed,
		At:       now.UTC(),
		Question: s.asked.Text(),
		Given:    v.Given.Screen(),
		Expected: v.Expected.Screen(),
		Result:   v.Result,
		Choices:  len(s.asked.Choices),
		Took:     max(0, s.clock().Sub(s.since)),
		Replays:  s.asked.Replays,
		Hints:    s.asked.Hints,
		Rung:     s.asked.Rung,
		Played:   played,
	}
	if len(s.asked.Sounds) > 0 {
		a.Voice = s.asked.Voice.Name()
	}
	a.Offered, a.Chosen = offered(s.asked.Question, text)
	it := s.items[s.asked.Item]
	if a.Lesson = it.lesson; a.Lesson != "" {
		a.Step = it.step.ID
	}
	if id := s.itemID(it.drill, v.TakenFor); v.TakenFor != it.target.ID && s.items[id].drill != nil {
		a.TakenFor = id
	}
	if len(s.done) == 0 { // a practice in which nothing was answered is none
		// If the file fails here it holds on to this, and Record says so.
		_ = s.set.File.Begin(progress.Session{ID: s.id, Began: s.began, Minutes: s.set.Length})
	}
	s.back = nil
	if played {
		s.back = s.mayTakeBack(a)
	}
	err = s.set.File.Record(a)
	before := s.Told(a.Item)
	s.planner.Answered(a)
	s.counted(a)
	if after := s.Told(a.Item); after.next() != before.next() {
		v.BackAs = catalogue.Rungs(s.On(), a.Drill, it.target.ID)[after.next()].Words
	}
	s.shown.add(s.asked.Question, v)
	done := Done{Drill: a.Drill, Chord: s.asked.ChordOf(v), Expected: v.Expected, Given: v.Given, NotKnown: v.NotKnown, Result: v.Result}
	if it.drill.About().Terse {
		done.Asked, done.Tells = s.Name(s.asked.Item), it.target.Telling
	}
	s.done = append(s.done, done)
	if err != nil {
		return v, fmt.Errorf("%w: %w", ErrNotKept, err)
	}
	err = s.set.File.Follow()
	if left, known, failed := s.set.File.BackIn(a.Item, now); failed == nil && known {
		v.BackIn = left
	}
	return v, err
}

// ErrNotKept is wrapped by the error of an answer that was marked and could not be recorded. The file
// holds on to it and tries again with every further answer and at the end.
var ErrNotKept = errors.New("not kept yet")

// Length is how long the session is meant to be.
func (s *Session) Length() time.Duration { return s.set.Length }

// Left is the time that is left. It begins to run with the first question.
func (s *Session) Left() time.Duration {
	s.leaveOutSuspension()
	if s.began.IsZero() {
		return s.set.Length
	}
	return max(0, s.set.Length+s.idle+s.away()-s.clock().Sub(s.began))
}

// Elapsed is the share of the session's time that is over, 0 to 1.
func (s *Session) Elapsed() float64 { return 1 - float64(s.Left())/float64(s.set.Length) }

// Done lists what was answered, in order.
func (s *Session) Done() []Done { return s.done }

// End closes the session in the file. It may be called at any time, and more than once. Its error says
// what is wrong with the file, if anything; AtRisk says what that puts at risk.
func (s *Session) End() error {
	if len(s.done) == 0 || s.ended {
		return nil
	}
	s.ended = true
	if err := s.set.File.End(s.id, s.set.Now()); err != nil {
		return err
	}
	return s.set.File.Follow()
}

// Tomorrow is what the day after holds, as it looks now.
func (s *Session) Tomorrow() plan.Today { return s.holds(s.set.Now().AddDate(0, 0, 1)) }

// On returns the instrument that is practised on.
func (s *Session) On() *neck.Instrument { return s.set.On }

// item is what an item id means.
type item struct {
	drill  drills.Drill
	target drills.Target
	step   course.Step
	lesson string           // id of the lesson it is asked for; "" if for none
	held   *neck.Instrument // that it is asked on; nil for the session's
}

// mayGo is an answer that can be taken back: what was played may have been misheard. Then nothing is kept of it, and memory, plan and
// lessons are as if it had not been given. Its question was shown with the answer, and is not asked anew.
type mayGo struct {
	item string
	runs map[*Running]run // how its thing stood in each lesson before it
}

// Told is how far an item can be told: how many of its forms, from the clearest on.
type Told struct {
	Forms int      // that were told, 0 to Of
	Of    int      // that there are
	Words say.Text // the closest of them, such as "in any voicing"; zero where none was told, or there is one alone
}
