package hear

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/dsp/fourier"
)

// Tone is one note at a moment: a string by itself, or a voice.
type Tone struct {
	At    float64 // the middle of the sound it was heard in, in seconds from the first sample
	Hz    float64
	Clear float64 // how nearly the sound repeats itself with this frequency: 0 to 1
	Level float64 // dBFS
}

// Note is a tone that was held.
type Note struct {
	At     float64 // when it began to be steady, in seconds from the first sample
	Length float64 // seconds that it has been so; at least heldTime
	Hz     float64 // the median
}

// How a tone is told from what is none.
const (
	clearEnough = 0.85 // of Tone.Clear
	loudEnough  = -60  // dBFS
	keyPart     = 0.93 // of the highest peak, which the first peak must reach that is taken: McLeod and Wyvill's k
	unlikeTimes = 2.0  // times as far below 1 as the highest peak lies,
	unlikeMore  = 0.01 // and so much more, a peak may lie that is taken: one an octave above, where partials between are weak, lies lower
	stepTime    = 0.025
	heldTime    = 0.2
	heldWithin  = 40.0 // cents that a held tone may stray, as a sung one does
)

// Tones hears one note at a time in sound that is fed block by block, played or sung, by the method of McLeod and Wyvill ("A smarter way to
// find pitch", ICMC 2005): where the sound is most like itself a little later, by a difference that is normalised so that 1 is wholly
// alike; the first peak that is nearly as high as the highest. Theirs takes a note whose odd partials are weak for its octave, as high strings and some vowels
// are; so a peak also has to lie as near to 1 as the highest does, twice as far at the most. It is not for two goroutines at once.
type Tones struct {
	rate       float64
	lowest     float64 // Hz
	highest    float64
	size, step int // samples looked at, and from look to look
	plan       *fourier.FFT
	kept       []float64
	gone       int
	padded     []float64
	transform  []complex128
	like       []float64
	run        []Tone // the tones of the note that is being held
}

// NewTones returns a hearer of notes from lowest to highest, in Hz, in sound of so many samples a second. The error says what is wrong.
func NewTones(rate, lowest, highest float64) (*Tones, error) {
	if !(rate >= LowestRate && rate <= HighestRate) {
		return nil, fmt.Errorf("a rate of %v samples a second: it must be %v to %v", rate, LowestRate, HighestRate)
	}
	if !(lowest >= 25 && lowest < highest && highest <= rate/4) {
		return nil, fmt.Errorf("notes from %v to %v Hz: they must rise, from 25 Hz up to a quarter of the rate", lowest, highest)
	}
	t := &Tones{rate: rate, lowest: lowest, highest: highest, step: int(stepTime * rate)}
	t.size = max(int(2.6*rate/lowest), int(0.04*rate)) // more than two periods
	size := 1
	for size < t.size+int(rate/lowest)+2 {
		size *= 2
	}
	t.plan, t.padded, t.transform = fourier.NewFFT(size), make([]float64, size), make([]complex128, size/2+1)
	return t, nil
}

// Feed hears the samples that come next and returns the tone at every fortieth of a second at which there is a clear one.
func (t *Tones) Feed(samples []float64) (out []Tone) {
	t.kept = append(t.kept, samples...)
	first := 0
	for ; first+t.size <= len(t.kept); first += t.step {
		tone, ok := t.tone(t.kept[first : first+t.size])
		tone.At = (float64(t.gone+first) + float64(t.size)/2) / t.rate
		if ok {
			out = append(out, tone)
		}
		t.follow(tone, ok)
	}
	t.kept = slices.Delete(t.kept, 0, first)
	t.gone += first
	return out
}

// follow goes on with the note that is held, or begins another.
func (t *Tones) follow(tone Tone, ok bool) {
	switch {
	case !ok:
		t.run = nil
	case len(t.run) > 0 && math.Abs(1200*math.Log2(tone.Hz/medianHz(t.run))) > heldWithin:
		t.run = []Tone{tone}
	default:
		t.run = append(t.run, tone)
	}
}

