package practice

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"sparetone/drills/lesson"
	"sparetone/drills/neck"
	"sparetone/drills/practice/session"
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/say"
)

// LessonState is what has become of a lesson that was taken.
type LessonState string

// The states of lessons.
const (
	LessonRuns LessonState = "running"
	LessonDone LessonState = "done"
	LessonOver LessonState = "over" // it was due
	LessonLeft LessonState = "left" // it was given up
)

// saysState says a state in a sentence.
var saysState = map[LessonState]say.Text{LessonRuns: say.Of("It runs."), LessonDone: say.Of("It is done."), LessonOver: say.Of("It is over."), LessonLeft: say.Of("It was left.")}

// Says says the state in a sentence.
func (s LessonState) Says() say.Text { return saysState[s] }

// StateOf says what has become of a lesson by a day.
func StateOf(l session.Lesson, r *session.Running, day progress.Day) LessonState {
	switch {
	case l.Left:
		return LessonLeft
	case r.IsDone():
		return LessonDone
	case l.Over(day):
		return LessonOver
	}
	return LessonRuns
}

// Standing is a lesson that was taken, as it stands today.
type Standing struct {
	Lesson  session.Lesson
	Running *session.Running
	State   LessonState
}

// Standings lists the lessons that were ever taken, in that order, on the instrument that is played.
func (p *App) Standings() ([]Standing, error) {
	taken, err := session.Lessons(p.File())
	if err != nil {
		return nil, err
	}
	on, err := p.Settings.Instrument()
	if err != nil {
		return nil, err
	}
	out := make([]Standing, len(taken))
	for i, l := range taken {
		r, err := session.Runs(p.File(), l, on)
		if err != nil {
			return nil, err
		}
		out[i] = Standing{l, r, StateOf(l, r, progress.DayOf(p.now()))}
	}
	return out, nil
}

// TakeLessonAt takes the lesson in a file whose path a person typed: from now on it is today's practice. Charts that it names lie beside it.
func (p *App) TakeLessonAt(typed string) (lesson.Lesson, error) {
	path := strings.TrimSpace(theory.Clean(typed))
	if rest, ok := strings.CutPrefix(path, "~/"); ok {
		path = filepath.Join(home(), rest)
	}
	f, err := openRegular(path)
	if errors.Is(err, errNoFile) {
		return lesson.Lesson{}, fmt.Errorf("%s: it is no file with a lesson in it", theory.Clean(path))
	}
	if err != nil {
		return lesson.Lesson{}, err
	}
	defer f.Close()
	l, err := lesson.Read(path, f, lesson.ChartsBeside(path, openRegular))
	if err != nil {
		return l, err
	}
	return l, p.TakeUp(l)
}

// errNoFile is the error of a path where something else than a file lies: a pipe may never come to its end.
var errNoFile = errors.New("it is no file")

// openRegular opens a file, if it is one.
func openRegular(path string) (*os.File, error) {
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return nil, errNoFile
	}
	return os.Open(path)
}

// TakeUp takes a lesson, or one that was given up again, and makes today's practice anew.
func (p *App) TakeUp(l lesson.Lesson) error {
	if err := session.TakeLesson(p.File(), l, progress.DayOf(p.now())); err != nil {
		return err
	}
	return p.Begin(p.Called)
}

// GiveUp gives a lesson up, and makes today's practice anew.
func (p *App) GiveUp(l session.Lesson) error {
	if err := session.LeaveLesson(p.File(), l); err != nil {
		return err
	}
	return p.Begin(p.Called)
}

// Parts says what a lesson is made of on the instrument: each step with how much of it is done, and what is left out.
func (s Standing) Parts() (lines []say.Text) {
	for _, step := range s.Running.Course {
		done := 0
		for _, ask := range step.Asks {
			if s.Running.IsDoneOf(step.Drill, ask) {
				done++
			}
		}
		lines = append(lines, say.Of("{}: {} of {} done.", say.Foreign(step.Name()), say.Number(done), say.Number(len(step.Asks))))
	}
	for _, l := range s.Running.Taught.Left {
		lines = append(lines, say.Of("Left out: {}.", l.Says))
	}
	return lines
}

// running lists the lessons that are today's practice on an instrument: taken, not left, not over and not done.
func (p *App) running(on *neck.Instrument) (all []*session.Running) {
	if p.File() == nil {
		return nil
	}
	taken, err := session.Lessons(p.File())
	if err != nil {
		return nil // practice goes on without; what is wrong with the file is told where it is written
	}
	day := progress.DayOf(p.now())
	for _, l := range taken {
		if l.Left || l.Over(day) {
			continue
		}
		if r, err := session.Runs(p.File(), l, on); err == nil && !r.IsDone() {
			all = append(all, r)
		}
	}
	return all
}
