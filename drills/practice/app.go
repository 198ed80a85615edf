// Package practice is the application without a face: the session that runs, the ways to go on, and what both faces show of it.
package practice

import (
	"errors"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/lesson"
	"sparetone/drills/meet"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/progress/store"
	"sparetone/synth/capture"
	"sparetone/synth/playback"
	"sparetone/theory/say"
)

// App is practice as a whole, without a face: the session that runs, the settings, and the ways to go on. The full screen
// and the lines of text are given one each. It is used from one goroutine.
type App struct {
	Setup      session.Setup    // what a session is made of; the student's choices change it
	Session    *session.Session // the first one, made of Setup
	Speaker    playback.Speaker
	Microphone *capture.Microphone // off until the student switches it on; nil if there is none
	Settings   setting.Values
	Named      bool           // it was said what to practise; lines of text then begin with it
	New        bool           // nobody has practised here yet: begin with the few things that have to be known
	Timed      bool           // it was said how long to practise
	Alone      *lesson.Lesson // the lesson that was named; nil for today's practice
	Notice     string         // one line that has to be seen first; may be empty

	Called     Way  // today's practice
	Way        Way  // what the session is of
	Deviceless bool // there is no sound device now

	hearing   *ear             // what the microphone heard is heard by it; nil until something is listened for
	listensAt float64          // A4 in Hz, for which what is struck is listened for
	off       off              // how far the instrument is off as a whole
	begun     *session.Session // the session that was last asked for a question
	answered  map[string]bool  // items of the session that were answered
	answers   []answer         // of the session, in order
	made      uint64           // sessions made so far, so that each has questions of its own
}

// Plan makes the first session. With weak it is of what is weak and nothing else. The error says why there
// is none.
func (p *App) Plan(weak bool) error {
	if weak {
		w, err := p.WeakWay()
		if err != nil {
			return err
		}
		p.Called = w
	}
	return p.Begin(p.Called)
}

// Begin makes a session anew from the settings and a way. All of practice is the part of it that was chosen for good, if there is
// anything to ask of that. The error says why there is none; the session there was then stays.
func (p *App) Begin(w Way) error {
	if chosen, is := waysOf[p.Settings.Part]; is && w.isWhole() && len(p.Setup.Drills) == 0 {
		if err := p.begin(chosen); !errors.Is(err, drills.ErrNothing) {
			return err
		}
	}
	return p.begin(w)
}

func (p *App) begin(w Way) error {
	on, err := p.Settings.Instrument()
	if err != nil {
		return err
	}
	set := p.Setup
	set.On = on
	if w.Hold != nil {
		set.On = on.HeldTo(*w.Hold)
	}
	set.Silent = w.Silent || p.Setup.Silent || p.Deviceless
	set.Seed += p.made
	set.AtOnce = p.Settings.AtOnce
	if w.Drills != nil {
		set.Drills, set.ByName = w.Drills, false
	}
	set.Course = p.Setup.Course.From(p.Settings.Level, on)
	if w.Course != nil {
		set.Course = w.Course
	}
	if p.Alone != nil && w.Course == nil {
		t := p.Alone.On(on)
		set.Course, set.Alone = t.Course.From(p.Settings.Level, on), &t
	} else if w.Course == nil {
		set.Lessons = p.running(on)
		if length := lengthOf(set.Lessons); length > 0 && !p.Timed {
			set.Length = length
		}
	}
	s, err := session.New(set)
	if errors.Is(err, drills.ErrNothing) && p.Deviceless && !p.Setup.Silent && !w.Silent {
		set.Silent = false // it waits for the device
		s, err = session.New(set)
	}
	if err != nil {
		return err
	}
	p.made++
	p.Way, p.Session, p.answered = w, s, map[string]bool{}
	p.answers = nil
	return nil
}

// Part says what part of practice the session is, such as one drill; it is zero if it is all.
func (p *App) Part() say.Text {
	if !p.Way.Title.IsZero() {
		return p.Way.Title
	}
	var titles []say.Text
	for _, id := range p.Setup.Drills {
		if d, ok := catalogue.ByID(id); ok {
			titles = append(titles, say.Of(d.About().Title))
		}
	}
	if titles == nil {
		return say.Text{}
	}
	return say.Of("{}", say.Clauses(titles...))
}

