package home

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Course shows the chapters of the course, each with how much of it is known, to open one.
type Course struct {
	chapters []practice.Chapter
	failed   error
	mark     int
}

func newCourse(w *page.Walk) *Course {
	c := &Course{}
	c.chapters, c.failed = w.Chapters()
	return c
}

// Page implements Place.
func (c *Course) Page(w *page.Walk) page.Page {
	p := page.Page{Blocks: []page.Block{page.Title(titleTheCourse), page.Gap{}}, Acts: []page.Act{w.BackToToday()}}
	if c.failed != nil {
		p.Blocks, p.OnlySaid = append(p.Blocks, page.Failing(c.failed)...), true
		return p
	}
	open := func(n int) page.Next { return page.Next{To: &Chapter{of: c.chapters[n], back: c}, NewPage: true} }
	list, blocks := learntChoice(len(c.chapters), &c.mark, open, func(n int) (say.Text, practice.Learnt, []string) {
		return c.chapters[n].Name, c.chapters[n].Learnt(), nil
	})
	p.Blocks = append(append(p.Blocks, page.Aloud(practice.WhatGraspsMean)), blocks...)
	p.Blocks = append(p.Blocks, page.Sentence{Text: practice.RoomIn(w.Session.On(), c.chapters).Words(), Tone: page.Quiet})
	p.Acts = list.Acts("open it", w.BackToToday())
	p.Take, p.Ask, p.HelpBegins = list.Take, askChapter, askChapter
	return p
}
