package page

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Course shows the steps of the course, to see what comes in when, or to practise one of them.
type Course struct {
	mark  int
	lines []Line
}

func newCourse(w *Walk) *Course {
	c := &Course{}
	for _, s := range w.Setup.Course {
		name, begun := say.Foreign(s.Name()), w.BegunOf(s)
		c.lines = append(c.lines, Line{Text: say.Of("{}", name), More: begun, Names: []string{s.ID, s.Name()}})
	}
	return c
}

// Page implements Place.
func (c *Course) Page(w *Walk) Page {
	list := Choice{Lines: c.lines, Mark: &c.mark, Aloud: func(n int) say.Text { return sayStepBegun(c.lines[n]) }, Pick: func(n int) Next { return w.part(practice.OneStep(w.Setup.Course[n])) }}
	return Page{
		Blocks: []Block{title("The course"), Aloud(say.Of("The steps of the course, in order:")), Gap{}, list},
		Acts:   list.acts("practise this step", w.back()), Take: list.take, Ask: askStep, Lead: askStep,
	}
}
