package practice

import (
	"math"
	"slices"

	"sparetone/synth/hear"
	"sparetone/theory/say"
)

// off is by how much an instrument that is in tune with itself is off as a whole. An instrument may be in tune with itself and yet off as a whole. How far is found by the tuner, and by what is played right; it is
// followed in all that is heard for as long as the program runs, and said once. Without that an instrument half a semitone off would be
// heard a semitone off now and then.
type off struct {
	a4     float64   // Hz, that the settings had then; where they have another one now, nothing is known
	cents  float64   // above it
	latest []float64 // of the latest strokes
	said   bool      // it was said
}

const (
	offStrokes = 3    // strokes that have to agree; so many are kept (from judgement)
	offAgree   = 12.0 // cents within which they do
	offSaid    = 10.0 // cents from which on it is said: nobody minds less
	mostOff    = 50.0 // cents; what is further off is another pitch
)

// HeardA4 returns what A4 is taken to be on the student's instrument, in Hz.
func (p *App) HeardA4() float64 {
	if p.off.a4 != p.Settings.A4 {
		return p.Settings.A4
	}
	return p.Settings.A4 * math.Exp2(p.off.cents/1200)
}

// SetOff has the instrument be followed that the tuner found to be so many cents off as a whole.
func (p *App) SetOff(cents float64) {
	if p.off.a4 != p.Settings.A4 || p.off.cents != cents {
		p.off = off{a4: p.Settings.A4, cents: max(-mostOff, min(mostOff, cents))}
	}
}

// heardOff follows an instrument by a stroke that was read right, heard for an A4 in Hz.
func (p *App) heardOff(r hear.Reading, a4 float64) {
	if r.Verdict != hear.Right {
		return
	}
	if p.off.a4 != p.Settings.A4 {
		p.off = off{a4: p.Settings.A4}
	}
	o := &p.off
	o.latest = append(o.latest, r.Cents+1200*math.Log2(a4/o.a4))
	if o.latest = o.latest[max(0, len(o.latest)-offStrokes):]; len(o.latest) < offStrokes {
		return
	}
	sorted := slices.Sorted(slices.Values(o.latest))
	if sorted[len(sorted)-1]-sorted[0] <= offAgree && math.Abs(sorted[len(sorted)/2]) <= mostOff {
		o.cents = sorted[len(sorted)/2]
	}
}

// SayOff says once that the instrument is off as a whole; it is zero if it is not, or that was said.
func (p *App) SayOff() say.Text {
	if p.off.said || p.off.a4 != p.Settings.A4 || math.Abs(p.off.cents) < offSaid {
		return say.Text{}
	}
	p.off.said = true
	return say.Of("Your instrument is {} as a whole. It is heard as it is.", cents(p.off.cents))
}
