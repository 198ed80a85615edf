// Package trying is the bench, where nothing is asked: one sees and hears what a chord or shape is, and what may come in its place.
package trying

import (
	"slices"
	"strconv"

	"sparetone/drills"
	"sparetone/drills/bench"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/tui/page"
)

// Bench is the place to try things: fingers are set or a chord is typed, and one sees and hears what it is, which note is
// doubled, and what may come in its place.
type Bench struct {
	Grip bench.Grip
	Hand *page.Hand
	Swap int // which of the grip's swaps is looked at; -1 for none

	asked bool // in lines it was said what may be typed
	voice synth.Voice
	back  func() page.Place
}

// Open opens the bench with the plainest shape of C, or of what the tuning has.
func Open(w *page.Walk, back func() page.Place) page.Next {
	on, err := w.Settings.Instrument()
	if err != nil {
		return page.Refused(err)
	}
	return benchOn(on, bench.NewGrip(on, w.Settings.Key), back)
}

// OpenAt opens the bench with a voicing of what is practised on.
func OpenAt(w *page.Walk, v fret.Voicing, back func() page.Place) page.Next {
	on := w.Session.On()
	return benchOn(on, bench.NewGrip(on, w.Settings.Key).Hold(v.Shape).As(v.Chord), back)
}

func benchOn(on *neck.Instrument, g bench.Grip, back func() page.Place) page.Next {
	t := &Bench{Hand: page.NewHand(on.Tuning, g.Shape), voice: on.Voices[0], back: back}
	t.Hand.Changed = func(i int) page.Next {
		t.hold(t.Grip.Hold(t.Hand.Shape))
		return t.Hand.Pluck(t.voice, i)
	}
	t.hold(g)
	return page.Next{To: t}
}

// hold puts the fingers where a grip has them.
func (t *Bench) hold(g bench.Grip) { t.Grip, t.Hand.Shape, t.Swap = g, slices.Clone(g.Shape), -1 }

// moves holds another grip, and plays what is to be heard of it.
func (t *Bench) moves(g bench.Grip, sounds []drills.Sound) page.Next {
	t.hold(g)
	t.asked = true
	return page.Next{NewPage: true, Voice: t.voice, Sounds: sounds}
}

// look looks at a swap, and plays it after the plain shape.
func (t *Bench) look(n int) page.Next {
	t.Swap = n
	return page.Next{Voice: t.voice, Sounds: t.Grip.Compared(n)}
}

// Page implements Place.
func (t *Bench) Page(w *page.Walk) page.Page {
	g, looking, heard := t.Grip, t.Swap >= 0, w.MayHear()
	plays := func(id string, sounds func() []drills.Sound) page.Act {
		return page.Called(id, func(string) page.Next { return page.Next{Voice: t.voice, Sounds: sounds()} }).OffIf(!heard, page.NothingToHear)
	}
	strum := plays("again", func() []drills.Sound { return g.Played(synth.Strum) }).As("strum")
	take := page.Called("take", func(string) page.Next {
		t.Hand.At = len(g.Shape) - g.Swaps[t.Swap].String
		taken := g.Swapped(t.Swap)
		return t.moves(taken, taken.Played(synth.Strum))
	}).If(looking)
	swap := page.Called("next", func(string) page.Next { return t.look((t.Swap + 1) % len(g.Swaps)) }).As("a swap").If(len(g.Swaps) > 0)
	chord := page.OnScreen("type").On("t A B C D E F G").As("type")
	chord.KeyName = "A–G"
	back := page.Leads("back", t.back)
	if g.Before != nil {
		back.Words = "|stop" // the other word is that of what can be taken back
	}
	var acts []page.Act
	if looking {
		acts = []page.Act{take, swap.As("next"), back, strum, chord}
	} else {
		acts = []page.Act{strum, swap, chord, back}
	}
	acts = append(acts,
		plays("both", func() []drills.Sound { return g.Compared(t.Swap) }).OffIf(!looking && g.Before == nil, page.NothingToHear),
		page.Called("undo", func(string) page.Next { before := g.Back(); return t.moves(before, before.Played(synth.Strum)) }).If(g.Before != nil),
		plays("picked", func() []drills.Sound { return g.Played(synth.Pick) }),
		plays("apart", func() []drills.Sound { return g.Played(synth.Apart) }),
		page.Called("name", func(string) page.Next { return t.moves(g.NextName(), nil) }).If(len(g.Names) > 1),
		page.Called("shape", func(string) page.Next { other := g.NextShape(); return t.moves(other, other.Played(synth.Strum)) }).If(len(g.Names) > 0),
	)
	acts = append(append(acts, w.TellsFingers(drills.Reveal{Voicing: g.Voicing})), page.HandActs()...)
	typed := page.OnScreen("type").As("type a chord, or frets")
	typed.HelpOnly = true
	title := []page.Block{page.Title(titleBench), page.Seen{Text: howToTry, Tone: page.Quiet}}
	p := page.Page{
		Blocks: []page.Block{
			page.Field{Label: "A chord or frets: ", Does: "show it", Complete: catalogue.CompleteChord, WhileClosed: title},
			page.Grip{Grip: g, Hand: t.Hand, Swap: t.Swap, Fingers: w.Fingers, Look: t.look},
		},
		Acts:       page.Only(append(acts, typed)...),
		Take:       t.take,
		HelpBegins: leadBench,
	}
	if !t.asked {
		p.Ask = leadBench
	}
	return p
}

// take takes what was typed: the number of a swap, which is then taken and heard after the plain shape, a chord or a shape.
func (t *Bench) take(typed string) page.Next {
	if n, err := strconv.Atoi(typed); err == nil && len(typed) < 3 {
		if n < 1 || n > len(t.Grip.Swaps) {
			return page.Next{Said: saySwaps(len(t.Grip.Swaps)), Wrong: true}
		}
		taken := t.Grip.Swapped(n - 1)
		return t.moves(taken, taken.Compared(-1))
	}
	g, err := t.Grip.Read(typed)
	if err != nil {
		return page.Misfit(typed, err)
	}
	return t.moves(g, g.Played(synth.Strum))
}
