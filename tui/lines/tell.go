package lines

import (
	"fmt"

	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/draw"
	"sparetone/tui/page"
	"sparetone/tui/page/home"
)

// tell prints sentences as they are said aloud, a line each.
func (t *reader) tell(texts ...say.Text) {
	for _, text := range texts {
		if !text.IsZero() {
			t.say(text.Aloud())
		}
	}
}

// page says a page, and what may be typed. One that waits for sound is said when there is some.
func (t *reader) page(p page.Page) {
	if _, first := t.place.(*home.Welcome); !first && !t.Cautioned {
		t.Caution()
		t.say(practice.Cautions)
	}
	if p.Waits {
		t.waited = true
		t.say("Waiting for sound. " + page.HelpWaiting)
		return
	}
	if t.waited {
		t.waited = false
		t.say("There is sound.")
	}
	t.listed = 0
	for _, b := range p.Blocks {
		t.block(b)
	}
	if ask := t.ask(p); p.Ask != "" {
		t.say(ask)
	}
}

// block says a block of a page.
func (t *reader) block(block page.Block) {
	switch block := block.(type) {
	case page.Sentence:
		t.tell(block.Text)
	case page.Aloud:
		t.tell(say.Text(block))
	case page.Weeks:
		t.tell(practice.DaysInWords(block))
	case page.Neck:
		t.tell(draw.Neck(block).Words()...)
	case page.Outcome:
		t.tell(block.Text)
	case page.Shapes:
		for _, s := range block.Asked {
			t.tell(say.Sentence("{}:", s.Caption))
			t.tell(draw.Neck{Voicing: s.Voicing, Named: true, Fingers: block.Fingers}.Words()...)
		}
		if !block.Unsaid {
			t.tell(block.Lines...)
		}
	case page.Curve:
		t.tell(practice.Curve(block).ByWeek())
	case page.KindMap:
		t.tell(practice.KindMap(block).Words()...)
	case page.Takeaway:
		t.tell(say.Of("Today's chord: {}.", say.Chord(block.Chord())))
		t.tell(block.Told()...)
	case page.Summary:
		t.tell(practice.Summary(block).Lines()...)
	case page.Choice:
		most := len(block.Lines)
		if block.SaidFirst > 0 {
			most = min(most, block.SaidFirst)
		}
		t.list(block, most)
	case page.Chart:
		t.block(block.Pairs)
	case page.Field:
		for _, b := range append(block.WhileOpen, block.WhileClosed...) {
			t.block(b)
		}
	case page.Grip:
		t.grip(block)
	}
}

// list says the lines of a choice that were not yet said, up to one.
func (t *reader) list(c page.Choice, to int) {
	for ; t.listed < to; t.listed++ {
		text := c.Lines[t.listed].Text
		if c.Aloud != nil {
			text = c.Aloud(t.listed)
		}
		switch {
		case text.IsZero():
		case c.Turn != nil: // it is changed by its name
			t.tell(text)
		default:
			t.tell(say.Of("{}: {}", say.Number(t.listed+1), text))
		}
	}
}

// choice is the list of a page; it has no lines if there is none.
func choice(p page.Page) page.Choice {
	for _, b := range p.Blocks {
		switch b := b.(type) {
		case page.Choice:
			return b
		case page.Chart:
			return b.Pairs
		}
	}
	return page.Choice{}
}

// grip says what is on the bench.
func (t *reader) grip(g page.Grip) {
	t.tell(say.Of("Frets {}.", say.Shape(g.Shape)))
	t.tell(g.Told()...)
	t.tell(draw.Neck{Voicing: g.Voicing, Named: len(g.Names) > 0, Fingers: g.Fingers}.Words()...)
	for i, s := range g.Swaps {
		t.tell(say.Of("Swap {}: the {} gives {}, {}.", say.Number(i+1), say.Move(g.Tuning, s), say.Chord(s.Chord), g.SwapAdds(i)))
	}
}

// ask is what may be typed at a place.
func (t *reader) ask(p page.Page) string {
	words, back := p.Ask, p.EmptyLine()
	if rest := len(choice(p).Lines) - t.listed; rest > 0 && t.listed > 0 {
		words += fmt.Sprintf(" more says the other %d.", rest)
	}
	switch {
	case words == "":
		return "An empty line" + back.Says + "; help says what else there is."
	case back.ID == "back":
		words += " An empty line" + back.Says + "."
	}
	return words
}
