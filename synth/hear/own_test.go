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
