package hear

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
)

// onsets finds when something is struck, in sound that is fed block by block: where much that was not there before comes into the
// spectrum at once (spectral flux of logarithmic levels against the strongest neighbour a little earlier: Böck and Widmer, DAFx 2013).
type onsets struct {
	rate      float64
	size, hop int
	plan      *fourier.FFT
	window    []float64
	in        []float64
	out       []complex128
	low, high int         // bins that are looked at
	past      [][]float64 // levels of the last frames
	peak      float64     // the strongest magnitude of late
	flux      []float64   // of the last frames
	frame     int         // the number of the next frame
	last      float64     // the time of the last onset in seconds
	faint     bool        // that may have been none
}

// onset is when something was struck, in seconds from the first sample, and how many times as much was new as is usual.
type onset struct {
	at, strength float64
}

const (
	frameTime  = 0.043 // seconds of sound in a frame
	hopTime    = 0.010 // from frame to frame
	backFrames = 3     // a frame is compared to that so many before
	aheadTime  = 0.04  // an onset is the strongest within this on both sides
	memory     = 60    // frames over which the flux is compared
	depth      = 0.004 // levels this far below the strongest of late, as a part of it, do not count
	least      = 0.01  // the median flux is never taken to be less
	weak       = 1.6   // times the median flux of late, for what may be an onset
	strong     = 2.8   // times the median, for an onset
	startTime  = 0.1   // seconds from the beginning in which the noise comes in
	apart      = 0.07  // seconds between onsets at least
	fading     = 0.995 // what is left of the strongest a frame later
	softest    = 3e-4  // the strongest is never taken to be less
)

func newOnsets(rate float64) *onsets {
	size := 1
	for float64(size) < frameTime*rate*0.75 {
		size *= 2
	}
	o := &onsets{rate: rate, size: size, hop: int(hopTime * rate), plan: fourier.NewFFT(size), last: -1,
		window: make([]float64, size), in: make([]float64, size), out: make([]complex128, size/2+1)}
	for i := range o.window {
		o.window[i] = (0.5 - 0.5*math.Cos(2*math.Pi*(float64(i)+0.5)/float64(size))) * 4 / float64(size)
	}
	o.low = max(1, int(70*float64(size)/rate))
	o.high = min(size/2, int(5000*float64(size)/rate))
	for range backFrames { // silence before the first sample
		o.past, o.flux = append(o.past, make([]float64, o.high-o.low+1)), append(o.flux, 0)
	}
	return o
}

// next is the first sample that the next frame needs.
func (o *onsets) next() int { return o.frame * o.hop }

// feed looks at one frame, o.size samples from o.next() on, and returns the onset that is now certain, if there is one.
func (o *onsets) feed(samples []float64) (onset, bool) {
	for i, w := range o.window {
		o.in[i] = w * samples[i]
	}
	out := o.plan.Coefficients(o.out, o.in)
	levels := make([]float64, o.high-o.low+1)
	var top float64
	for k := range levels {
		c := out[o.low+k]
		levels[k] = math.Hypot(real(c), imag(c))
		top = max(top, levels[k])
	}
	o.peak = max(top, o.peak*fading, softest)
	scale := 1 / (depth * o.peak) // of both frames, or a loud one would make the one before look loud
	var flux float64
	was := o.past[0]
	for k, m := range levels {
		before := was[k]
		if k > 0 {
			before = max(before, was[k-1])
		}
		if k+1 < len(was) {
			before = max(before, was[k+1])
		}
		if m > before {
			rise := math.Log((1 + m*scale) / (1 + before*scale))
			flux += rise * rise // a few partials that rise much count for more than noise that rises everywhere
		}
	}
	flux /= float64(len(levels))
	o.past = append(o.past[1:], levels)
	o.flux = append(o.flux, flux)
	o.frame++
	ahead := int(aheadTime / hopTime)
	i := len(o.flux) - 1 - ahead
	if len(o.flux) > memory {
		o.flux = o.flux[1:]
		i--
	}
	if i < 1 {
		return onset{}, false
	}
	here := o.flux[i]
	if here < slices.Max(o.flux[max(0, i-ahead):]) {
		return onset{}, false
	}
	late := slices.Clone(o.flux[:i])
	slices.Sort(late)
	strength := here / max(late[len(late)/2], least)
	if strength < weak {
		return onset{}, false
	}
	if o.frame*o.hop < o.size+int(startTime*o.rate) {
		strength = min(strength, strong) // that there is sound at all is new
	}
	// The flux is highest when what is new lies before the middle of the frame, and the frame before ended ahead of it.
	at := (float64((o.frame-1-ahead)*o.hop)+float64(o.size)*0.5)/o.rate - 0.5*backFrames*hopTime
	if at < o.last+apart && !(o.faint && strength >= strong) { // what is faint hides no onset behind it
		return onset{}, false
	}
	o.last, o.faint = at, strength < strong
	return onset{at, strength}, true
}
