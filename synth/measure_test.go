package synth

import (
	"math"
	"math/cmplx"
	"testing"
	"time"

	"github.com/gopxl/beep/v2"
	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/stat"

	"sparetone/theory"
)

// recording is sound to be measured, one channel.
type recording struct {
	rate    float64 // Hz
	samples []float64
}

// record reads the left channel of a whole sound.
func record(s beep.Streamer) recording {
	r := recording{rate: float64(SampleRate)}
	var buf [512][2]float64
	for {
		n, ok := s.Stream(buf[:])
		if !ok {
			return r
		}
		for _, frame := range buf[:n] {
			r.samples = append(r.samples, frame[0])
		}
	}
}

// plucked renders one note and records it.
func plucked(t testing.TB, v Voice, midi int, opt Options) recording {
	t.Helper()
	s, err := Render(Score{
		Plucks: []Pluck{{String: 1, Pitch: midiPitch(midi), Strength: 0.75}},
		Length: 2 * time.Second,
	}, v, opt)
	if err != nil {
		t.Fatal(err)
	}
	return record(s)
}

// midiPitch returns a pitch by its MIDI number, spelled with sharps.
func midiPitch(n int) theory.Pitch {
	for _, s := range []string{"C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B"} {
		note, _ := theory.ParseNote(s)
		if p, ok := theory.Spell(n, note); ok {
			return p
		}
	}
	panic("no such pitch")
}

// part returns n samples from time at (seconds) on, windowed by Hann, or nil if there are not so many.
func (r recording) part(at float64, n int) []float64 {
	from := int(at * r.rate)
	if from < 0 || from+n > len(r.samples) {
		return nil
	}
	x := make([]float64, n)
	for i := range x {
		x[i] = r.samples[from+i] * (0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(n)))
	}
	return x
}

// at returns the amplitude and phase of the partial at f Hz in x.
func (r recording) at(x []float64, f float64) complex128 {
	var sum complex128
	turn := cmplx.Rect(1, -2*math.Pi*f/r.rate)
	phase := complex(1, 0)
	for _, v := range x {
		sum += complex(v, 0) * phase
		phase *= turn
	}
	return sum * complex(4/float64(len(x)), 0)
}

// frequency returns the frequency in Hz of the partial near f, between times from and to in seconds, by
// how far its phase has moved. The windows are long enough that other partials do not reach in.
func (r recording) frequency(f, from, to float64) float64 {
	n := int(12 / f * r.rate)
	n = max(n, 2400)
	steps := 8
	for range 2 { // the second time from a better guess
		var turned float64
		last := cmplx.Phase(r.at(r.part(from, n), f))
		hop := (to - from) / float64(steps)
		hop = math.Round(hop*r.rate) / r.rate
		start := math.Round(from*r.rate) / r.rate
		for i := 1; i <= steps; i++ {
			p := cmplx.Phase(r.at(r.part(start+float64(i)*hop+0.25/r.rate, n), f))
			expected := 2 * math.Pi * f * hop
			turned += math.Remainder(p-last-expected, 2*math.Pi)
			last = p
		}
		f += turned / (2 * math.Pi * hop * float64(steps))
	}
	return f
}

// decay returns how fast partial k of f Hz falls between two times, in dB a second, and how straight
// (r², 1 is a line). It looks for the partial up to 0.5 % beside its place.
func (r recording) decay(f float64, k int, from, to float64) (rate, straight float64) {
	n := int(max(2048, 8/f*r.rate))
	f *= float64(k)
	var times, levels []float64
	for t := from; t+float64(n)/r.rate <= to; t += 0.02 {
		x := r.part(t, n)
		if x == nil {
			break
		}
		var best float64
		for _, off := range []float64{-0.005, -0.0025, 0, 0.0025, 0.005} {
			best = max(best, cmplx.Abs(r.at(x, f*(1+off))))
		}
		times = append(times, t)
		levels = append(levels, 20*math.Log10(best+1e-9))
	}
	a, b := stat.LinearRegression(times, levels, nil, false)
	return -b, stat.RSquared(times, levels, nil, a, b)
}

// centroid returns the centre of the amplitude spectrum up to 10 kHz about a time in seconds, in Hz: how
// bright it sounds.
func (r recording) centroid(about float64) float64 {
	n := int(0.046 * r.rate)
	x := r.part(max(0, about-0.023), n)
	spectrum := fourier.NewFFT(n).Coefficients(nil, x)
	var sum, weight float64
	for k, c := range spectrum {
		if f := float64(k) * r.rate / float64(n); f < 10000 {
			sum += f * cmplx.Abs(c)
			weight += cmplx.Abs(c)
		}
	}
	return sum / weight
}

// cents returns how much higher a is than b.
func cents(a, b float64) float64 { return 1200 * math.Log2(a/b) }

// The estimators are themselves measured, on tones that are known.
func TestTheMeasuringIsRight(t *testing.T) {
	for _, f := range []float64{41.2, 82.41, 261.63, 440, 1318.5, 1975.5} {
		r := recording{rate: 48000}
		for i := range 96000 {
			s := float64(i) / 48000
			var x float64
			for n := 1; n <= 5; n++ { // five partials of which each falls faster
				x += math.Exp(-float64(n)*3*s) * math.Sin(2*math.Pi*float64(n)*f*s+float64(n)) / float64(n)
			}
			r.samples = append(r.samples, x)
		}
		if off := cents(r.frequency(f*1.0005, 0.1, 0.9), f); math.Abs(off) > 0.005 {
			t.Errorf("a tone at %v Hz is measured %.4f cents off", f, off)
		}
		if rate, _ := r.decay(f, 1, 0.1, 1); math.Abs(rate-3*8.686) > 0.3 {
			t.Errorf("a tone at %v Hz that falls 26.06 dB/s is measured to fall %.2f", f, rate)
		}
		if rate, _ := r.decay(f, 3, 0.1, 1); math.Abs(rate-9*8.686) > 1 {
			t.Errorf("partial 3 of %v Hz that falls 78.2 dB/s is measured to fall %.2f", f, rate)
		}
	}
}
