package course

import "sparetone/theory/say"

// Wording of this room, beside the facts that go into it.

// Say is the title of a step between quotation marks.
func (s Step) Say() say.Text { return say.Of("“{}”", say.Foreign(s.Name())) }

// Say tells what a placement came to, a sentence or two a line.
func (p *Placement) Say() []say.Text {
	f := p.Found()
	return []say.Text{
		f.Ear.say("By ear"),
		f.Eye.say("By eye"),
		say.Of("This is an estimate from {}. If it is a little off, nothing is lost.", say.Count{N: p.Answers(), One: "answer", Many: "answers"}),
	}
}

// say tells how far somebody is; how is by what, such as "By ear".
func (r Reached) say(how say.Words) say.Text {
	from := r.From.Say()
	switch {
	case r.Of == 0:
		return say.Of("{} there is nothing in this course.", how)
	case !r.Answered:
		return say.Of("{} nothing was asked; you begin at the beginning, with {}.", how, from)
	case len(r.Known) == 0:
		return say.Of("{} you begin at the beginning, with {}.", how, from)
	}
	return say.Of("{} you know {} of {} steps of the course; you begin at {}.", how, say.Number(len(r.Known)), say.Number(r.Of), from)
}
