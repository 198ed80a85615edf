package hear_test

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/synth/hear"
	"sparetone/theory/fret"
)

// ownSound plays a score on a voice of ours and returns its samples, with half a second of what a quiet microphone hears before.
func ownSound(t testing.TB, voice string, score synth.Score, a4 float64) []float64 {
	t.Helper()
	v, err := synth.VoiceByName(voice)
	if err != nil {
		t.Fatal(err)
	}
	sound, err := synth.Render(score, v, synth.Options{A4: a4})
	if err != nil {
		t.Fatal(err)
	}
	out := make([]float64, int(synth.SampleRate)/2, int(synth.SampleRate)/2+sound.Len())
	defer func() {
		r := rand.New(rand.NewPCG(1, 1))
		for i := range out {
			out[i] += 2e-4 * r.NormFloat64()
		}
	}()
	var block [512][2]float64
	for {
		n, ok := sound.Stream(block[:])
		for _, frame := range block[:n] {
			out = append(out, frame[0])
		}
		if !ok {
			return out
		}
	}
}

// scoreOf is a shape as a hand plays it.
func scoreOf(tuning *fret.Tuning, shape fret.Shape, how synth.How) synth.Score {
	var notes []synth.Sounding
	for i, f := range shape {
		if f != fret.Muted {
			notes = append(notes, synth.Sounding{String: tuning.StringNumber(i), Pitch: tuning.Pitch(i, f)})
		}
	}
	order := make([]int, len(shape))
	for i := range order {
		order[i] = tuning.StringNumber(i)
	}
	return synth.Hand{Tempo: 240, Order: order, Ring: 1500 * time.Millisecond}.Play(how, notes)
}

