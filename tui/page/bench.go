package page

import (
	"slices"
	"strconv"

	"sparetone/drills"
	"sparetone/drills/bench"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Bench is the place to try things: fingers are set or a chord is typed, and one sees and hears what it is, which note is
// doubled, and what may come in its place.
type Bench struct {
	Grip bench.Grip
	Hand *Hand
	Swap int // which of the grip's swaps is looked at; -1 for none

	asked bool // what may be typed was said
	voice synth.Voice
	back  func() Place
}

// openBench opens the bench with the plainest shape of C, or of what the tuning has.
func openBench(w *Walk, back func() Place) Next {
	on, err := w.Settings.Instrument()
	if err != nil {
		return refused(err)
	}
	return benchOn(on, bench.NewGrip(on, w.Settings.Key), back)
}

// newBench opens the bench with a voicing of what is practised on.
func newBench(w *Walk, v fret.Voicing, back func() Place) Next {
	on := w.Session.On()
	return benchOn(on, bench.NewGrip(on, w.Settings.Key).Hold(v.Shape).As(v.Chord), back)
}

func benchOn(on *neck.Instrument, g bench.Grip, back func() Place) Next {
	t := &Bench{Hand: newHand(on.Tuning, g.Shape), voice: on.Voices[0], back: back}
	t.Hand.Changed = func(i int) Next {
		t.hold(t.Grip.Hold(t.Hand.Shape))
		return t.Hand.pluck(t.voice, i)
	}
	t.hold(g)
	return Next{To: t}
}

// hold puts the fingers where a grip has them.
func (t *Bench) hold(g bench.Grip) { t.Grip, t.Hand.Shape, t.Swap = g, slices.Clone(g.Shape), -1 }

// moves holds another grip, and plays what is to be heard of it.
func (t *Bench) moves(g bench.Grip, sounds []drills.Sound) Next {
	t.hold(g)
	t.asked = true
	return Next{Anew: true, Voice: t.voice, Sounds: sounds}
}

// look looks at a swap, and plays it after the plain shape.
func (t *Bench) look(n int) Next {
	t.Swap = n
	return Next{Voice: t.voice, Sounds: t.Grip.Compared(n)}
}

// Page implements Place.
func (t *Bench) Page(w *Walk) Page {
	g, looking, heard := t.Grip, t.Swap >= 0, w.hears()
	plays := func(id string, sounds func() []drills.Sound) Act {
		return called(id, func(string) Next { return Next{Voice: t.voice, Sounds: sounds()} }).off(!heard, nothingToHear)
	}
	strum := plays("again", func() []drills.Sound { return g.Played(synth.Strum) }).As("strum")
	take := called("take", func(string) Next {
		t.Hand.At = len(g.Shape) - g.Swaps[t.Swap].String
		taken := g.Swapped(t.Swap)
		return t.moves(taken, taken.Played(synth.Strum))
	}).where(looking)
	swap := called("next", func(string) Next { return t.look((t.Swap + 1) % len(g.Swaps)) }).As("a swap").where(len(g.Swaps) > 0)
	chord := eye("type").on("t A B C D E F G").As("type")
	chord.Shown = "A–G"
	back := leads("back", t.back)
	if g.Before != nil {
		back = back.said("|stop") // the other word is that of what can be taken back
	}
	var acts []Act
	if looking {
		acts = []Act{take, swap.As("next"), back, strum, chord}
	} else {
		acts = []Act{strum, swap, chord, back}
	}
	acts = append(acts,
		plays("both", func() []drills.Sound { return g.Compared(t.Swap) }).off(!looking && g.Before == nil, nothingToHear),
		called("undo", func(string) Next { before := g.Back(); return t.moves(before, before.Played(synth.Strum)) }).where(g.Before != nil),
		plays("picked", func() []drills.Sound { return g.Played(synth.Pick) }),
		plays("apart", func() []drills.Sound { return g.Played(synth.Apart) }),
		called("name", func(string) Next { return t.moves(g.NextName(), nil) }).where(len(g.Names) > 1),
		called("shape", func(string) Next { other := g.NextShape(); return t.moves(other, other.Played(synth.Strum)) }).where(len(g.Names) > 0),
	)
	acts = append(append(acts, w.fingers(drills.Reveal{Voicing: g.Voicing})), handActs()...)
	typed := eye("type").As("type a chord, or frets")
	typed.Aside = true
	title := []Block{Seen{Text: say.Of("Try things"), Tone: Strong}, Seen{Text: howToTry, Tone: Quiet}}
	p := Page{
		Blocks: []Block{
			Field{Label: "A chord or frets: ", Does: "show it", Complete: catalogue.CompleteChord, Else: title},
			Grip{g, t.Hand, t.Swap, w.Fingers, t.look},
		},
		Acts: only(append(acts, typed)...),
		Take: t.take,
		Lead: leadBench,
	}
	if !t.asked {
		p.Ask = leadBench
	}
	return p
}

// take takes what was typed: the number of a swap, which is then taken and heard after the plain shape, a chord or a shape.
func (t *Bench) take(typed string) Next {
	if n, err := strconv.Atoi(typed); err == nil && len(typed) < 3 {
		if n < 1 || n > len(t.Grip.Swaps) {
			return Next{Said: saySwaps(len(t.Grip.Swaps)), Wrong: true}
		}
		taken := t.Grip.Swapped(n - 1)
		return t.moves(taken, taken.Compared(-1))
	}
	g, err := t.Grip.Read(typed)
	if err != nil {
		return misfit(typed, err)
	}
	return t.moves(g, g.Played(synth.Strum))
}
