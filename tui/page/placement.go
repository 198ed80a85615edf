package page

import (
	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/theory/say"
)

// Placement finds out what is known: questions one after the other, with no word on whether an answer was right. What they
// come to is said at their end.
type Placement struct {
	Course *course.Placement
	Asked  *drills.Question
	mark   int
	back   func(found *course.Placement) Next // found is nil if it was stopped
}

// newPlacement begins a placement. If there is none it says why.
func newPlacement(w *Walk, back func(found *course.Placement) Next) Next {
	c, err := w.NewPlacement()
	if err != nil {
		return refused(err)
	}
	p := &Placement{Course: c, back: back}
	return p.next(w)
}

// next asks the next question, or goes back with what was found.
func (p *Placement) next(w *Walk) Next {
	p.Course.SetSilent(!w.Hears())
	if p.Asked = p.Course.Next(); p.Asked == nil {
		return p.back(p.Course)
	}
	p.mark = len(p.Asked.Choices) // it is not known
	return Next{To: p, Hush: true, Anew: true, Voice: p.Asked.Voice, Sounds: p.Asked.Sounds}
}

// Page implements Place.
func (p *Placement) Page(w *Walk) Page {
	q := p.Asked
	list := Choice{Mark: &p.mark, Answers: true, Aloft: true, Pick: func(n int) Next { return p.pick(w, n) }}
	for _, c := range q.Choices {
		list.Lines = append(list.Lines, Line{Text: c.Said})
	}
	list.Lines = append(numbered(list.Lines), Line{Key: "0", Text: say.Of(drills.Unknown)})
	n := p.Course.Asked() + 1
	blocks := []Block{Seen{Text: say.Of("Finding out: question {}", say.Number(n)), Tone: Quiet}, Gap{Roomy: true}}
	blocks = append(blocks, Seen{Text: q.Prompt, Tone: Strong}, Aloud(say.Of("Finding out, question {}. {}", say.Number(n), q.Prompt)), Gap{})
	blocks = append(append(blocks, w.picture(q)...), list)
	if n == 1 {
		blocks = append([]Block{Aloud(howToPlace)}, blocks...)
	}
	again, _, _, _ := sounding(q.Voice, q.Sounds, func(bool) {})
	pass := called("pass", func(string) Next { return p.pick(w, len(q.Choices)) }).on("0 d").As(drills.Unknown)
	pass.Words, pass.Says = "|0|"+drills.Unknown, " says that you do not know"
	back := called("back", func(string) Next { return p.back(nil) }).on("esc backspace")
	back.Words, back.Says = "stop", " goes back"
	return Page{
		Blocks: blocks,
		Acts: only(
			numbers(len(q.Choices)), again.where(len(q.Sounds) > 0), pass, back,
			called("answer", func(string) Next { return list.Pick(p.mark) }).As("answer as marked"), eye("mark").As("mark"),
			called("leave", func(string) Next { return w.Leave() }).As("leave"),
		),
		Take: func(typed string) Next { return p.take(w, typed) },
		Lead: leadPlacing,
	}
}

// pick takes a choice, or that it is not known.
func (p *Placement) pick(w *Walk, n int) Next {
	if n == len(p.Asked.Choices) {
		return p.take(w, "")
	}
	return p.take(w, p.Asked.Choices[n].Typed)
}

// take takes an answer; an empty one is that it is not known.
func (p *Placement) take(w *Walk, typed string) Next {
	switch {
	case len(p.Asked.Sounds) > 0 && !w.Hears():
		return p.soundChanged(w)
	case typed == "":
		p.Course.Unknown()
	default:
		if err := p.Course.Answer(typed); err != nil {
			return refused(err)
		}
	}
	return p.next(w)
}

// soundChanged puts aside what cannot be heard any more.
func (p *Placement) soundChanged(w *Walk) Next {
	if len(p.Asked.Sounds) == 0 || w.Hears() {
		return Next{}
	}
	next := p.next(w)
	next.Said = putAside
	return next
}
