package page

import (
	"strconv"

	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Lessons lists the lessons that were taken, to look at one, or to take another.
type Lessons struct {
	taken  []practice.Standing
	failed error
	mark   int
	back   func() Place
}

func newLessons(w *Walk, back func() Place) *Lessons {
	l := &Lessons{back: back}
	l.taken, l.failed = w.Standings()
	return l
}

// Page implements Place.
func (l *Lessons) Page(w *Walk) Page {
	p := Page{Blocks: []Block{title("Lessons"), Gap{}}, Ask: askLessons, Lead: askLessons}
	take := called("take lesson", func(path string) Next { return l.takes(w, path) })
	back := leads("back", l.back)
	if l.failed != nil {
		p.Blocks, p.Acts = append(p.Blocks, failing(l.failed)...), []Act{back}
		return p
	}
	if len(l.taken) == 0 {
		p.Blocks = append(p.Blocks, Sentence{Text: noLessons, Tone: Quiet})
		p.Acts, p.Ask, p.Lead = []Act{take, back}, askFirstLesson, askFirstLesson
		return p
	}
	list := Choice{Mark: &l.mark, Pick: func(n int) Next { return Next{To: &Lesson{of: l.taken[n], back: l.back}} },
		Aloud: func(n int) say.Text { return say.Of("{} {}", l.taken[n].Running.Says(), l.taken[n].State.Says()) }}
	for _, one := range l.taken {
		name := say.Of("{}", say.Foreign(one.Lesson.Name))
		done, of := one.Running.Done()
		more := strconv.Itoa(done) + " of " + strconv.Itoa(of) + " done"
		if one.State != practice.LessonRuns && one.State != practice.LessonDone {
			more += ", " + string(one.State)
		}
		list.Lines = append(list.Lines, Line{Text: name, More: more, Names: []string{name.Screen(), one.Lesson.ID}})
	}
	list.Lines = numbered(list.Lines)
	p.Blocks = append(p.Blocks, list)
	p.Acts = list.acts("look at it", take, back)
	p.Take = list.take
	return p
}

// takes takes a lesson from a file, or first asks from which.
func (l *Lessons) takes(w *Walk, path string) Next {
	take := func(typed string) Next {
		taken, err := w.TakeLessonAt(typed)
		if err != nil {
			return Next{Said: practice.SentenceOf(err), Wrong: true}
		}
		return Next{To: newLessons(w, l.back), Said: say.Of("“{}” is today's practice now.", say.Foreign(taken.Name)), Stays: true}
	}
	if path != "" {
		return take(path)
	}
	return Next{To: &Prompt{Title: say.Of("Which file?"), About: aboutLessonFile, Field: Field{Label: "File  ", Does: "take it", Most: longestPath}, Back: l, Take: take}}
}

// Lesson is one lesson that was taken: what it is made of, and how it stands.
type Lesson struct {
	of    practice.Standing
	asked bool // whether it is to be given up
	back  func() Place
}

// Page implements Place.
func (l *Lesson) Page(w *Walk) Page {
	p := Page{Blocks: []Block{Sentence{Text: say.Of("{}", say.Foreign(l.of.Lesson.Name)), Tone: Strong}, Gap{},
		Sentence{Text: say.Of("{} {}", l.of.Running.Says(), l.of.State.Says())}, Gap{}}, Ask: askLesson[l.of.State], Lead: askLesson[l.of.State]}
	for _, line := range l.of.Parts() {
		p.Blocks = append(p.Blocks, Sentence{Text: line, Tone: Quiet})
	}
	again := func(do func() error, said say.Text) Next {
		if err := do(); err != nil {
			return refused(err)
		}
		return Next{To: newLessons(w, l.back), Said: said, Stays: true}
	}
	name := say.Foreign(l.of.Lesson.Name)
	up := called("take up", func(string) Next {
		return again(func() error { return w.TakeUp(l.of.Lesson.Lesson) }, say.Of("“{}” goes on.", name))
	})
	down := called("give up", func(string) Next {
		if !l.asked {
			l.asked = true
			return Next{Said: say.Of("Once more gives “{}” up. Its answers stay, and it can be taken up again.", name)}
		}
		return again(func() error { return w.GiveUp(l.of.Lesson) }, say.Of("“{}” is given up.", name))
	})
	practise := called("practise", func(string) Next { return w.begin(nil) }).As("practise")
	p.Acts = only(practise.where(l.of.State == practice.LessonRuns), up.where(l.of.State == practice.LessonLeft), down.where(l.of.State != practice.LessonLeft),
		leads("back", func() Place { return newLessons(w, l.back) }))
	return p
}

// Wording of the places of lessons.
const (
	askLessons     = "Type a number to look at a lesson, or take and a file."
	askFirstLesson = "Type take and a file to take a lesson."
)

// askLesson is what can be typed on the page of a lesson.
var askLesson = map[practice.LessonState]string{
	practice.LessonRuns: "Type practise to begin, or give up to give it up.",
	practice.LessonDone: "It can be given up: type give up.",
	practice.LessonOver: "It can be given up: type give up.",
	practice.LessonLeft: "Type take up to go on with it.",
}

var (
	noLessons       = say.Of("None was taken yet. A lesson is a file from your teacher; from when it is taken it is today's practice, until it is due or done.")
	aboutLessonFile = say.Of("A lesson in TOML. It is kept whole, so the file may go.")
)
