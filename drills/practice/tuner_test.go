package practice_test

import (
	"math"
	"testing"

	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/synth/capture"
)

// plucked is a string that sounds for so many seconds, with some partials that die away, at a rate of 16,000 a second.
func plucked(hz, seconds float64) []float64 {
	out := make([]float64, int(16000*seconds))
	for i := range out {
		at := float64(i) / 16000
		for n := 1.0; n <= 5; n++ {
			out[i] += 0.2 / n * math.Exp(-n*at) * math.Sin(2*math.Pi*hz*n*at)
		}
		out[i] += 1e-5 * float64(i*7919%13-6)
	}
	return out
}

func TestTuningIsSaid(t *testing.T) {
	app := practice.App{Settings: setting.Standard}
	tuner, err := app.NewTuner()
	if err != nil {
		t.Fatal(err)
	}
	cents := func(midi int, off float64) float64 { return 440 * math.Exp2((float64(midi-69)+off/100)/12) }
	for _, c := range []struct {
		what  []float64
		news  []string
		words string
	}{
		{plucked(20, 0.5)[:0], nil, "Pluck one string, and let it ring."},
		{plucked(cents(67, -14), 1.5), []string{"The g string is 14 cents low: tighten it."}, "The g string is 14 cents low: tighten it."},
		{plucked(cents(60, 30), 1.5), []string{"The C string is 30 cents high: loosen it."}, ""},
		{plucked(cents(60, -13), 1.5), []string{"The C string is 13 cents low, as the others are."}, ""},
		{plucked(cents(64, -14), 1.5), []string{"The E string is 14 cents low, as the others are."}, ""},
		{plucked(cents(69, -14), 1.5), []string{"The A string is 14 cents low, as the others are. The strings agree: the instrument is in tune with itself, 14 cents low as a whole. It is heard as it is."}, ""},
		{append(plucked(cents(69, 2), 1.0), plucked(cents(69, 9), 2.6)...), []string{"The A string is in tune.", "The A string is 9 cents high: loosen it."}, ""},
	} {
		var news []string
		for at := 0; at < len(c.what); at += 800 {
			if err := tuner.Take(capture.Sound{Samples: c.what[at:min(len(c.what), at+800)], Rate: 16000, Run: 1}); err != nil {
				t.Fatal(err)
			}
			if n := tuner.News(); !n.IsZero() {
				news = append(news, n.Screen())
			}
		}
		if len(news) != len(c.news) {
			t.Errorf("it says %q; want %q", news, c.news)
			continue
		}
		for i, n := range news {
			if n != c.news[i] {
				t.Errorf("it says %q; want %q", n, c.news[i])
			}
		}
		if c.words != "" && tuner.Words().Screen() != c.words {
			t.Errorf("it shows %q; want %q", tuner.Words().Screen(), c.words)
		}
	}
	if all := tuner.Strings(); all[3].Number != 1 || !all[3].Sounds || math.Abs(all[3].Cents-9) > 1 || all[0].Sounds || math.Abs(all[0].Cents+14) > 1 {
		t.Errorf("the strings stand at %+v", all)
	}
	// Behind a gap all is heard anew.
	if err := tuner.Take(capture.Sound{Samples: plucked(cents(67, 0), 0.1), Rate: 16000, Run: 2}); err != nil || tuner.Strings()[0].Heard {
		t.Errorf("after a gap %+v, %v", tuner.Strings(), err)
	}
	if err := tuner.Take(capture.Sound{Samples: []float64{0}, Rate: 10, Run: 3}); err == nil {
		t.Error("ten samples a second are taken")
	}
}
