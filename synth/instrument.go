package synth

import "math"

// instrument is a voice that is modelled: its strings, its body and what it is plucked with. The built-in voices are the
// rows of one table.
type instrument struct {
	name  string // what a person types
	title string // what a person reads

	wires  []wire // from the lowest
	body   body
	touch  touch
	early  early
	course float64 // beats a second between the two strings of a course; 0 if strings are single
}

func (v *instrument) Name() string  { return v.name }
func (v *instrument) Title() string { return v.title }

// early is the first, quick part of a string's decay: it swings towards the top, which the bridge feels
// most, and along it, which the bridge feels little; what swings towards the top dies first (Weinreich,
// "Coupled piano strings", JASA 62(6), 1977).
type early struct {
	part float64 // of the amplitude at the pluck
	rate float64 // how much faster it dies, 1/s
}

// instruments are the built-in voices. Where and how sharply each voice is plucked, and its early decay, are set so that brightness falls as in
// Debian's fluid-soundfont-gm where that has the instrument (nylon), and by comparison with it elsewhere.
var instruments = []*instrument{
	{
		name: "ukulele", title: "ukulele, nylon strings",
		wires: nylonUkulele, body: smallBody,
		touch: touch{position: 0.15, soft: 0.25e-3, hard: 0.05e-3},
	},
	{
		name: "tenor", title: "tenor ukulele, fluorocarbon strings",
		wires: fluorocarbonTenor, body: middleBody,
		touch: touch{position: 0.12, soft: 0.25e-3, hard: 0.05e-3},
	},
	{
		name: "guitar", title: "guitar, nylon strings",
		wires: nylonGuitar, body: largeBody,
		touch: touch{position: 0.15, soft: 0.3e-3, hard: 0.08e-3},
	},
	{
		name: "steel", title: "guitar, steel strings, a pick",
		wires: steelGuitar, body: largeBody,
		touch: touch{position: 0.08, soft: 0.1e-3, hard: 0.04e-3}, early: early{part: 0.5, rate: 5},
	},
	{
		name: "mandolin", title: "mandolin, pairs of steel strings, a pick",
		wires: steelMandolin, body: carvedBody,
		touch: touch{position: 0.09, soft: 0.08e-3, hard: 0.03e-3}, early: early{part: 0.5, rate: 6},
		course: 0.1,
	},
	{
		name: "tone", title: "a plain tone of few partials",
		wires: []wire{{tension: 1, mass: 1e-6, friction: 1e-4, air: 1.6}}, body: noBody,
		touch: touch{position: 0.4, soft: 1, hard: 1}, // as round as may be
	},
}

// decay returns how fast a partial at f Hz of a string that sounds f0 Hz dies away, in 1/s.
func (v *instrument) decay(f, f0 float64) float64 { return v.wires[v.wireFor(f0)].decay(f, f0) }

// wireFor returns the index of the wire a note of f Hz is played on: the highest that reaches down to it.
func (v *instrument) wireFor(f float64) int {
	for i := len(v.wires) - 1; i > 0; i-- {
		if f > v.wires[i].from*0.995 { // another A4 or the two of a course move a note, not its string
			return i
		}
	}
	return 0
}

// left returns how much of a string's amplitude the early decay has left t seconds after the pluck.
func (e early) left(t float64) float64 { return 1 - e.part + e.part*math.Exp(-e.rate*t) }

// loss returns what the early decay leaves of a round trip of so many seconds, t seconds after the pluck.
// Two swings at one pitch add up to one whose loss changes with time, so one loop does for both.
func (e early) loss(t, trip float64) float64 {
	if e.part == 0 {
		return 1
	}
	return e.left(t+trip) / e.left(t)
}

// stringsInCourse returns how many strings are plucked as one: 1 or 2.
func (v *instrument) stringsInCourse() int {
	if v.course == 0 {
		return 1
	}
	return 2
}

// pitch returns the frequency in Hz of string i of a course that sounds f Hz: the two lie evenly about it.
func (v *instrument) pitch(f float64, i int) float64 {
	if v.course == 0 {
		return f
	}
	return f + v.course*(float64(i)-0.5)
}
