package tui

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
)

// Practice is what both the full screen and the plain line mode are given.
type Practice struct {
	Setup    practice.Setup    // what a session is made of; the student's choices change it
	Session  *practice.Session // the first one, made of Setup
	Speaker  synth.Speaker
	Settings Settings
	Named    bool   // it was said what to practise; lines of text then begin with it
	New      bool   // nobody has practised here yet: begin with the few things that have to be known
	Notice   string // one line that has to be seen first; may be empty

	called     way               // what today's practice is
	way        way               // what the session is of
	begun      *practice.Session // the session that was last asked for a question
	answered   map[string]bool   // items of the session that were answered
	made       uint64            // sessions made so far, so that each has questions of its own
	deviceless bool              // there is no sound device now
}

// way is a way to practise: a part of what today's practice is.
type way struct {
	title  string
	drills []string      // only these; nil is all
	course course.Course // nil is the practice's own
	silent bool          // by eye only
}

// The ways that are always there, beside today's practice, which is the zero way.
var (
	wayEar = way{title: "by ear only", drills: drillIDs(true)}
	wayEye = way{title: "by eye only", silent: true}
)

// drillIDs lists the drills that need ears, or those that do not.
func drillIDs(ears bool) []string {
	var out []string
	for _, d := range drills.All() {
		if d.About().Ears == ears {
			out = append(out, d.About().ID)
		}
	}
	return out
}

// wayOf is practising one drill, all of it.
func wayOf(d drills.Drill) way {
	return way{title: d.About().Title, drills: []string{d.About().ID}}
}

// wayThrough is practising some items only.
func wayThrough(title string, items ...string) way {
	return way{title: title, course: course.Only(items)}
}

// Plan makes the first session. With weak it is of what is weak and nothing else. The error says why there
// is none.
func (p *Practice) Plan(weak bool) error {
	if weak {
		w, err := p.weakWay()
		if err != nil {
			return err
		}
		p.called = w
	}
	return p.begin(p.called)
}

// begin makes a session anew from the settings and a way. The error says why there is none; the session
// there was then stays.
func (p *Practice) begin(w way) error {
	on, err := p.Settings.Instrument()
	if err != nil {
		return err
	}
	set := p.Setup
	set.On = on
	set.Silent = w.silent || p.Setup.Silent || p.deviceless
	set.Seed += p.made
	if w.drills != nil {
		set.Drills = w.drills
	}
	set.Course = p.Setup.Course.From(p.Settings.Level, on)
	if w.course != nil {
		set.Course = w.course
	}
	s, err := practice.NewSession(set)
	if errors.Is(err, drills.ErrNothing) && p.deviceless && !p.Setup.Silent && !w.silent {
		set.Silent = false // it waits for the device
		s, err = practice.NewSession(set)
	}
	if err != nil {
		return err
	}
	p.made++
	p.way, p.Session, p.answered = w, s, map[string]bool{}
	return nil
}

// part says what part of practice the session is, such as one drill; it is empty if it is all.
func (p *Practice) part() string {
	if p.way.title != "" {
		return p.way.title
	}
	var titles []string
	for _, id := range p.Setup.Drills {
		if d, ok := drills.ByID(id); ok {
			titles = append(titles, d.About().Title)
		}
	}
	return strings.Join(titles, "; ")
}

// fresh reports whether nothing of the session was asked yet.
func (p *Practice) fresh() bool { return p.begun != p.Session }

// answer gives an answer to the present question, as Session.Answer does.
func (p *Practice) answer(q *practice.Asked, text string) (drills.Verdict, error) {
	v, err := p.Session.Answer(text)
	if v.Result != 0 {
		p.answered[q.Item] = true
	}
	return v, err
}

// file is the progress file.
func (p *Practice) file() *progress.File { return p.Setup.File }

// keep keeps a setting. One that could not be kept still holds until the program ends.
func (p *Practice) keep(id string) error { return p.Settings.Keep(p.file(), id) }

// level is a place in the course to begin from.
type level struct {
	name string
	step string // id of the first step that is not taken as known, neither by ear nor by eye
}

// levels are the places to begin from, in the built-in course. A placement may find another.
var levels = []level{
	{"from the beginning", ""},
	{"major, minor and plain shapes are known", "thirds"},
	{"sevenths and ninths are known", "soft-sevenths"},
	{"suspended and added notes are known", "added-heard"},
}

func (l level) place() course.Place { return course.Place{Ear: l.step, Eye: l.step} }

func levelNames() []string {
	var out []string
	for _, l := range levels {
		out = append(out, l.name)
	}
	return out
}

// How a place that is none of the levels is written, by the ids of its steps.
const (
	fromEar     = "by ear from "
	fromEye     = ", by eye from "
	atBeginning = "the beginning"
)

// levelName is what a place is called.
func levelName(at course.Place) string {
	for _, l := range levels {
		if l.place() == at {
			return l.name
		}
	}
	return fromEar + cmp.Or(at.Ear, atBeginning) + fromEye + cmp.Or(at.Eye, atBeginning)
}

// levelNamed is the place that is called so.
func levelNamed(name string) (course.Place, error) {
	for _, l := range levels {
		if strings.EqualFold(name, l.name) {
			return l.place(), nil
		}
	}
	ear, eye, both := strings.Cut(strings.TrimPrefix(name, fromEar), fromEye)
	if !both {
		return course.Place{}, fmt.Errorf("%q is not one of: %s", theory.Clip(name), strings.Join(levelNames(), ", "))
	}
	steps := course.BuiltIn()
	for _, id := range []*string{&ear, &eye} {
		if *id == atBeginning {
			*id = ""
		} else if !slices.ContainsFunc(steps, func(s course.Step) bool { return s.ID == *id }) {
			return course.Place{}, fmt.Errorf("%q is no step of the course", theory.Clip(*id))
		}
	}
	return course.Place{Ear: ear, Eye: eye}, nil
}
