package net

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
)

// The range of what a spectrum is asked for, in Hz: from below the lowest string of a guitar to where plucked strings have
// died away within half a second.
const (
	LowestHz  = 60.0
	highestHz = 6000.0
)

// Spectrum is how strong each frequency is in a stretch of sound.
type Spectrum struct {
	power  []float64 // of each bin: a steady tone of amplitude a has a²
	step   float64   // Hz from bin to bin
	spread float64   // bins that a window's own bin is spread over
}

// Analyser makes spectra of sound at one rate. It keeps the plans of its transforms, which are not for two goroutines at once:
// neither is it.
type Analyser struct {
	rate    float64 // Hz
	halvers []halver
	plans   map[int]*fourier.FFT
	cut     []float64 // the samples that are looked at
	in      []float64
	out     []complex128
	hann    []float64 // the window used last
}

// NewAnalyser returns an analyser of sound at so many samples a second.
func NewAnalyser(rate float64) *Analyser {
	return &Analyser{rate: rate, halvers: halvers(rate), plans: map[int]*fourier.FFT{}}
}

// Spectrum returns the spectrum of the samples from one time to another, in seconds from the first sample, under a Hann window.
// What lies before or behind the samples is silence.
func (a *Analyser) Spectrum(samples []float64, from, to float64) Spectrum {
	rate := a.rate / float64(int(1)<<len(a.halvers))
	cut := a.lowPart(samples, int(math.Round(from*a.rate)), max(16, int(math.Round((to-from)*rate))))
	n := len(cut)
	size := transformSize(n + n/2) // a little finer than the window needs, so that a peak between two bins loses little
	plan := a.plans[size]
	if plan == nil {
		plan = fourier.NewFFT(size)
		a.plans[size] = plan
	}
	if cap(a.in) < size {
		a.in, a.out = make([]float64, size), make([]complex128, size/2+1)
	}
	in := a.in[:size]
	if len(a.hann) != n {
		a.hann = make([]float64, n)
		for i := range a.hann {
			a.hann[i] = 0.5 - 0.5*math.Cos(2*math.Pi*(float64(i)+0.5)/float64(n))
		}
	}
	for i, w := range a.hann {
		in[i] = cut[i] * w
	}
	clear(in[n:])
	out := plan.Coefficients(a.out[:size/2+1], in)
	s := Spectrum{step: rate / float64(size), spread: float64(size) / float64(n)}
	s.power = make([]float64, min(len(out), int(reachHz/s.step)+2))
	scale := 4 / float64(n) // a Hann window halves a tone, and a half of it lies at its negative frequency
	for k := range s.power {
		re, im := real(out[k])*scale, imag(out[k])*scale
		s.power[k] = re*re + im*im
	}
	return s
}

// transformSize returns the least size, even and no less than a number, at which a transform is quick: a product of twos, threes and fives, but
// no power of two. At 16,384 and 32,768 the transform's strides fall on the same lines of a processor's cache, and it was measured to take
// two to four times as long as at sizes beside them.
func transformSize(least int) int {
	for size := least + least%2; ; size += 2 {
		rest := size
		for _, p := range []int{2, 3, 5} {
			for rest%p == 0 {
				rest /= p
			}
		}
		if rest == 1 && size&(size-1) != 0 {
			return size
		}
	}
}

// lowPart returns n samples at the rate of the spectra, from one of those that are given on. They stand until the next call.
func (a *Analyser) lowPart(samples []float64, first, n int) []float64 {
	long := n
	for i := len(a.halvers) - 1; i >= 0; i-- {
		margin := a.halvers[i].margin()
		first -= margin << i
		long = 2*long - 1 + 2*margin
	}
	if cap(a.cut) < long {
		a.cut = make([]float64, long)
	}
	cut := a.cut[:long]
	clear(cut)
	if from := max(0, -first); from < long && first+from < len(samples) {
		copy(cut[from:], samples[first+from:])
	}
	for _, h := range a.halvers {
		h.halve(cut[:(len(cut)-2*h.margin()+1)/2], cut) // what is put out never overtakes what is still needed
		cut = cut[:(len(cut)-2*h.margin()+1)/2]
	}
	return cut
}

// loudest returns the power of the strongest bin.
func (s Spectrum) loudest() float64 {
	var most float64
	for k := int(LowestHz / s.step); k < len(s.power) && float64(k)*s.step < highestHz; k++ {
		most = max(most, s.power[k])
	}
	return most
}

// at returns the power of the strongest bin within a part of f about f Hz; 0 above what the spectrum reaches.
func (s Spectrum) at(f, part float64) float64 {
	lo, hi := int(math.Ceil(f*(1-part)/s.step)), int(math.Floor(f*(1+part)/s.step))
	if lo > hi { // between two bins: both count
		lo, hi = hi, lo
	}
	var most float64
	for k := max(0, lo); k <= hi && k < len(s.power); k++ {
		most = max(most, s.power[k])
	}
	return most
}

// Peak is a frequency that stands out.
type Peak struct {
	Hz    float64
	Power float64
}

// Peaks returns what stands out between two frequencies and is at most so many dB weaker than the strongest of all.
func (s Spectrum) Peaks(from, to, within float64) []Peak {
	var out []Peak
	least := s.loudest() * math.Pow(10, -within/10)
	for k := max(2, int(from/s.step)); k+2 < len(s.power) && float64(k)*s.step < to; k++ {
		b := s.power[k]
		if b <= least || b < s.power[k-1] || b <= s.power[k+1] || b < s.power[k-2] || b <= s.power[k+2] {
			continue
		}
		// The top of the parabola through three levels: Smith and Serra, PARSHL, 1987.
		l, m, r := math.Log(s.power[k-1]+1e-30), math.Log(b), math.Log(s.power[k+1]+1e-30)
		off := 0.0
		if bend := l - 2*m + r; bend < 0 {
			off = 0.5 * (l - r) / bend
		}
		out = append(out, Peak{(float64(k) + off) * s.step, b})
	}
	return out
}

// noisePart is what the median of the power of noise in a bin is of its mean: the natural logarithm of 2, as that of an exponential
// distribution.
const noisePart = math.Ln2

// Noise returns the mean power of what lies between the frequencies that stand out, in samples squared: of each octave, as if all of it were
// as its median bin.
func (s Spectrum) Noise() float64 {
	var sum float64
	for from := LowestHz; from < highestHz; from *= 2 {
		lo, hi := int(from/s.step), min(len(s.power), int(2*from/s.step))
		if hi <= lo {
			break
		}
		sum += median(append([]float64(nil), s.power[lo:hi]...)) / noisePart * float64(hi-lo)
	}
	return sum / (3 * s.spread) // a Hann window makes a tone three half bins wide, and its power is half its amplitude's square
}

// median returns the middle of some values, and sorts them.
func median(v []float64) float64 {
	if len(v) == 0 {
		return 0
	}
	slices.Sort(v)
	return v[len(v)/2]
}
