package practice

import (
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/lesson"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/drills/trial"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/synth/playback"
)

// ninths is a lesson of one chord with its ninth beside two others, due at the end of the week.
const ninths = "name = \"Ninths\"\nfrom = \"Ida\"\ndue = 2026-05-08\nminutes = 6\nchords = [\"C\", \"Am\", \"F\"]\nshapes = [\"2010>0010\"]\n" +
	"[[step]]\nid = \"shapes\"\ndrill = \"shape-name\"\nasks = [\"major\", \"minor\", \"added-ninth\"]\n" +
	"[[step]]\nid = \"moved\"\ndrill = \"swap\"\nasks = [\"added-ninth\"]\n"

// pupil is somebody who takes lessons, with a clock that the test moves.
type pupil struct {
	App
	now time.Time
}

func newPupil(t *testing.T) *pupil {
	t.Helper()
	p := &pupil{now: time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)}
	file, err := store.InMemory(func() time.Time { return p.now })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	p.App = App{Setup: session.Setup{File: file, Course: course.BuiltIn(), Silent: true, Length: 10 * time.Minute, Seed: 1, Now: func() time.Time { return p.now }},
		Speaker: playback.None(0.5), Settings: setting.Read(file)}
	return p
}

// takes takes a lesson.
func (p *pupil) takes(t *testing.T, text string) lesson.Lesson {
	t.Helper()
	l, err := lesson.Read("x.toml", strings.NewReader(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	if err := session.TakeLesson(p.File(), l, progress.DayOf(p.now)); err != nil {
		t.Fatal(err)
	}
	return l
}

// practises practises to the end of the time, and answers right unless it is to be wrong. It returns what was asked.
func (p *pupil) practises(t *testing.T, wrong bool) (asked []*session.Asked) {
	t.Helper()
	if err := p.Begin(p.Called); err != nil {
		t.Fatal(err)
	}
	for {
		q, err := p.Next()
		if err != nil {
			t.Fatal(err)
		}
		if q == nil {
			break
		}
		p.now = p.now.Add(12 * time.Second)
		text := q.Expected().Typed
		if wrong {
			text = drills.Unknown
		}
		if _, err := p.Answer(q, text); err != nil {
			t.Fatal(err)
		}
		asked = append(asked, q)
	}
	if err := p.Session.End(); err != nil {
		t.Fatal(err)
	}
	return asked
}

// A lesson that was taken is today's practice: its things come first, on its chords alone, as long as it says; what was met before comes
// between them, and nothing new of the course. Each of its answers is kept with the lesson and the step.
func TestALessonIsTodaysPractice(t *testing.T) {
	p := newPupil(t)
	p.practises(t, false)
	met := map[string]bool{}
	if err := p.File().SetSetting("minutes", "10"); err != nil {
		t.Fatal(err)
	}
	all, err := p.File().Standings()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range all {
		met[s.Item] = true
	}
	p.now = p.now.AddDate(0, 0, 1)
	l := p.takes(t, ninths)
	asked := p.practises(t, true)
	if p.Session.Length() != 6*time.Minute || len(asked) < 20 {
		t.Errorf("%v with %d questions", p.Session.Length(), len(asked))
	}
	of := 0
	for _, q := range asked {
		switch {
		case p.Session.LessonOf(q.Item) == l.ID:
			of++
			if c := q.Answer; c.Kind != nil && c.Root.String() != "F" {
				t.Errorf("%s is of no chord of the lesson", q.Text())
			}
			if q.Shown != nil && !slices.Contains([]string{"C", "Am", "F", "Fadd9"}, q.Shown.Chord.Symbol()) {
				t.Errorf("%s is of no chord of the lesson", q.Text())
			}
			if q.Why.Screen() != "it is of your lesson Ninths" {
				t.Errorf("it is asked since %q", q.Why.Screen())
			}
		case !met[q.Item]:
			t.Errorf("%s is new and not of the lesson", q.Item)
		}
	}
	if share := float64(of) / float64(len(asked)); share < 0.7 || share == 1 {
		t.Errorf("%d of %d questions are of the lesson", of, len(asked))
	}
	kept, err := p.File().AnswersFor(l.ID)
	if err != nil || len(kept) != of {
		t.Errorf("%d answers are kept for it, %d were given: %v", len(kept), of, err)
	}
	for _, a := range kept {
		if want := map[string]string{"shape-name": "shapes", "swap": "moved"}[a.Drill]; a.Step != want {
			t.Errorf("%s is kept for step %q", a.Item, a.Step)
		}
	}
	if says := lines(Outlook(&p.App)); !strings.Contains(says, "Lesson Ninths, from Ida: 0 of 4 things done, due Friday 8 May.") {
		t.Error(says)
	}
}

// A lesson is done when each of its things was right in a row more often than luck gives; then practice is what it was, and so it is when
// the lesson is over or left.
func TestALessonEnds(t *testing.T) {
	p := newPupil(t)
	l := p.takes(t, ninths)
	for range 3 {
		p.practises(t, false)
		p.now = p.now.Add(time.Hour)
	}
	r, err := session.Runs(p.File(), mustLesson(t, p, l.ID), trial.Played(t, "ukulele"))
	if err != nil {
		t.Fatal(err)
	}
	if done, of := r.Done(); done != 4 || of != 4 {
		t.Fatalf("%d of %d are done", done, of)
	}
	if running := p.running(trial.Played(t, "ukulele")); len(running) != 0 {
		t.Error("it goes on")
	}
	q := newPupil(t)
	l = q.takes(t, ninths)
	for _, c := range []struct {
		days int
		runs bool
	}{{0, true}, {4, true}, {5, false}} {
		day := q.now
		q.now = q.now.AddDate(0, 0, c.days)
		if runs := len(q.running(trial.Played(t, "ukulele"))) == 1; runs != c.runs {
			t.Errorf("after %d days it runs: %v", c.days, runs)
		}
		q.now = day
	}
	if err := session.LeaveLesson(q.File(), mustLesson(t, q, l.ID)); err != nil {
		t.Fatal(err)
	}
	if len(q.running(trial.Played(t, "ukulele"))) != 0 {
		t.Error("it runs though it was left")
	}
	if err := session.TakeLesson(q.File(), l, 1); err != nil || len(q.running(trial.Played(t, "ukulele"))) != 1 {
		t.Error("it cannot be taken again", err)
	}
	if err := session.TakeLesson(q.File(), l, 1); err != session.ErrTaken {
		t.Error("it is taken twice", err)
	}
}

func mustLesson(t *testing.T, p *pupil, id string) session.Lesson {
	t.Helper()
	all, err := session.Lessons(p.File())
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(all, func(l session.Lesson) bool { return l.ID == id })
	if i < 0 {
		t.Fatal("the lesson is not kept")
	}
	return all[i]
}

// Several lessons run beside each other, in the order in which they were taken; what is of both is of the first.
func TestTwoLessons(t *testing.T) {
	p := newPupil(t)
	one := p.takes(t, ninths)
	two := p.takes(t, "name = \"Second\"\nminutes = 9\n[[step]]\nid = \"build\"\ndrill = \"build\"\nasks = [\"major\"]\n[[step]]\nid = \"names\"\ndrill = \"shape-name\"\nasks = [\"major\", \"dominant\"]\n")
	asked := map[string]int{}
	for _, q := range p.practises(t, false) {
		asked[p.Session.LessonOf(q.Item)]++
	}
	if p.Session.Length() != 9*time.Minute || asked[one.ID] == 0 || asked[two.ID] == 0 || asked[""] > 0 {
		t.Errorf("%v: %v", p.Session.Length(), asked)
	}
}

// One lesson that is named is practised alone, held to its chords as well.
func TestALessonAlone(t *testing.T) {
	p := newPupil(t)
	l, err := lesson.Read("x.toml", strings.NewReader(ninths), nil)
	if err != nil {
		t.Fatal(err)
	}
	p.Alone = &l
	for _, q := range p.practises(t, false) {
		if q.Shown != nil && !slices.Contains([]string{"C", "Am", "F", "Fadd9"}, q.Shown.Chord.Symbol()) {
			t.Errorf("%s is of no chord of the lesson", q.Text())
		}
	}
	if kept, err := p.File().AnswersFor(l.ID); err != nil || len(kept) != len(p.Session.Done()) {
		t.Errorf("%d answers are kept for it: %v", len(kept), err)
	}
}
