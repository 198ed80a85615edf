package synth

import (
	"math"
	"math/cmplx"
)

// Two strings at one pitch.
//
// On an instrument they are never quite alike: they are some tenths of a cent apart, are plucked a moment apart and
// swing in two directions each, and the bridge that both move couples them. So a partial in which they begin
// against each other does not stay silent: its swing goes over into one that the bridge does feel, and what is heard
// is stronger than one string and weaker than two that were one (Weinreich, "Coupled piano strings", Journal of the
// Acoustical Society of America 62(6), 1977). A string that is still takes up the swing of its neighbour.
//
// Two loops of delay at one pitch are exactly alike and nothing couples them. Plucked τ seconds apart they add up to
// 2·cos(πfτ) of one at each partial f for as long as they ring, and a chord's doubled note may all but lack its
// fundamental. To set them apart in pitch would have them beat, slowly, and out of tune. So:
//
//   - The later pluck is moved to where its partials add to the first string's best, by half a period or a millisecond
//     at most (2 ms at C4): plucked in one stroke, all of them then swing alike, and stay so.
//   - The later string is plucked with laterGain, so that both together are stronger than either by about 4 dB, where
//     two that were one would be by 6. Where the first has died away meanwhile, or has partials that drifted out of
//     phase, the later one is plucked harder, until both together are takenUp of either alone. On an instrument less
//     is taken up; here it is as much as it takes for a doubled note to be told from a single one.
//
// A string that was slurred begins its periods nowhere in particular, and makes no pair.

const (
	laterGain = 0.6   // of the later string, where both are plucked in one stroke
	takenUp   = 1.38  // what both are made to be at least in each partial, against either alone: 2.8 dB more, of which some is lost in estimating
	hardest   = 1.6   // the highest gain that a later string is plucked with
	watched   = 6     // partials of a note that are made sure of
	unheard   = 0.001 // of the strongest of them: what is weaker is not looked at
	together  = 100e6 // ns that two strings go on to ring together, or they make no pair: a hand may be about to still one
	moveable  = 1e6   // ns that a pluck may be moved even if a period is shorter
	instants  = 10    // of the second after the later pluck, at which the partials of both are compared
)

// phasors are the strengths and phases of a note's first partials.
type phasors [watched]complex128

// pair tells how a string is plucked that sounds f Hz, about sample at, where others, single or in courses, may sound
// that pitch already: when, and how much stronger than alone.
func (v *instrument) pair(others [][]*vibrating, f float64, at int, strength float64) (when int, gain float64) {
	var first phasors // of all others together
	alone := true
	for _, course := range others {
		if course[0].pitch != f || course[0].end-at < SampleRate.N(together) {
			continue
		}
		alone = false
		first = first.and(v.over(course, f, at))
	}
	if alone {
		return at, 1
	}
	var course []*vibrating
	for i := range v.stringsInCourse() {
		course = append(course, v.newVibrating(f, i, at, strength, nil))
	}
	later := v.over(course, f, at)
	by := bestMove(first, later, f)
	first = first.after(by, f)
	gain = laterGain
	for gain < hardest && worst(first, later, gain) < takenUp {
		gain += 0.01
	}
	return max(0, at+by), gain
}

// over returns the partials of a course that sounds f Hz, or of a single string, over the second from sample at on, as
// they stand at that sample.
func (v *instrument) over(course []*vibrating, f float64, at int) (sum phasors) {
	plucked := v.pluckedPartials(f, course[0].strength)
	for n, s := range course {
		own := v.pitch(f, n)
		since := float64(at-s.start) / float64(SampleRate)
		for k := range sum {
			turn := 2 * math.Pi * float64(k+1)
			// A partial of a loop is a little beside its place: a round trip leaves some phase besides what it takes away.
			trip := cmplx.Log(s.stops[0].trip.response(turn * own / float64(SampleRate)))
			var all complex128
			for i := range instants {
				t := float64(i) / instants
				phase := turn * (own*since + (own-f)*t)
				all += cmplx.Exp(complex(0, phase)+trip*complex(own*(since+t), 0)) * complex(v.early.left(since+t), 0)
			}
			sum[k] += all * plucked[k] * complex(s.gain, 0)
		}
	}
	return sum
}

// pluckedPartials returns the partials of a string that sounds f Hz at the moment it is plucked.
func (v *instrument) pluckedPartials(f, strength float64) (p phasors) {
	x := v.released(f, strength, 1)
	for k := range p {
		partial := float64(k+1) * f
		turn := cmplx.Rect(1, -2*math.Pi*partial/float64(SampleRate))
		at := complex(v.body.gain(partial), 0)
		for _, y := range x {
			p[k] += complex(y, 0) * at
			at *= turn
		}
	}
	return p
}

// and returns two sets of partials together.
func (p phasors) and(q phasors) phasors {
	for k := range p {
		p[k] += q[k]
	}
	return p
}

// after returns the partials of f Hz so many samples later.
func (p phasors) after(samples int, f float64) phasors {
	for k := range p {
		p[k] *= cmplx.Rect(1, 2*math.Pi*float64(k+1)*f*float64(samples)/float64(SampleRate))
	}
	return p
}

// worst returns how strong the later string, times gain, and the first are together against the stronger of the two
// alone, in the partial in which that is least.
func worst(first, later phasors, gain float64) float64 {
	strongest := 0.0
	for k := range first {
		strongest = max(strongest, cmplx.Abs(first[k]), cmplx.Abs(later[k]))
	}
	least := math.Inf(1)
	for k := range first {
		if stronger := max(cmplx.Abs(first[k]), cmplx.Abs(later[k])); stronger > unheard*strongest {
			least = min(least, cmplx.Abs(first[k]+complex(gain, 0)*later[k])/stronger)
		}
	}
	return least
}

// bestMove returns by how many samples the later pluck is best moved.
func bestMove(first, later phasors, f float64) (by int) {
	reach := max(int(float64(SampleRate)/f/2), SampleRate.N(moveable))
	most := worst(first, later, laterGain)
	for n := 1; n <= reach; n++ {
		for _, d := range []int{n, -n} {
			if w := worst(first.after(d, f), later, laterGain); w > most {
				by, most = d, w
			}
		}
	}
	return by
}