// Fresh reports whether nothing of the session was asked yet.
func (p *App) Fresh() bool { return p.begun != p.Session }

// Next makes the next question of the session, as Session.Next does.
func (p *App) Next() (*session.Asked, error) {
	p.begun = p.Session
	return p.Session.Next()
}

// Answer gives an answer to the present question, as Session.Answer does.
func (p *App) Answer(q *session.Asked, text string) (drills.Verdict, error) {
	return p.answer(q, text, p.Session.Answer)
}

// AnswerPlayed is Answer of what was played on an instrument or sung.
func (p *App) AnswerPlayed(q *session.Asked, text string) (drills.Verdict, error) {
	return p.answer(q, text, p.Session.AnswerPlayed)
}

func (p *App) answer(q *session.Asked, text string, give func(string) (drills.Verdict, error)) (drills.Verdict, error) {
	fresh := !p.Session.HasMet(q.Item)
	v, err := give(text)
	if v.Result != 0 {
		p.answered[q.Item] = true
		p.answers = append(p.answers, answer{q, v, fresh})
	}
	return v, err
}

// File is the progress file.
func (p *App) File() *store.File { return p.Setup.File }

// Keep keeps a setting. One that could not be kept still holds until the program ends.
func (p *App) Keep(id string) error { return p.Settings.Keep(p.File(), id) }

// Set sets a setting to a value and keeps it.
func (p *App) Set(id, value string) error {
	k := setting.ByID(id)
	s := p.Settings
	if err := k.Set(&s, value); err != nil {
		return err
	}
	if _, err := s.Instrument(); err != nil {
		return err
	}
	p.Settings = s
	p.Speaker.SetVolume(s.Volume)
	if id == "minutes" {
		p.Setup.Length = s.Length()
	}
	return p.Keep(id)
}

// NewPlacement makes a placement for the instrument, and the session that goes with it.
func (p *App) NewPlacement() (*course.Placement, error) {
	if err := p.Begin(p.Called); err != nil {
		return nil, err
	}
	set := p.Setup
	return course.NewPlacement(set.Course, p.Session.On(), set.Silent, set.Seed+p.made, set.Now)
}

// Hears reports whether something can be heard now.
func (p *App) Hears() bool {
	state, _ := p.Speaker.State()
	return state == playback.Ready && !p.Session.Silent()
}

// WaitsForSound reports whether a question cannot be heard yet, though it has to be.
func (p *App) WaitsForSound(asked *session.Asked) bool {
	return len(asked.Sounds) > 0 && !p.Session.Silent() && !p.Hears()
}

// cautionedOn is the setting that says on which day the cautions were seen last.
const cautionedOn = "cautioned"

// Cautioned reports whether the cautions were seen today.
func (p *App) Cautioned() bool {
	if p.File() == nil {
		return false
	}
	day, _, err := p.File().Setting(cautionedOn)
	return err == nil && day == p.day()
}

// KeepCautioned keeps that the cautions were seen today.
func (p *App) KeepCautioned() error { return p.File().SetSetting(cautionedOn, p.day()) }

func (p *App) day() string { return p.Setup.Now().Format(time.DateOnly) }

// Welcomed keeps that the first run is over.
func (p *App) Welcomed() error {
	p.New = false
	return p.File().SetSetting(setting.Welcomed, "yes")
}

// Meet returns what is to be shown before the present question, as Session.Meet does; nil where the student wants to be asked at once.
func (p *App) Meet() *meet.Meeting {
	if p.Settings.AtOnce {
		return nil
	}
	return p.Session.Meet()
}

// TakeBack takes the last answer back, if it can be.
func (p *App) TakeBack() error {
	if !p.Session.TakesBack() {
		return nil
	}
	if n := len(p.answers); n > 0 {
		last := p.answers[n-1]
		p.answers = p.answers[:n-1]
		if last.fresh {
			delete(p.answered, last.Item)
		}
	}
	return p.Session.TakeBack()
}

// lengthOf is how long a practice is that the lessons set: the longest that one of them asks for; 0 if none does.
func lengthOf(lessons []*session.Running) time.Duration {
	most := 0
	for _, r := range lessons {
		most = max(most, r.Minutes)
	}
	return time.Duration(most) * time.Minute
}

// answer is a question of the session with what came of it.
type answer struct {
	*session.Asked
	drills.Verdict
	fresh bool // it was never asked before
}
