package session

import (
	"cmp"
	"encoding/json"
	"errors"
	"slices"

	"sparetone/drills"
	"sparetone/drills/lesson"
	"sparetone/drills/neck"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/theory/say"
)

// A lesson that was taken is kept whole in the progress file, so that it stays what it was whatever becomes of its file. From then on
// it is today's practice until it is due, done or left; what was met before comes back beside it. What the course has that is new waits
// so long. Several lessons may run: they are gone through in the order in which they were taken.

// lessonKey begins the keys under which lessons are kept.
const lessonKey = "lesson/"

// keptLesson is what is kept of a lesson.
type keptLesson struct {
	Name   string            `json:"name"` // of the file, where the lesson has none
	Taken  progress.Day      `json:"taken"`
	N      int               `json:"n"`              // the how many-th it was
	Left   bool              `json:"left,omitempty"` // it was given up
	Text   string            `json:"text"`
	Charts map[string]string `json:"charts,omitempty"`
}

// Lesson is a lesson that was taken.
type Lesson struct {
	lesson.Lesson
	Taken progress.Day
	Left  bool
	n     int
}

// ErrTaken is the error of a lesson that runs already.
var ErrTaken = errors.New("this lesson was taken already")

// TakeLesson takes a lesson on a day. One that was left goes on.
func TakeLesson(f *store.File, l lesson.Lesson, day progress.Day) error {
	all, err := Lessons(f)
	if err != nil {
		return err
	}
	k := keptLesson{Name: l.Name, Taken: day, N: 1, Text: l.Text, Charts: l.Charts}
	for _, was := range all {
		if was.ID == l.ID {
			if !was.Left {
				return ErrTaken
			}
			k.Taken = was.Taken
		}
		k.N = max(k.N, was.n+1)
	}
	return keep(f, l.ID, k)
}

func keep(f *store.File, id string, k keptLesson) error {
	text, err := json.Marshal(k)
	if err != nil {
		return err
	}
	return f.SetSetting(lessonKey+id, string(text))
}

// LeaveLesson gives a lesson up. Its answers stay.
func LeaveLesson(f *store.File, l Lesson) error {
	return keep(f, l.ID, keptLesson{Name: l.Name, Taken: l.Taken, N: l.n, Left: true, Text: l.Text, Charts: l.Charts})
}

// Lessons lists the lessons that were ever taken, in that order. One that cannot be read any more is passed over: an older program
// may know less.
func Lessons(f *store.File) (all []Lesson, err error) {
	kept, err := f.SettingsUnder(lessonKey)
	if err != nil {
		return nil, err
	}
	for id, text := range kept {
		var k keptLesson
		if json.Unmarshal([]byte(text), &k) != nil {
			continue
		}
		l, err := lesson.Lesson{ID: id, Name: k.Name, Text: k.Text, Charts: k.Charts}.Again()
		if err != nil {
			continue
		}
		l.ID = id
		all = append(all, Lesson{l, k.Taken, k.Left, k.N})
	}
	slices.SortFunc(all, func(a, b Lesson) int { return cmp.Or(a.n-b.n, cmp.Compare(a.ID, b.ID)) })
	return all, nil
}

// Over reports whether a lesson was due before a day.
func (l Lesson) Over(day progress.Day) bool { return l.Due != 0 && l.Due < day }

// Running is a lesson on an instrument, with what is done of it.
type Running struct {
	lesson.Taught
	Since progress.Day   // it was taken
	runs  map[string]run // by item
}

// run is a run of right answers in a row, and the chance that guessing alone gives it.
type run struct {
	right int
	luck  float64
}

// A thing of a lesson is done when it was answered right in a row often enough: twice at the least, and more often than guessing gives
// once in twenty times (the measure by which memory tells luck as well).
const (
	fewestRight  = 2
	mostRunsLuck = 0.05
)

func (r run) done() bool { return r.right >= fewestRight && r.luck < mostRunsLuck }

// after returns the run with another answer.
func (r run) after(a progress.Answer) run {
	if a.Result != progress.Right {
		return run{}
	}
	if r.right == 0 {
		r.luck = 1
	}
	return run{r.right + 1, r.luck * a.Guess()}
}

// Runs lays a lesson that was taken on an instrument, and counts what is done of it.
func Runs(f *store.File, l Lesson, on *neck.Instrument) (*Running, error) {
	r := &Running{Taught: l.Lesson.On(on), Since: l.Taken, runs: map[string]run{}}
	answers, err := f.AnswersFor(l.ID)
	for _, a := range answers {
		r.count(a)
	}
	return r, err
}

// count counts an answer that was given for the lesson.
func (r *Running) count(a progress.Answer) { r.runs[a.Item] = r.runs[a.Item].after(a) }

// items lists the lesson's items on its instrument, in its order.
func (r *Running) items() (ids []string) {
	for _, s := range r.Course {
		for _, ask := range s.Asks {
			if id := drills.ItemID(s.Drill, ask, r.On.Name()); !slices.Contains(ids, id) {
				ids = append(ids, id)
			}
		}
	}
	return ids
}

// IsDoneOf reports whether a thing of the lesson is done.
func (r *Running) IsDoneOf(drill, ask string) bool {
	return r.runs[drills.ItemID(drill, ask, r.On.Name())].done()
}

// Done counts the things of the lesson that are done, of how many there are on the instrument.
func (r *Running) Done() (done, of int) {
	all := r.items()
	for _, id := range all {
		if r.runs[id].done() {
			done++
		}
	}
	return done, len(all)
}

// IsDone reports whether all of the lesson is done.
func (r *Running) IsDone() bool {
	done, of := r.Done()
	return done == of
}

// Says says how a lesson stands, in a sentence.
func (r *Running) Says() say.Text {
	done, of := r.Done()
	out := say.Of("Lesson {}", say.Foreign(r.Lesson.Name))
	if r.From != "" {
		out = say.Of("{}, from {}", out, say.Foreign(r.From))
	}
	out = say.Of("{}: {} of {} done", out, say.Number(done), say.Count{N: of, One: "thing", Many: "things"})
	if r.Due != 0 {
		form := dayForm
		if r.Due.Date().Year() != r.Since.Date().Year() {
			form += " 2006"
		}
		out = say.Of("{}, due {}", out, say.Words(r.Due.Date().Format(form)))
	}
	return say.Of("{}.", out)
}

// dayForm is how a day is written to be read, of the year in which the lesson was taken.
const dayForm = "Monday 2 January"
