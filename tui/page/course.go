package page

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Course shows the chapters of the course, each with how much of it is known, to open one.
type Course struct {
	chapters []practice.Chapter
	failed   error
	mark     int
}

func newCourse(w *Walk) *Course {
	c := &Course{}
	c.chapters, c.failed = w.Chapters()
	return c
}

// learntLines are lines of a list of what is learnt, with the sentence that stands below it.
func learntChoice(n int, mark *int, pick func(n int) Next, line func(n int) (name say.Text, l practice.Learnt, names []string)) (Choice, []Block) {
	list := Choice{Mark: mark, Pick: pick}
	var learnt []practice.Learnt
	for i := range n {
		name, l, names := line(i)
		learnt = append(learnt, l)
		list.Lines = append(list.Lines, Line{Text: name, Learnt: l, Names: append(names, name.Screen())})
	}
	list.Lines = numbered(list.Lines)
	list.Aloud = func(n int) say.Text { return say.Of("{}: {}", list.Lines[n].Text, learnt[n].Words()) }
	return list, []Block{list, Gap{Roomy: true}, Seen{Text: say.Sentence("{}.", list.Aloud(*mark)), Roomy: true}}
}

// Page implements Place.
func (c *Course) Page(w *Walk) Page {
	p := Page{Blocks: []Block{title("The course"), Gap{}}, Acts: []Act{w.back()}}
	if c.failed != nil {
		p.Blocks, p.Passed = append(p.Blocks, failing(c.failed)...), true
		return p
	}
	open := func(n int) Next { return Next{To: &Chapter{of: c.chapters[n], back: c}, Anew: true} }
	list, blocks := learntChoice(len(c.chapters), &c.mark, open, func(n int) (say.Text, practice.Learnt, []string) {
		return c.chapters[n].Name, c.chapters[n].Learnt(), nil
	})
	p.Blocks = append(append(p.Blocks, Aloud(practice.WhatGraspsMean)), blocks...)
	p.Blocks = append(p.Blocks, Sentence{Text: practice.RoomIn(w.Session.On(), c.chapters).Words(), Tone: Quiet})
	p.Acts = list.acts("open it", w.back())
	p.Take, p.Ask, p.Lead = list.take, askChapter, askChapter
	return p
}

// practises is the act that begins a practice of what a page is about.
func practises(begin func() Next) Act {
	return called("practise", func(string) Next { return begin() })
}
