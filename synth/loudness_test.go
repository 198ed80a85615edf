package synth

import (
	"bytes"
	"encoding/binary"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"testing"
	"time"

	"sparetone/synth/measure"
	"sparetone/theory/fret"
)

// sine returns a sine wave at f Hz of the given peak in dBFS, beginning at a phase in radians.
func sine(f, peak, phase, seconds float64) []float32 {
	x := make([]float32, int(seconds*float64(SampleRate)))
	for i := range x {
		x[i] = float32(Decibels(peak) * math.Sin(phase+2*math.Pi*f*float64(i)/float64(SampleRate)))
	}
	return x
}

// Test signals 1, 2, 3 and 5 for loudness meters: EBU Tech 3341 (2016), table 1. Tolerance there: 0.1 LU.
func TestLoudnessOfKnownSignals(t *testing.T) {
	join := func(parts ...[]float32) (all []float32) {
		for _, p := range parts {
			all = append(all, p...)
		}
		return all
	}
	for name, c := range map[string]struct {
		signal []float32
		want   float64
	}{
		"1: 1 kHz at -23 dBFS":          {sine(1000, -23, 0, 20), -23},
		"2: 1 kHz at -33 dBFS":          {sine(1000, -33, 0, 20), -33},
		"3: -36, -23, -36 dBFS in turn": {join(sine(1000, -36, 0, 10), sine(1000, -23, 0, 60), sine(1000, -36, 0, 10)), -23},
		"5: -26, -20, -26 dBFS in turn": {join(sine(1000, -26, 0, 20), sine(1000, -20, 0, 20.1), sine(1000, -26, 0, 20)), -23},
	} {
		if got := loudness(measured(c.signal).powers, 1); math.Abs(got-c.want) > 0.1 {
			t.Errorf("%s: %.2f LUFS, want %.1f", name, got, c.want)
		}
	}
}

// Test signals 15 to 18 for true peaks: EBU Tech 3341 (2016), table 1: sines of peak −6 dBFS that the
// sample grid meets at different phases. Tolerance there: +0.2, −0.4 dB.
func TestTruePeakOfKnownSignals(t *testing.T) {
	for _, c := range []struct{ part, phase float64 }{{4, 0}, {4, math.Pi / 4}, {6, math.Pi / 3}, {8, math.Pi * 3 / 8}} {
		got := 20 * math.Log10(truePeak(sine(float64(SampleRate)/c.part, -6, c.phase, 1), 0.1))
		if got > -6+0.2 || got < -6-0.4 {
			t.Errorf("fs/%v at phase %.2f: %.2f dBTP, want -6.0", c.part, c.phase, got)
		}
	}
}

// A peak found piece by piece is the one found in the whole, wherever it lies between two pieces.
func TestTruePeakPieceByPiece(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	for i := range 200 {
		samples := make([]float32, 2000)
		for n := range samples {
			samples[n] = float32(0.2 * rng.NormFloat64())
		}
		for _, n := range []int{rng.IntN(1990), 5 + rng.IntN(20)} { // two high samples in turn peak between them
			samples[n], samples[n+1] = 1, 1
		}
		var m peakMeter
		for left := samples; len(left) > 0; {
			n := min(1+rng.IntN(300), len(left))
			m.add(left[:n])
			left = left[n:]
		}
		if want := truePeak(samples, 0); m.top != want {
			t.Errorf("signal %d peaks at %v, piece by piece at %v", i, want, m.top)
		}
	}
}

// anyScore returns a score such as drills play: some strings of some tuning, played some way, alone or
// beside another.
func anyScore(rng *rand.Rand) Score {
	tuning := fret.Tunings()[rng.IntN(len(fret.Tunings()))]
	chord := func() (notes []Sounding) {
		for i, open := range tuning.Strings {
			if len(notes) == 0 || rng.IntN(5) > 0 {
				notes = append(notes, Sounding{tuning.StringNumber(i), midiPitch(open.MIDI() + rng.IntN(13))})
			}
		}
		return notes
	}
	hand := Hand{Rand: rng, Tempo: 80 + 100*rng.Float64(), Ring: time.Duration(500+rng.IntN(3000)) * time.Millisecond}
	how := Hows()[rng.IntN(len(Hows()))]
	score := hand.Play(how, chord())
	if rng.IntN(3) == 0 {
		score = Then(350*time.Millisecond, score, hand.Play(how, chord()))
	}
	return score
}