func shapeOf(t testing.TB, typed string) fret.Shape {
	t.Helper()
	s, err := fret.ParseShape(typed)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What our own strings sound is heard, right and with a fault: plucked in turn every string, struck never the contrary.
func TestOwnSound(t *testing.T) {
	for _, c := range []struct {
		voice, tuning, expect, plays string
		want                         hear.Verdict
	}{
		{"ukulele", "ukulele", "0003", "0003", hear.Right},
		{"ukulele", "ukulele", "0232", "0231", hear.Other},
		{"ukulele", "ukulele", "2010", "2010", hear.Right},
		{"tenor", "ukulele-low-g", "2220", "2210", hear.Other},
		{"steel", "guitar", "x32010", "x32010", hear.Right},
		{"guitar", "guitar", "320003", "320001", hear.Other},
	} {
		for _, how := range []synth.How{synth.Strum, synth.Pick} {
			tuning := tuningCalled(t, c.tuning)
			plays := shapeOf(t, c.plays)
			tr := trial{tuning: tuning, expect: pitchesOf(tuning, shapeOf(t, c.expect)), truth: pitchesOf(tuning, plays), inTurn: how == synth.Pick}
			sound := ownSound(t, c.voice, scoreOf(tuning, plays, how), 0)
			heard, err := hear.Hear(sound, float64(synth.SampleRate), tr.task(nil, true))
			if err != nil {
				t.Fatal(err)
			}
			if len(heard) != 1 {
				t.Errorf("%s %s on %s, %s: %d readings: %v", c.plays, how, c.voice, c.expect, len(heard), heard)
				continue
			}
			r := heard[0]
			if r.Verdict != c.want && (how == synth.Pick || r.Verdict != hear.Unsure) {
				t.Errorf("%s %s on %s for %s: %s, %+v", c.plays, how, c.voice, c.expect, r.Verdict, r)
			}
			for i, h := range r.Strings {
				if h.Pitch != tr.truth[i] && h.Unison == 0 && (how == synth.Pick || h.Certain()) {
					t.Errorf("%s %s on %s for %s: string %d is heard at %d and sounds %d, %.3f", c.plays, how, c.voice, c.expect, h.Number, h.Pitch, tr.truth[i], h.Sure)
				}
			}
			if math.Abs(r.At-0.5) > 0.03 || math.Abs(r.Cents) > 4 {
				t.Errorf("%s %s on %s: at %.3f s, %.1f cents", c.plays, how, c.voice, r.At, r.Cents)
			}
		}
	}
}

// What is no instrument is no stroke: silence, noise, knocks, and a voice that glides, sings and hisses.
func TestNothingIsHeard(t *testing.T) {
	const rate = 16000.0
	r := rand.New(rand.NewPCG(3, 3))
	seconds := 12
	sounds := map[string][]float64{
		"silence": make([]float64, seconds*int(rate)), "noise": make([]float64, seconds*int(rate)), "knocks": make([]float64, seconds*int(rate)),
		"speech": spoken(r, rate, float64(seconds)),
	}
	for i := range sounds["noise"] {
		sounds["noise"][i] = 0.05 * r.NormFloat64()
		sounds["knocks"][i] = 0.0005 * r.NormFloat64()
	}
	for at := 0.5; at < float64(seconds)-1; at += 0.7 {
		for range 5 {
			f, fall := 100*math.Pow(20, r.Float64()), 0.005+0.05*r.Float64()
			for i := range int(8 * fall * rate) {
				if s := float64(i) / rate; int(at*rate)+i < len(sounds["knocks"]) {
					sounds["knocks"][int(at*rate)+i] += 0.1 * math.Exp(-s/fall) * math.Sin(2*math.Pi*f*s)
				}
			}
		}
	}
	tuning := tuningCalled(t, "ukulele")
	for name, sound := range sounds {
		for _, inTurn := range []bool{false, true} {
			heard, err := hear.Hear(sound, rate, trial{tuning: tuning, expect: []int{67, 60, 64, 72}, inTurn: inTurn}.task(nil, true))
			if err != nil {
				t.Fatal(err)
			}
			for _, h := range heard {
				if h.Verdict != hear.Unsure {
					t.Errorf("%s, in turn %v: %+v", name, inTurn, h)
				}
			}
			if len(heard) > 0 {
				t.Logf("%s, in turn %v: %d readings in %d s", name, inTurn, len(heard), seconds)
			}
		}
	}
}

// spoken is a voice that speaks, by pulses through formants that change with every syllable.
func spoken(r *rand.Rand, rate, seconds float64) []float64 {
	out := make([]float64, int(seconds*rate))
	f, phase, gain, aim, hiss := 120.0, 0.0, 0.0, 0.0, 0.0
	var formants [3]float64
	glide := 0.0
	for i := range out {
		if i%int(0.09*rate) == 0 {
			glide, aim, hiss = 5*r.NormFloat64(), 0, 0
			if r.Float64() < 0.75 {
				aim = 0.2 + 0.8*r.Float64()
				formants = [3]float64{250 + 600*r.Float64(), 800 + 1500*r.Float64(), 2200 + 1000*r.Float64()}
			}
			if r.Float64() < 0.25 {
				hiss = 0.1 * r.Float64()
			}
			if r.Float64() < 0.1 {
				f = 100 + 100*r.Float64()
			}
		}
		f *= math.Exp2(glide / 12 / rate)
		gain += (aim - gain) * 60 / rate
		phase += f / rate
		var x float64
		for n := 1; n <= 14; n++ {
			fn, a := f*float64(n), 0.03
			for _, fo := range formants {
				d := (fn - fo) / (0.12 * fo)
				a += 1 / (1 + d*d)
			}
			x += a / float64(n) * math.Sin(2*math.Pi*phase*float64(n))
		}
		out[i] = 0.1*gain*x + 0.1*hiss*r.NormFloat64() + 1e-4*r.NormFloat64()
	}
	return out
}

// Blocks of whatever size are heard as the whole is.
func TestBlocksAreHeardAsTheWhole(t *testing.T) {
	tuning := tuningCalled(t, "ukulele")
	sound := ownSound(t, "ukulele", synth.Then(300*time.Millisecond, scoreOf(tuning, shapeOf(t, "0003"), synth.Strum), scoreOf(tuning, shapeOf(t, "2010"), synth.Strum)), 0)
	task := trial{tuning: tuning, expect: []int{67, 60, 64, 72}}.task([][]int{{69, 60, 65, 69}}, true)
	want, err := hear.Hear(sound, float64(synth.SampleRate), task)
	if err != nil || len(want) != 2 || want[0].Verdict != hear.Right || want[1].Verdict != hear.Other {
		t.Fatalf("%+v, %v", want, err)
	}
	for _, size := range []int{100, 4096, len(sound)} {
		l, err := hear.Listen(float64(synth.SampleRate), task)
		if err != nil {
			t.Fatal(err)
		}
		var got []hear.Reading
		for from := 0; from < len(sound); from += size {
			got = append(got, l.Feed(sound[from:min(from+size, len(sound))])...)
		}
		got = append(got, l.End()...)
		if len(got) != len(want) {
			t.Fatalf("in blocks of %d: %+v", size, got)
		}
		for i := range got {
			if got[i].At != want[i].At || got[i].Verdict != want[i].Verdict || math.Abs(got[i].Cents-want[i].Cents) > 1e-9 {
				t.Errorf("in blocks of %d: %+v, want %+v", size, got[i], want[i])
			}
		}
	}
}

// BenchmarkHear hears twenty seconds; x-realtime is how many times faster than it was played. In turn it is given what is struck at once, whose
// plucks are never whole, and what is plucked in turn but for one string, which is sought.
func BenchmarkHear(b *testing.B) {
	tuning := tuningCalled(b, "guitar")
	expect := pitchesOf(tuning, shapeOf(b, "x32010"))
	for _, c := range []struct {
		name, plays string
		how         synth.How
		inTurn      bool
	}{{"strokes", "x32010", synth.Strum, false}, {"turn", "x32010", synth.Strum, true}, {"plucked", "x3x010", synth.Pick, true}} {
		b.Run(c.name, func(b *testing.B) {
			one := ownSound(b, "steel", scoreOf(tuning, shapeOf(b, c.plays), c.how), 0)
			var sound []float64
			for len(sound) < 20*int(synth.SampleRate) {
				sound = append(sound, one...)
				if c.inTurn && c.how == synth.Pick {
					sound = append(sound, one[len(one)-int(2*synth.SampleRate):]...) // and waits
				}
			}
			for b.Loop() {
				if _, err := hear.Hear(sound, float64(synth.SampleRate), trial{tuning: tuning, expect: expect, inTurn: c.inTurn}.task(nil, true)); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(len(sound))/float64(synth.SampleRate)/(b.Elapsed().Seconds()/float64(b.N)), "x-realtime")
		})
	}
}
