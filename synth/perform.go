package synth

import "sync"

// handed is how many samples are handed from one processor to the other at a time.
const handed = 16 * Chunk

// perform plays a whole score into samples and measures it. Half of the work is done on another processor where
// there is one; which half depends on the score alone, so that the same score makes the same samples.
func (p *playing) perform(samples []float32, m *meter) {
	p.pluckBefore(p.length)
	here, there := &p.halves[0], &p.halves[1]
	// The other half never waits to be taken: to be woken would cost it as much as the work does.
	made := make(chan []float64, 1+len(samples)/handed)
	space := spaceFor(len(samples))
	var fault any
	go func(left []float64) {
		defer close(made)
		defer func() { fault = recover() }() // where it is raised again, the screen can still be cleared
		for len(left) > 0 {
			mix := left[:min(handed, len(left))]
			there.fill(mix)
			made <- mix
			left = left[len(mix):]
		}
	}(space)
	var mix [handed]float64
	for len(samples) > 0 {
		part := samples[:min(handed, len(samples))]
		here.fill(mix[:len(part)])
		other, ok := <-made
		if !ok {
			panic(fault)
		}
		for i, x := range other {
			part[i] = float32(mix[i] + x)
		}
		m.add(part)
		samples = samples[len(part):]
	}
	m.end()
	spaces.Put(space) // all of it was taken, so nobody writes there any more
}

// spaces are what other halves were made in: fresh memory would take a fifth of the time.
var spaces sync.Pool

// spaceFor returns room for samples, whatever is in it.
func spaceFor(samples int) []float64 {
	if space, _ := spaces.Get().([]float64); cap(space) >= samples {
		return space[:samples]
	}
	return make([]float64, samples)
}
