package home

import (
	"strconv"

	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
)

// Lessons lists the lessons that were taken, to look at one, or to take another.
type Lessons struct {
	taken  []practice.Standing
	failed error
	mark   int
	back   func() page.Place
}

func newLessons(w *page.Walk, back func() page.Place) *Lessons {
	l := &Lessons{back: back}
	l.taken, l.failed = w.Standings()
	return l
}

// Page implements Place.
func (l *Lessons) Page(w *page.Walk) page.Page {
	p := page.Page{Blocks: []page.Block{page.Title(titleLessons), page.Gap{}}, Ask: askLessons, HelpBegins: askLessons}
	take := page.Called("take lesson", func(path string) page.Next { return l.takes(w, path) })
	back := page.Leads("back", l.back)
	if l.failed != nil {
		p.Blocks, p.Acts = append(p.Blocks, page.Failing(l.failed)...), []page.Act{back}
		return p
	}
	if len(l.taken) == 0 {
		p.Blocks = append(p.Blocks, page.Sentence{Text: noLessons, Tone: page.Quiet})
		p.Acts, p.Ask, p.HelpBegins = []page.Act{take, back}, askFirstLesson, askFirstLesson
		return p
	}
	list := page.Choice{Mark: &l.mark, Pick: func(n int) page.Next { return page.Next{To: &Lesson{of: l.taken[n], back: l.back}} },
		Aloud: func(n int) say.Text { return say.Of("{} {}", l.taken[n].Running.Says(), l.taken[n].State.Says()) }}
	for _, one := range l.taken {
		name := say.Of("{}", say.Foreign(one.Lesson.Name))
		done, of := one.Running.Done()
		more := strconv.Itoa(done) + " of " + strconv.Itoa(of) + " done"
		if one.State != practice.LessonRuns && one.State != practice.LessonDone {
			more += ", " + string(one.State)
		}
		list.Lines = append(list.Lines, page.Line{Text: name, More: more, Names: []string{name.Screen(), one.Lesson.ID}})
	}
	list.Lines = page.Numbered(list.Lines)
	p.Blocks = append(p.Blocks, list)
	p.Acts = list.Acts("look at it", take, back)
	p.Take = list.Take
	return p
}

// takes takes a lesson from a file, or first asks from which.
func (l *Lessons) takes(w *page.Walk, path string) page.Next {
	take := func(typed string) page.Next {
		taken, err := w.TakeLessonAt(typed)
		if err != nil {
			return page.Mistyped(err)
		}
		return page.Next{To: newLessons(w, l.back), Said: sayTakenUp(taken.Name), Stays: true}
	}
	ask := &page.Prompt{Title: askLessonFile, About: aboutLessonFile, Field: page.Field{Label: "File  ", Does: "take it", MaxLength: page.LongestPath}, Back: l, Take: take}
	return ask.TakeOrAsk(path)
}

// Lesson is one lesson that was taken: what it is made of, and how it stands.
type Lesson struct {
	of    practice.Standing
	asked bool // it was asked whether the lesson is to be given up
	back  func() page.Place
}

// Page implements Place.
func (l *Lesson) Page(w *page.Walk) page.Page {
	p := page.Page{Blocks: []page.Block{page.Sentence{Text: say.Of("{}", say.Foreign(l.of.Lesson.Name)), Tone: page.Strong}, page.Gap{},
		page.Sentence{Text: say.Of("{} {}", l.of.Running.Says(), l.of.State.Says())}, page.Gap{}}, Ask: askLesson[l.of.State], HelpBegins: askLesson[l.of.State]}
	for _, line := range l.of.Parts() {
		p.Blocks = append(p.Blocks, page.Sentence{Text: line, Tone: page.Quiet})
	}
	again := func(do func() error, said say.Text) page.Next {
		if err := do(); err != nil {
			return page.Refused(err)
		}
		return page.Next{To: newLessons(w, l.back), Said: said, Stays: true}
	}
	name := l.of.Lesson.Name
	up := page.Called("take up", func(string) page.Next {
		return again(func() error { return w.TakeUp(l.of.Lesson.Lesson) }, sayGoesOn(name))
	})
	down := page.Called("give up", func(string) page.Next {
		if !l.asked {
			l.asked = true
			return page.Next{Said: sayGivesUp(name)}
		}
		return again(func() error { return w.GiveUp(l.of.Lesson) }, sayGivenUp(name))
	})
	practise := page.Called("practise", func(string) page.Next { return asking.Begin(w, nil) }).As("practise")
	p.Acts = page.Only(practise.If(l.of.State == practice.LessonRuns), up.If(l.of.State == practice.LessonLeft), down.If(l.of.State != practice.LessonLeft),
		page.Leads("back", func() page.Place { return newLessons(w, l.back) }))
	return p
}
