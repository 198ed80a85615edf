package hear

import (
	"math"
	"slices"

	"sparetone/synth/hear/net"
	"sparetone/theory"
)

// What an instrument cannot have sounded says nothing about its player. A piano in the next room is read as strings too; but between what is
// read other notes stand, or some of it sounded before, or no hand holds it:
//
//	read       │     │  │     │       G4 C5 E5 with their partials
//	sounds   ▂ █   ▄ █  █   ▄ █       what stands at none of them is foreign
//
// Chosen on the font fluid by seed 7 and on invented music by seed 31: TestStudyOfNothing, TestStudyOfStrumming.
const (
	foreignPart  = 0.02   // of the power of all that stands out, that stands at no partial of what was read, at the most
	foreignDown  = 30.0   // dB below the strongest down to which something stands out
	foreignTo    = 3000.0 // Hz up to which it is looked at: higher partials of stiff strings stray
	foreignWide  = 35.0   // cents within which a partial lies of where it should
	foreignUp    = 14     // partials of a pitch
	foreignTurn  = 0.2    // the same of strings plucked in turn
	moreMost     = 1      // plucks that are more than there are strings, at the most
	extraMost    = 4.0    // odds from which on all pitches that sound and were not read, their logarithms added, are too much
	struckBy     = 1.5    // strength of a string's partial after the stroke over that before, at the least, of one partial
	struckWindow = 0.12   // seconds over which that is measured
	leadsBy      = 0.2    // strength of a partial over the strongest of a pitch, at the least, to count
	strayMost    = 2      // strings that sound what they should not by faults of fingers at the most; more only in a shape that is known
	diesBy       = 0.05   // strength of a string's partial a while after its pluck over that at it, at the least, of one partial
)

// foreign reports whether more sounds in a spectrum than the strings of a reading.
func (r Reading) foreign(a4, part float64, s net.Spectrum) bool {
	var all, beside float64
	for _, peak := range s.Peaks(net.LowestHz, foreignTo, foreignDown) {
		all += peak.Power
		if !slices.ContainsFunc(r.Strings, func(h Heard) bool { return h.Pitch != Silent && isPartial(peak.Hz, frequency(h.Pitch, a4, r.Cents)) }) {
			beside += peak.Power
		}
	}
	return beside > part*all
}

// isPartial reports whether something lies where a partial of a pitch does, both in Hz.
func isPartial(hz, of float64) bool {
	n := math.Round(hz / of)
	return n >= 1 && n <= foreignUp && math.Abs(1200*math.Log2(hz/(n*of))) < foreignWide
}

// frequency returns that of a pitch, in Hz, on an instrument that is so many cents off.
func frequency(pitch int, a4, cents float64) float64 {
	return theory.MIDIFrequency(pitch, a4) * math.Exp2(cents/1200)
}

// extra reports whether pitches sound that are not in a reading, given the odds of each.
func (r Reading) extra(odds map[int]float64) bool {
	var sum float64
	for p, o := range odds {
		if o > soundsAt && !slices.ContainsFunc(r.Strings, func(h Heard) bool { return h.Pitch == p }) {
			sum += o
		}
	}
	return sum >= extraMost
}

// fits reports whether a reading is a shape that is known, or the one that is expected with few faults.
func (r Reading) fits() bool {
	off := 0
	for _, h := range r.Strings {
		if h.Pitch != h.Expected {
			off++
		}
	}
	return r.Among >= 0 || off <= strayMost
}

// allStruck reports whether every string that is read began at a time, or grew louder then, as what rings on or is held does not.
func (l *Listener) allStruck(at float64, r Reading) bool {
	for _, h := range r.Strings {
		if h.Pitch == Silent {
			continue
		}
		struck := false
		for _, hz := range l.leading(at, frequency(h.Pitch, l.task.a4(), r.Cents)) {
			struck = struck || l.struckWith(at, hz) > struckBy*l.amplitude(at-0.01-struckWindow, at-0.01, hz)
		}
		if !struck {
			return false
		}
	}
	return true
}

// doubtStroke takes back what is said of a stroke that the instrument cannot have sounded, or not by itself, and marks it as foreign.
func (l *Listener) doubtStroke(r *Reading, at float64, odds map[int]float64, s net.Spectrum) {
	r.Foreign = r.foreign(l.task.a4(), foreignPart, s) || r.extra(odds) || l.task.Expect != nil && !r.fits() || !l.allStruck(at, *r)
	if r.Foreign {
		r.Verdict = Unsure
	}
}

// doubtTurn takes back what is said of strings plucked in turn, if more was plucked than there are strings, or more sounds than they.
func (l *Listener) doubtTurn(r *Reading, onsets []onset, p plucked) {
	plucks := 0
	for k, o := range onsets {
		if p.most[k] > soundsAt && o.strength >= strong {
			plucks++
			r.Foreign = r.Foreign || r.foreign(l.task.a4(), foreignTurn, p.spectra[k])
		}
	}
	r.Foreign = r.Foreign || plucks > len(l.task.Order)+moreMost
	if r.Foreign {
		r.Verdict = Unsure
	}
}

// rangOn reports whether a pitch that was plucked at a time still sounds a while later, as no knock does.
func (l *Listener) rangOn(at, hz float64) bool {
	for _, partial := range l.leading(at, hz) {
		if l.amplitude(at+0.3, at+0.5, partial) > diesBy*l.struckWith(at, partial) {
			return true
		}
	}
	return false
}

// struckWith returns how strong a frequency in Hz is as a stroke at a time begins; a string may be struck some hundredths of a second after the first.
func (l *Listener) struckWith(at, hz float64) float64 {
	return max(l.amplitude(at+0.02, at+0.02+struckWindow, hz), l.amplitude(at+0.06, at+0.06+struckWindow, hz))
}

// leading returns which of the lowest partials of a pitch are strong as a stroke at a time begins, all in Hz: weaker ones are as likely noise.
func (l *Listener) leading(at, hz float64) (out []float64) {
	var strengths [partialsSeen]float64
	for n := range strengths {
		strengths[n] = l.struckWith(at, float64(n+1)*hz)
	}
	for n, strength := range strengths {
		if strength >= leadsBy*slices.Max(strengths[:]) {
			out = append(out, float64(n+1)*hz)
		}
	}
	return out
}
