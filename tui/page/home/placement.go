package home

import (
	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Placement finds out what is known: questions one after the other, with no word on whether an answer was right. What they
// come to is said at their end.
type Placement struct {
	Course *course.Placement
	Asked  *drills.Question
	mark   int
	back   func(found *course.Placement) page.Next // found is nil if it was stopped
}

// newPlacement goes to the first question of a placement, or says why there is none.
func newPlacement(w *page.Walk, back func(found *course.Placement) page.Next) page.Next {
	c, err := w.NewPlacement()
	if err != nil {
		return page.Refused(err)
	}
	p := &Placement{Course: c, back: back}
	return p.next(w)
}

// next asks the next question, or goes back with what was found.
func (p *Placement) next(w *page.Walk) page.Next {
	p.Course.SetSilent(!w.Hears())
	if p.Asked = p.Course.Next(); p.Asked == nil {
		return p.back(p.Course)
	}
	p.mark = len(p.Asked.Choices) // it is not known
	return page.Next{To: p, Silence: true, NewPage: true, Voice: p.Asked.Voice, Sounds: p.Asked.Sounds}
}

// Page implements Place.
func (p *Placement) Page(w *page.Walk) page.Page {
	q := p.Asked
	list := page.Choice{Mark: &p.mark, Answers: true, TopFirst: true, Pick: func(n int) page.Next { return p.pick(w, n) }}
	for _, c := range q.Choices {
		list.Lines = append(list.Lines, page.Line{Text: c.Said})
	}
	list.Lines = append(page.Numbered(list.Lines), page.Line{Key: "0", Text: say.Of(drills.Unknown)})
	n := p.Course.Answers() + 1
	blocks := []page.Block{page.Seen{Text: sayFinding(n), Tone: page.Quiet}, page.Gap{IfRoom: true}}
	blocks = append(blocks, page.Seen{Text: q.Prompt, Tone: page.Strong}, page.Aloud(sayFindingAloud(n, q.Prompt)), page.Gap{})
	blocks = append(append(blocks, w.Picture(q)...), list)
	if n == 1 {
		blocks = append([]page.Block{page.Aloud(howToPlace)}, blocks...)
	}
	again, _, _, _ := page.SoundActs(q.Voice, q.Sounds, func(bool) {})
	pass := page.Called("pass", func(string) page.Next { return p.pick(w, len(q.Choices)) }).On("0 d").As(drills.Unknown)
	pass.Words, pass.Says = "|0|"+drills.Unknown, " says that you do not know"
	back := page.Called("back", func(string) page.Next { return p.back(nil) }).On("esc backspace")
	back.Words, back.Says = "stop", " goes back"
	return page.Page{
		Blocks: blocks,
		Acts: page.Only(
			page.NumberKeys(len(q.Choices)), again.If(len(q.Sounds) > 0), pass, back,
			page.Called("answer", func(string) page.Next { return list.Pick(p.mark) }).As("answer as marked"), page.OnScreen("mark").As("mark"),
			page.Called("leave", func(string) page.Next { return w.Leave() }).As("leave"),
		),
		Take:       func(typed string) page.Next { return p.take(w, typed) },
		HelpBegins: leadPlacing,
	}
}

// pick takes a choice, or that it is not known.
func (p *Placement) pick(w *page.Walk, n int) page.Next {
	if n == len(p.Asked.Choices) {
		return p.take(w, "")
	}
	return p.take(w, p.Asked.Choices[n].Typed)
}

// take takes an answer; an empty one is that it is not known.
func (p *Placement) take(w *page.Walk, typed string) page.Next {
	switch {
	case len(p.Asked.Sounds) > 0 && !w.Hears():
		return p.SoundChanged(w)
	case typed == "":
		p.Course.Unknown()
	default:
		if err := p.Course.Answer(typed); err != nil {
			return page.Refused(err)
		}
	}
	return p.next(w)
}

// SoundChanged puts aside what cannot be heard any more.
func (p *Placement) SoundChanged(w *page.Walk) page.Next {
	if len(p.Asked.Sounds) == 0 || w.Hears() {
		return page.Next{}
	}
	next := p.next(w)
	next.Said = putAside
	return next
}