// Sustained returns the note that is held now, if one is.
func (t *Tones) Sustained() (Note, bool) {
	if len(t.run) == 0 {
		return Note{}, false
	}
	first, last := t.run[0].At, t.run[len(t.run)-1].At
	if last-first < heldTime {
		return Note{}, false
	}
	return Note{At: first, Length: last - first, Hz: medianHz(t.run)}, true
}

func medianHz(tones []Tone) float64 {
	hz := make([]float64, len(tones))
	for i, t := range tones {
		hz[i] = t.Hz
	}
	slices.Sort(hz)
	return hz[len(hz)/2]
}

// ToneOf returns the tone of a whole stretch of sound, of so many samples a second, from lowest to highest Hz, and whether there is a
// clear one: the median of those in it.
func ToneOf(samples []float64, rate, lowest, highest float64) (Tone, bool) {
	t, err := NewTones(rate, lowest, highest)
	if err != nil {
		return Tone{}, false
	}
	tones := t.Feed(samples)
	if len(tones) == 0 {
		return Tone{}, false
	}
	slices.SortFunc(tones, func(a, b Tone) int {
		switch {
		case a.Hz < b.Hz:
			return -1
		case a.Hz > b.Hz:
			return 1
		}
		return 0
	})
	return tones[len(tones)/2], true
}

// tone returns the tone in some samples.
func (t *Tones) tone(x []float64) (Tone, bool) {
	var power, mean float64
	for _, v := range x {
		mean += v
	}
	mean /= float64(len(x))
	clear(t.padded)
	for i, v := range x {
		t.padded[i] = v - mean
		power += t.padded[i] * t.padded[i]
	}
	out := Tone{Level: dBFS(power / float64(len(x)))}
	if out.Level < loudEnough {
		return out, false
	}
	// How alike the sound is to itself so many samples later: twice the sum of products, by way of the power spectrum, over the sum of
	// squares of what is multiplied.
	t.plan.Coefficients(t.transform, t.padded)
	for k, c := range t.transform {
		t.transform[k] = complex(real(c)*real(c)+imag(c)*imag(c), 0)
	}
	squares := 2 * power
	shifts := min(len(x)-1, int(t.rate/t.lowest)+2)
	centred := slices.Clone(t.padded[:len(x)])
	products := t.plan.Sequence(t.padded, t.transform)
	size := float64(len(products))
	t.like = t.like[:0]
	for s := range shifts {
		if s > 0 {
			squares -= centred[s-1]*centred[s-1] + centred[len(x)-s]*centred[len(x)-s]
		}
		t.like = append(t.like, 2*products[s]/size/(squares+1e-30))
	}
	at, height, ok := firstPeak(t.like, t.rate/t.highest)
	if !ok {
		return out, false
	}
	out.Hz, out.Clear = t.rate/at, min(1, height)
	return out, height >= clearEnough && out.Hz >= t.lowest && out.Hz <= t.highest*1.03
}

// firstPeak returns where the first of the high peaks is, at a shift of at least shortest samples, and how high: of each stretch above
// zero, behind the first below it, the highest.
func firstPeak(like []float64, shortest float64) (at, height float64, ok bool) {
	type peak struct{ at, height float64 }
	var peaks []peak
	s := 0
	for s < len(like) && like[s] > 0 {
		s++
	}
	for s < len(like) {
		for s < len(like) && like[s] <= 0 {
			s++
		}
		best := s
		for ; s < len(like) && like[s] > 0; s++ {
			if like[s] > like[best] {
				best = s
			}
		}
		if best < 1 || best+1 >= len(like) {
			continue
		}
		l, m, r := like[best-1], like[best], like[best+1]
		off, top := 0.0, m
		if bend := l - 2*m + r; bend < 0 {
			off = 0.5 * (l - r) / bend
			top = m - 0.25*(l-r)*off
		}
		if float64(best)+off >= shortest*0.97 {
			peaks = append(peaks, peak{float64(best) + off, top})
		}
	}
	var most float64
	for _, p := range peaks {
		most = max(most, p.height)
	}
	for _, p := range peaks {
		if p.height >= keyPart*most && 1-p.height <= unlikeTimes*max(0, 1-most)+unlikeMore {
			return p.at, p.height, true
		}
	}
	return 0, 0, false
}
