package page

import (
	"slices"

	"sparetone/drills"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// Hand is fingers on a neck, which the screen sets with arrows, digits and the mouse; in lines of text frets are typed.
type Hand struct {
	Tuning  *fret.Tuning
	Shape   fret.Shape
	At      int  // index in Shape of the string that a finger is on
	Touched bool // a string was set, even to what it was before

	Changed func(string int) Next // is called when a string, by its index in Shape, has another fret
}

// NewHand is a hand on a shape, or on open strings if there is none.
func NewHand(t *fret.Tuning, from fret.Shape) *Hand {
	h := &Hand{Tuning: t, Shape: slices.Clone(from)}
	if len(h.Shape) != len(t.Strings) {
		h.Shape = make(fret.Shape, len(t.Strings))
	}
	return h
}

// Along goes some strings on, round the neck.
func (h *Hand) Along(by int) { h.At = (h.At + by + len(h.Shape)) % len(h.Shape) }

// Up moves the finger towards the nut, and beyond the open string to mute it.
func (h *Hand) Up() Next {
	n := h.Shape[h.At]
	if n == h.Tuning.Start(h.At)+1 {
		n = 1
	}
	return h.set(max(fret.Muted, n-1))
}

// Down moves the finger towards the body.
func (h *Hand) Down() Next {
	n := h.Shape[h.At]
	if n == 0 {
		n = h.Tuning.Start(h.At)
	}
	return h.set(min(h.Tuning.Frets, n+1))
}

// Put stops the string at a fret, opens it with 0 or mutes it, and goes on to the next one.
func (h *Hand) Put(n int) Next {
	if n > 0 && n <= h.Tuning.Start(h.At) || n > h.Tuning.Frets {
		return Next{Said: noSuchFret}
	}
	at := h.At
	next := h.set(n)
	h.At = at
	h.Along(1)
	return next
}

// Point puts a finger where it was pointed at, or takes it away there: string is the number of the string.
func (h *Hand) Point(string, n int) Next {
	h.At = len(h.Shape) - string
	switch was := h.Shape[h.At]; {
	case was != n:
	case was == 0:
		n = fret.Muted
	default:
		n = 0
	}
	return h.set(n)
}

func (h *Hand) set(to int) Next {
	was, at := h.Shape[h.At], h.At
	h.Shape[at], h.Touched = to, true
	if was == to {
		return Next{}
	}
	return h.Changed(at)
}

// Pluck is the sound of one string as it is stopped now.
func (h *Hand) Pluck(v synth.Voice, i int) Next {
	if h.Shape[i] == fret.Muted {
		return Next{}
	}
	note := synth.Sounding{String: h.Tuning.StringNumber(i), Pitch: h.Tuning.Pitch(i, h.Shape[i])}
	return Next{Voice: v, Sounds: []drills.Sound{{Notes: []synth.Sounding{note}, Score: synth.Hand{}.Block([]synth.Sounding{note})}}}
}

// HandActs are the ways to set fingers.
func HandActs() []Act { return []Act{OnScreen("move"), OnScreen("fret"), OnScreen("mute")} }
