package hear

import (
	"math"
	"math/cmplx"

	"sparetone/synth/hear/net"
	"sparetone/theory"
)

// What a pluck that is read by itself has to do, so that nothing that is said or knocked is one (from judgement, see its tests).
const (
	steadyFrom     = 0.08 // seconds after it began, from when
	steadyTo       = 0.48 // and to when its partials keep their frequencies
	steadyPart     = 0.85 // of how strong a partial is in the halves of that time, what it is in the whole: what glides comes to less
	steadyRise     = 1.05 // times as strong in the second half as in the first, at the most
	steadyFall     = 0.2  // and at the least
	steadyPartials = 2    // so many do
	partialsSeen   = 4    // of so many
)

// readPluck reads the first of the plucks that are read each by itself, and returns how many onsets are done with: none if it is not whole
// yet. The reading has no strings if no pitch was heard for certain.
func (l *Listener) readPluck(end bool) (Reading, int) {
	at := l.pending[0].at
	if !end && l.now() < at+net.PluckTime+aheadTime+frameTime {
		return Reading{}, 0
	}
	used := 1
	for used < len(l.pending) && l.pending[used].at < at+sameTime && l.pending[used].strength < strong {
		used++
	}
	p := l.plucks(l.pending)
	t := &tally{strings: []map[int]float64{{Silent: math.Exp(-costSilent - costUnfound)}}, notes: map[int]float64{}}
	for pitch, odds := range p.odds[0] {
		t.strings[0][pitch] = math.Exp(odds)
	}
	for pitch, v := range t.strings[0] {
		t.all += v
		t.notes[pitch] = v
	}
	r := l.reading(at, p.cents, p.spectra[:1], t)
	if h := r.Strings[0]; h.Pitch == Silent || !h.Certain() || !l.steady(at+steadyFrom, at+steadyTo, steadyRise, theory.MIDIFrequency(h.Pitch, l.task.a4())*math.Exp2(p.cents/1200), p.spectra[0]) {
		return Reading{}, used
	}
	return r, used
}

// steady reports whether some partials of a frequency in Hz keep theirs from a time to another, as those of a string do, and grow by no more than
// rise in its second half.
func (l *Listener) steady(from, to, rise, hz float64, s net.Spectrum) bool {
	kept := 0
	for n := 1.0; n <= partialsSeen; n++ {
		var best net.Peak
		for _, p := range s.Peaks(n*hz*math.Exp2(-40.0/1200), n*hz*math.Exp2(40.0/1200), 35) {
			if p.Power > best.Power {
				best = p
			}
		}
		if best.Power == 0 {
			continue
		}
		middle := (from + to) / 2
		first, second := l.amplitude(from, middle, best.Hz), l.amplitude(middle, to, best.Hz)
		if whole := l.amplitude(from, to, best.Hz); whole > steadyPart*(first+second)/2 && second < rise*first && second > steadyFall*first {
			kept++
		}
	}
	return kept >= steadyPartials
}

// amplitude returns how strong a frequency in Hz is between two times, in a window by Hann. Before the first sample it was silent.
func (l *Listener) amplitude(from, to, hz float64) float64 {
	first, last := int(l.inKept(from)*l.rate), min(len(l.kept), int(l.inKept(to)*l.rate))
	var re, im float64
	n := float64(last - first)
	turn, slow := cmplx.Rect(1, 2*math.Pi*hz/l.rate), cmplx.Rect(1, 2*math.Pi/n)
	at, hann := complex(1, 0), complex(1, 0)
	for i := first; i < last; i++ {
		if i >= 0 {
			w := (1 - real(hann)) * l.kept[i]
			re, im = re+w*real(at), im+w*imag(at)
		}
		at, hann = at*turn, hann*slow
	}
	return math.Hypot(re, im) / math.Max(1, n)
}
