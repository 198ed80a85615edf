package hear_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/synth/hear"
	"sparetone/theory"
)

// sung is a voice that sings f Hz for a second: pulses through three formants, a vibrato of 25 cents, a little breath.
func sung(r *rand.Rand, f, rate float64) []float64 {
	out := make([]float64, int(rate))
	formants := [3]float64{300 + 600*r.Float64(), 900 + 1300*r.Float64(), 2200 + 1000*r.Float64()}
	var amplitudes [30]float64
	for n := range amplitudes {
		fn := f * float64(n+1)
		for _, fo := range formants {
			d := (fn - fo) / (0.15 * fo)
			amplitudes[n] += 1 / (1 + d*d)
		}
		amplitudes[n] = (amplitudes[n] + 0.03) / float64(n+1)
	}
	phase := r.Float64()
	for i := range out {
		t := float64(i) / rate
		phase += f * math.Exp2(25*math.Sin(2*math.Pi*5.5*t)/1200) / rate
		for n, a := range amplitudes {
			if f*float64(n+1) < 5000 {
				out[i] += 0.1 * a * math.Sin(2*math.Pi*phase*float64(n+1))
			}
		}
		out[i] += 0.002 * r.NormFloat64()
	}
	return out
}

// One note is heard as it is, plucked on each of our voices and sung, never an octave off.
func TestOneNote(t *testing.T) {
	const rate = float64(synth.SampleRate)
	r := rand.New(rand.NewPCG(4, 4))
	var off []float64
	for _, v := range []string{"ukulele", "tenor", "guitar", "steel"} {
		for _, midi := range []int{40, 47, 55, 60, 64, 69, 76} {
			pitch, _ := theory.Spell(midi, [12]theory.Note{0: {Letter: theory.C}, 4: {Letter: theory.E}, 7: {Letter: theory.G}, 9: {Letter: theory.A}, 11: {Letter: theory.B}}[midi%12])
			sound := ownSound(t, v, synth.Score{Length: time.Second, Plucks: []synth.Pluck{{String: 1, Pitch: pitch, Strength: 0.7}}}, 0)
			got, ok := hear.ToneOf(sound[int(0.6*rate):int(1.2*rate)], rate, 60, 1200)
			if cents := 1200 * math.Log2(got.Hz/pitch.Frequency(440)); !ok || math.Abs(cents) > 15 {
				t.Errorf("%v on %s: %.1f Hz, %.1f cents off, %v", pitch, v, got.Hz, cents, ok)
			} else {
				off = append(off, math.Abs(cents))
			}
		}
	}
	for range 40 {
		f := 80 * math.Pow(10, r.Float64())
		got, ok := hear.ToneOf(sung(r, f, rate), rate, 60, 1200)
		if cents := 1200 * math.Log2(got.Hz/f); !ok || math.Abs(cents) > 15 {
			t.Errorf("%.1f Hz sung: %.1f, %.1f cents off, %v", f, got.Hz, cents, ok)
		} else {
			off = append(off, math.Abs(cents))
		}
	}
	slices.Sort(off)
	if half := off[len(off)/2]; half > 3 {
		t.Errorf("half of the notes are more than %.1f cents off", half)
	}
}

// A note of which the even partials are far stronger than the odd ones is not taken for its octave, nor one in noise, or that rises, for a lower one.
func TestWeakOddPartials(t *testing.T) {
	const rate = 48000.0
	for _, c := range []struct {
		name                string
		odd, noise, stretch float64 // strength of odd partials and of the noise; by how much the second partial is off, in cents
	}{{"all alike", 1, 0.01, 0}, {"odd ones weak", 0.12, 0.01, 0}, {"odd ones weak, and noise", 0.14, 0.03, 0}, {"noise", 1, 0.3, 0}, {"stretched", 0.3, 0.01, 4}} {
		r := rand.New(rand.NewPCG(8, 8))
		for _, hz := range []float64{110, 220, 440, 554} {
			sound := make([]float64, int(rate/2))
			for i := range sound {
				at := 2 * math.Pi * hz * float64(i) / rate
				sound[i] = 0.1*(c.odd*math.Sin(at)+math.Sin(2*at*math.Exp2(c.stretch/1200))+c.odd*0.8*math.Sin(3*at)) + 0.1*c.noise*r.NormFloat64()
			}
			if got, ok := hear.ToneOf(sound, rate, 60, 1200); !ok || math.Abs(1200*math.Log2(got.Hz/hz)) > 10 {
				t.Errorf("%s: %v Hz is heard at %.1f, %v", c.name, hz, got.Hz, ok)
			}
		}
	}
}

// A held note is told from one that has just begun, and from the next.
func TestHeldNote(t *testing.T) {
	const rate = 48000.0
	tones, err := hear.NewTones(rate, 60, 1200)
	if err != nil {
		t.Fatal(err)
	}
	r := rand.New(rand.NewPCG(1, 2))
	first, second := sung(r, 220, rate), sung(r, 330, rate)
	tones.Feed(first[:int(0.15*rate)])
	if n, ok := tones.Sustained(); ok {
		t.Errorf("held after 0.15 s: %+v", n)
	}
	tones.Feed(first[int(0.15*rate):])
	if n, ok := tones.Sustained(); !ok || math.Abs(1200*math.Log2(n.Hz/220)) > 10 || n.Length < 0.7 {
		t.Errorf("held after a second: %+v, %v", n, ok)
	}
	tones.Feed(second)
	if n, ok := tones.Sustained(); !ok || math.Abs(1200*math.Log2(n.Hz/330)) > 10 || n.At < 0.9 {
		t.Errorf("held after another second: %+v, %v", n, ok)
	}
	tones.Feed(make([]float64, int(rate/2)))
	if n, ok := tones.Sustained(); ok {
		t.Errorf("held in silence: %+v", n)
	}
}

func TestTonesAreRefused(t *testing.T) {
	for _, c := range [][3]float64{{100, 60, 1000}, {48000, 10, 1000}, {48000, 500, 400}, {8000, 60, 3000}} {
		if _, err := hear.NewTones(c[0], c[1], c[2]); err == nil {
			t.Errorf("%v is taken", c)
		}
	}
}
