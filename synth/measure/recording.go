// Package measure measures recorded sound, for tests: pitch, decay, brightness and clicks, by means that share nothing with what makes
// the sound, and beside another program's. A [NullSink] records what is played to a device.
package measure

import (
	"fmt"
	"math"
	"math/cmplx"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"

	"github.com/gopxl/beep/v2"
	"gonum.org/v1/gonum/dsp/fourier"
	"gonum.org/v1/gonum/stat"
)

// Recording is sound to be measured, one channel.
type Recording struct {
	Rate    float64 // Hz
	Samples []float64
}

// Record reads the left channel of a whole sound.
func Record(s beep.Streamer, rate beep.SampleRate) Recording {
	r := Recording{Rate: float64(rate)}
	var buf [512][2]float64
	for {
		n, ok := s.Stream(buf[:])
		if !ok {
			return r
		}
		for _, frame := range buf[:n] {
			r.Samples = append(r.Samples, frame[0])
		}
	}
}

// Part returns n samples from time at (seconds) on, windowed by Hann, or nil if there are not so many.
func (r Recording) Part(at float64, n int) []float64 {
	from := int(at * r.Rate)
	if from < 0 || from+n > len(r.Samples) {
		return nil
	}
	x := make([]float64, n)
	for i := range x {
		x[i] = r.Samples[from+i] * (0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(n)))
	}
	return x
}

// At returns the amplitude and phase of the partial at f Hz in x.
func (r Recording) At(x []float64, f float64) complex128 {
	var sum complex128
	turn := cmplx.Rect(1, -2*math.Pi*f/r.Rate)
	phase := complex(1, 0)
	for _, v := range x {
		sum += complex(v, 0) * phase
		phase *= turn
	}
	return sum * complex(4/float64(len(x)), 0)
}

// Frequency returns the frequency in Hz of the partial near f, between times from and to in seconds, by
// how far its phase has moved. The windows are long enough that other partials do not reach in.
func (r Recording) Frequency(f, from, to float64) float64 {
	n := int(12 / f * r.Rate)
	n = max(n, 2400)
	steps := 8
	for range 2 { // the second time from a better guess
		var turned float64
		last := cmplx.Phase(r.At(r.Part(from, n), f))
		hop := (to - from) / float64(steps)
		hop = math.Round(hop*r.Rate) / r.Rate
		start := math.Round(from*r.Rate) / r.Rate
		for i := 1; i <= steps; i++ {
			p := cmplx.Phase(r.At(r.Part(start+float64(i)*hop+0.25/r.Rate, n), f))
			expected := 2 * math.Pi * f * hop
			turned += math.Remainder(p-last-expected, 2*math.Pi)
			last = p
		}
		f += turned / (2 * math.Pi * hop * float64(steps))
	}
	return f
}

// Decay returns how fast partial k of f Hz falls between two times, in dB a second, and how straight
// (r², 1 is a line). It looks for the partial up to 0.5 % beside its place.
func (r Recording) Decay(f float64, k int, from, to float64) (rate, straight float64) {
	n := int(max(2048, 8/f*r.Rate))
	f *= float64(k)
	var times, levels []float64
	for t := from; t+float64(n)/r.Rate <= to; t += 0.02 {
		x := r.Part(t, n)
		if x == nil {
			break
		}
		var best float64
		for _, off := range []float64{-0.005, -0.0025, 0, 0.0025, 0.005} {
			best = max(best, cmplx.Abs(r.At(x, f*(1+off))))
		}
		times = append(times, t)
		levels = append(levels, 20*math.Log10(best+1e-9))
	}
	a, b := stat.LinearRegression(times, levels, nil, false)
	return -b, stat.RSquared(times, levels, nil, a, b)
}

// Centroid returns the centre of the amplitude spectrum up to 10 kHz about a time in seconds, in Hz: how
// bright it sounds.
func (r Recording) Centroid(about float64) float64 {
	n := int(0.046 * r.Rate)
	x := r.Part(max(0, about-0.023), n)
	spectrum := fourier.NewFFT(n).Coefficients(nil, x)
	var sum, weight float64
	for k, c := range spectrum {
		if f := float64(k) * r.Rate / float64(n); f < 10000 {
			sum += f * cmplx.Abs(c)
			weight += cmplx.Abs(c)
		}
	}
	return sum / weight
}

// Cents returns how much higher a is than b.
func Cents(a, b float64) float64 { return 1200 * math.Log2(a/b) }

// Aubio measures the pitch of a WAV file with Debian's aubio: the median, in Hz, of what its yin finds
// between 0.2 and 0.9 seconds after the beginning.
func Aubio(t testing.TB, path string) float64 {
	t.Helper()
	out, err := exec.Command("aubiopitch", "-p", "yin", "-B", "4096", "-H", "512", "-i", path).Output()
	if err != nil {
		t.Fatalf("aubiopitch: %v", err)
	}
	var found []float64
	for line := range strings.Lines(string(out)) {
		var at, f float64
		if _, err := fmt.Sscan(line, &at, &f); err == nil && at > 0.2 && at < 0.9 {
			found = append(found, f)
		}
	}
	if len(found) == 0 {
		return math.NaN()
	}
	slices.Sort(found)
	return found[len(found)/2]
}

// Stream plays a recording.
func (r Recording) Stream() beep.Streamer {
	at := 0
	return beep.StreamerFunc(func(frames [][2]float64) (int, bool) {
		n := min(len(frames), len(r.Samples)-at)
		for i := range n {
			frames[i] = [2]float64{r.Samples[at+i], r.Samples[at+i]}
		}
		at += n
		return n, n > 0
	})
}

// Missing skips a test that needs something of Debian's which is not there; where the environment says CI,
// it fails instead.
func Missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is not here, and CI needs it", what)
	}
	t.Skipf("%s is not here", what)
}

// Onset returns the first sample that reaches a tenth of the peak.
func (r Recording) Onset() int {
	var peak float64
	for _, x := range r.Samples {
		peak = max(peak, x, -x)
	}
	for i, x := range r.Samples {
		if max(x, -x) > peak/10 {
			return i
		}
	}
	return 0
}

// HighestStep returns the largest difference between neighbouring samples from one sample to another.
func HighestStep(x []float64, from, to int) (step float64) {
	for i := max(from, 1); i < min(to, len(x)); i++ {
		step = max(step, math.Abs(x[i]-x[i-1]))
	}
	return step
}