// meter measures a sound with Debian's ffmpeg (its ebur128 filter is libebur128's algorithm).
func ebur128(t testing.TB, s *Sound) (lufs, truePeak float64) {
	t.Helper()
	var raw bytes.Buffer
	for _, x := range measure.Record(s, SampleRate).Samples {
		raw.Write(binary.LittleEndian.AppendUint32(nil, math.Float32bits(float32(x))))
		raw.Write(binary.LittleEndian.AppendUint32(nil, math.Float32bits(float32(x))))
	}
	ffmpeg := exec.Command("ffmpeg", "-nostats", "-f", "f32le", "-ar", "48000", "-ac", "2", "-i", "-", "-filter_complex", "ebur128=peak=true", "-f", "null", "-")
	ffmpeg.Stdin = &raw
	out, err := ffmpeg.CombinedOutput()
	if err != nil {
		t.Fatalf("ffmpeg: %v\n%s", err, out)
	}
	found := regexp.MustCompile(`Summary:(?s:.*?)I: +(\S+) LUFS(?s:.*?)Peak: +(\S+) dBFS`).FindAllSubmatch(out, -1)
	if found == nil {
		t.Fatalf("ffmpeg measured nothing:\n%s", out)
	}
	last := found[len(found)-1] // ffmpeg sums up once before it has begun
	lufs, _ = strconv.ParseFloat(string(last[1]), 64)
	truePeak, _ = strconv.ParseFloat(string(last[2]), 64)
	return lufs, truePeak
}

// Any two sounds are equally loud, within 1 LU, and none peaks above −1 dBTP: 80 random scores by our own
// meter, every eighth of them by ffmpeg too. With SPARETONE_STUDY=1 ffmpeg measures 500.
func TestEverySoundIsEquallyLoud(t *testing.T) {
	if _, err := exec.LookPath("ffmpeg"); err != nil {
		measure.Missing(t, "Debian's ffmpeg")
	}
	sounds, every := 80, 8
	if os.Getenv("SPARETONE_STUDY") != "" {
		sounds, every = 500, 1
	}
	rng := rand.New(rand.NewPCG(17, 0))
	softest, loudest, highest := 0.0, -100.0, -100.0
	for i := range sounds {
		v := voices[i%len(voices)]
		s, err := Render(anyScore(rng), v, Options{})
		if err != nil {
			t.Fatal(err)
		}
		lufs, peak := loudnessOf(s)
		if i%every == 0 {
			if err := s.Seek(0); err != nil {
				t.Fatal(err)
			}
			lufs, peak = ebur128(t, s)
		}
		softest, loudest, highest = min(softest, lufs), max(loudest, lufs), max(highest, peak)
		if math.Abs(lufs-Loudness) > 0.5 {
			t.Errorf("sound %d, %s, %v: %.1f LUFS", i, v.Name(), s.Duration(), lufs)
		}
		if peak > TruePeak+0.05 { // ffmpeg prints tenths
			t.Errorf("sound %d, %s, %v: %.1f dBTP", i, v.Name(), s.Duration(), peak)
		}
	}
	t.Logf("%d sounds: %.1f to %.1f LUFS, true peak up to %.1f dBTP", sounds, softest, loudest, highest)
}

// loudnessOf returns how loud a sound is, in LUFS, and how high it peaks, in dBTP, or that this is not above TruePeak.
func loudnessOf(s *Sound) (lufs, peak float64) {
	var samples []float32
	for _, x := range measure.Record(s, SampleRate).Samples {
		samples = append(samples, float32(x))
	}
	return loudness(measured(samples).powers, 1), 20 * math.Log10(truePeak(samples, Decibels(TruePeak)))
}

// measured is a sound measured in pieces that are no part of anything.
func measured(samples []float32) *meter {
	m := &meter{}
	for len(samples) > 0 {
		n := min(1237, len(samples))
		m.add(samples[:n])
		samples = samples[n:]
	}
	m.end()
	return m
}
