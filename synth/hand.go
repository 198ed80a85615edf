package synth

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"sparetone/theory"
)

// Sounding is a string and the pitch it is stopped at.
type Sounding struct {
	String int // the string's number
	Pitch  theory.Pitch
}

// How is a way to play a chord.
type How string

// The ways to play a chord, by the names a person types.
const (
	Block How = "block" // all strings at once
	Strum How = "strum" // a stroke down, from the string nearest the player's chin
	Up    How = "up"    // a stroke up
	Pick  How = "pick"  // string after string in a picking order
	Apart How = "apart" // note after note, rising
)

// ways are the ways to play, plainest first.
var ways = []struct {
	how  How
	play func(Hand, []Sounding) Score
}{
	{Block, Hand.Block},
	{Strum, Hand.Strum},
	{Up, Hand.Up},
	{Pick, Hand.Pick},
	{Apart, Hand.Rising},
}

// Hows returns every way to play, plainest first.
func Hows() (hows []How) {
	for _, w := range ways {
		hows = append(hows, w.how)
	}
	return hows
}

// ParseHow reads the name of a way to play; the error lists the names there are.
func ParseHow(s string) (How, error) {
	if h := How(s); slices.Contains(Hows(), h) {
		return h, nil
	}
	var names []string
	for _, h := range Hows() {
		names = append(names, string(h))
	}
	return "", fmt.Errorf("%q is not a way to play: it is one of %s", s, strings.Join(names, ", "))
}

// Hand plays notes as a player's right hand does. Its zero value plays at 120 plucks a minute, lets the
// last string ring for 3 seconds and never wavers.
//
// Every method takes the notes in tuning order, as a diagram shows the strings from left to right.
type Hand struct {
	Tempo float64       // plucks a minute, where plucks are counted: Pick, Apart; beats a minute for Along; 0 is 120
	Order []int         // string numbers, for Pick; empty is the even order
	Ring  time.Duration // how long the last string plucked rings; 0 is 3 s
	Rand  *rand.Rand    // small differences in time and strength, as a person plays; nil plays evenly
}

// Play plays the notes in the given way, one of Hows.
func (h Hand) Play(how How, notes []Sounding) Score {
	for _, w := range ways {
		if w.how == how {
			return w.play(h, notes)
		}
	}
	panic("synth: " + string(how) + " is not a way to play")
}

// Times and strengths of a hand: common practice, no source.
const (
	ring       = 3 * time.Second
	tempo      = 120.0
	strumStep  = 16 * time.Millisecond  // from string to string in an unhurried stroke
	openStep   = 900 * time.Millisecond // from string to string when a chord is opened up
	waverTime  = 3 * time.Millisecond   // a practised hand is this early or late
	waverForce = 0.06                   // and this much harder or softer
)

// Block plucks all strings at once, as four fingers do.
func (h Hand) Block(notes []Sounding) Score { return h.pluck(notes, 0, 0.75, 0.75) }

// Strum strokes down: in tuning order, each string a little softer than the one before.
func (h Hand) Strum(notes []Sounding) Score { return h.pluck(notes, strumStep, 0.8, 0.68) }

// Up strokes up: against the tuning order, lighter than down.
func (h Hand) Up(notes []Sounding) Score {
	return h.pluck(backwards(notes), strumStep*3/4, 0.72, 0.55)
}

// OpenUp plucks string by string in tuning order, slowly, each ringing on, so that a chord is heard as
// what it is made of.
func (h Hand) OpenUp(notes []Sounding) Score { return h.pluck(notes, openStep, 0.75, 0.75) }

// Rising plucks the notes one after another from low to high, each stopped as the next begins.
func (h Hand) Rising(notes []Sounding) Score {
	return h.apart(slices.SortedStableFunc(slices.Values(notes), byPitch))
}

// Falling plucks the notes one after another from high to low, each stopped as the next begins.
func (h Hand) Falling(notes []Sounding) Score {
	return h.apart(backwards(slices.SortedStableFunc(slices.Values(notes), byPitch)))
}

// Pick plucks the strings in the hand's order, each ringing until it is plucked again. Numbers of
// strings that do not sound are passed over; a hand without an order has the even one.
func (h Hand) Pick(notes []Sounding) Score {
	order := h.Order
	if len(order) == 0 {
		order = EvenOrder(notes)
	}
	var picked []Sounding
	for _, number := range order {
		for _, n := range notes {
			if n.String == number {
				picked = append(picked, n)
			}
		}
	}
	return h.pluck(picked, h.beat(), 0.75, 0.75)
}

// EvenOrder returns an order that takes every string once, thumb and index in turn: 4 2 3 1 on four
// strings, and so on for others (common practice, no source).
func EvenOrder(notes []Sounding) []int {
	order := make([]int, 0, len(notes))
	half := (len(notes) + 1) / 2
	for i := range half {
		order = append(order, notes[i].String)
		if i+half < len(notes) {
			order = append(order, notes[i+half].String)
		}
	}
	return order
}

// pluck plucks notes a step apart, from one strength to another.
func (h Hand) pluck(notes []Sounding, step time.Duration, first, last float64) Score {
	var s Score
	for i, n := range notes {
		force := first
		if len(notes) > 1 {
			force += (last - first) * float64(i) / float64(len(notes)-1)
		}
		s.Plucks = append(s.Plucks, h.waver(Pluck{
			String: n.String, Pitch: n.Pitch, At: time.Duration(i) * step, Strength: force,
		}))
	}
	if len(notes) > 0 {
		s.Length = time.Duration(len(notes)-1)*step + cmp.Or(h.Ring, ring)
	}
	return s
}

// apart plucks notes a beat apart, each stopped as the next begins.
func (h Hand) apart(notes []Sounding) Score {
	s := h.pluck(notes, h.beat(), 0.75, 0.75)
	for i := range s.Plucks[:max(0, len(s.Plucks)-1)] {
		s.Plucks[i].Damp = s.Plucks[i+1].At - s.Plucks[i].At
	}
	return s
}

// waver makes a pluck a little early or late, harder or softer. What it draws does not depend on the
// note, so it gives nothing away.
func (h Hand) waver(p Pluck) Pluck {
	if h.Rand == nil {
		return p
	}
	late, harder := h.Rand.Float64(), 2*h.Rand.Float64()-1
	p.At += time.Duration(late * float64(waverTime))
	p.Strength = min(1, p.Strength*(1+waverForce*harder))
	return p
}

// beat is the time from pluck to pluck.
func (h Hand) beat() time.Duration {
	return time.Duration(float64(time.Minute) / cmp.Or(h.Tempo, tempo))
}

func byPitch(a, b Sounding) int { return cmp.Compare(a.Pitch.MIDI(), b.Pitch.MIDI()) }

func backwards(notes []Sounding) []Sounding {
	back := slices.Clone(notes)
	slices.Reverse(back)
	return back
}
