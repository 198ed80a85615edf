package main

import (
	"math"
	"math/rand/v2"
	"sync"

	"sparetone/synth/hear/net"
)

// lesson is what a net learns from: the levels of notes, and whether each was plucked.
type lesson struct {
	inputs  int
	levels  []int8 // inputs a note, each -127 to 127
	plucked []bool
}

// askedOf is how many notes of a sound are judged, at most.
const askedOf = 16

// scale is what a level of 1 is kept as.
const scale = 127

// maskedOf is how many notes of a sound that are masked are judged, at most.
const maskedOf = 5

// newLesson invents so many sounds. What it returns does not depend on how many workers there are.
func newLesson(seed uint64, sounds, workers int, k kind) lesson {
	inputs := net.StrumInputs
	switch {
	case k.inTurn:
		inputs = net.PluckInputs
	case k.masked:
		inputs = net.MaskedInputs
	}
	parts := make([]lesson, sounds)
	var wait sync.WaitGroup
	for w := range workers {
		wait.Go(func() {
			analyser := net.NewAnalyser(rate)
			var buf []float32
			for i := w; i < sounds; i += workers {
				r := rand.New(rand.NewPCG(seed, uint64(i)))
				e := invent(r, k.inTurn, k.masked)
				e.analyser = analyser
				spectra := e.spectra(k.inTurn)
				notes, plucked := e.asked(r, askedOf)
				if k.masked {
					notes, plucked = e.masked(r, maskedOf)
				}
				for _, n := range notes {
					hz := 440 * math.Exp2((float64(n-69)+e.off/100)/12)
					if k.masked {
						buf = net.Masked(buf[:0], e.samples, rate, e.at, e.at+net.StrumTime, hz, e.beside(n), spectra)
					} else {
						buf = net.Levels(buf[:0], hz, spectra...)
					}
					for _, x := range buf {
						parts[i].levels = append(parts[i].levels, int8(math.Round(float64(x)*scale)))
					}
				}
				parts[i].plucked = plucked
			}
		})
	}
	wait.Wait()
	all := lesson{inputs: inputs}
	for _, p := range parts {
		all.levels = append(all.levels, p.levels...)
		all.plucked = append(all.plucked, p.plucked...)
	}
	return all
}

// at writes the levels of a note to out.
func (l lesson) at(i int, out []float32) {
	for k, x := range l.levels[i*l.inputs : (i+1)*l.inputs] {
		out[k] = float32(x) / scale
	}
}
