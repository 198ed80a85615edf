package practice

import (
	"sparetone/drills/course"
	"sparetone/theory/say"
)

// FoundInWords says what a placement came to, a sentence or two a line.
func FoundInWords(p *course.Placement) []say.Text {
	f := p.Found()
	return []say.Text{
		reachedWords("By ear", f.Ear),
		reachedWords("By eye", f.Eye),
		say.Of("This is an estimate from {}. If it is a little off, nothing is lost.", say.Count{N: p.Asked(), One: "answer", Many: "answers"}),
	}
}

func reachedWords(how say.Words, r course.Reached) say.Text {
	from := stepTitle(r.From)
	switch {
	case r.Of == 0:
		return say.Of("{} there is nothing in this course.", how)
	case !r.Asked:
		return say.Of("{} nothing was asked; you begin at the beginning, with {}.", how, from)
	case len(r.Known) == 0:
		return say.Of("{} you begin at the beginning, with {}.", how, from)
	}
	last := stepTitle(r.Known[len(r.Known)-1])
	return say.Of("{} you know {} of {} steps of the course, as far as {}; you begin at {}.", how, say.Number(len(r.Known)), say.Number(r.Of), last, from)
}

// stepTitle is the title of a step between quotation marks.
func stepTitle(s course.Step) say.Text { return say.Of("“{}”", say.Foreign(s.Name())) }
