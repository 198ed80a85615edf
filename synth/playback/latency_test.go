package playback

import (
	"os"
	"slices"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/synth/measure"

	"github.com/gopxl/beep/v2/speaker"
)

// BenchmarkKeyToSound reports how long it takes from a key to the first sample that the device takes:
// a strum is rendered, levelled and played, and PulseAudio fetches it. Run it with -benchtime 1000x.
func BenchmarkKeyToSound(b *testing.B) {
	measure.StartNullSink(b)
	s := openSpeaker(1, deviceBuffer, openDevice)
	defer s.Close()
	await(b, s, Ready, 2*time.Second)
	score := chordScore(b)
	var rendered, played, taken []time.Duration
	for b.Loop() {
		time.Sleep(time.Duration(len(taken)%13+20) * time.Millisecond) // keys come at any time
		key := time.Now()
		sound, err := synth.Render(score, synth.Voices()[0], synth.Options{})
		if err != nil {
			b.Fatal(err)
		}
		rendered = append(rendered, time.Since(key))
		s.Play(sound)
		for s.mix.heard() == 0 {
			time.Sleep(20 * time.Microsecond)
		}
		taken = append(taken, time.Since(key))
		played = append(played, taken[len(taken)-1]-rendered[len(rendered)-1])
	}
	slices.Sort(rendered)
	slices.Sort(taken)
	slices.Sort(played)
	b.ReportMetric(played[len(played)/2].Seconds()*1000, "ms-played-median")
	b.ReportMetric(played[len(played)*99/100].Seconds()*1000, "ms-played-99%")
	b.ReportMetric(rendered[len(rendered)/2].Seconds()*1000, "ms-render-median")
	b.ReportMetric(taken[len(taken)/2].Seconds()*1000, "ms-median")
	b.ReportMetric(taken[len(taken)*99/100].Seconds()*1000, "ms-99%")
	b.ReportMetric(0, "ns/op")
}

// From Play to what is heard outside, beside the smallest program that beep's own speaker makes, in the
// same run: SPARETONE_STUDY=1.
func TestKeyToEar(t *testing.T) {
	if os.Getenv("SPARETONE_STUDY") == "" {
		t.Skip("SPARETONE_STUDY is not set")
	}
	out := measure.StartNullSink(t)
	ear := func(play func(*synth.Sound)) time.Duration {
		var delays []time.Duration
		for i := range 40 {
			sound := chordSound(t)
			time.Sleep(time.Duration(300+i) * time.Millisecond)
			out.Take()
			key := time.Now()
			play(sound)
			for {
				if heard := out.Take(); measure.HighestStep(heard.Samples, 0, len(heard.Samples)) > 1e-4 {
					delays = append(delays, time.Since(key))
					break
				}
				time.Sleep(200 * time.Microsecond)
			}
		}
		slices.Sort(delays)
		return delays[len(delays)/2]
	}

	s := Open(1)
	await(t, s, Ready, 2*time.Second)
	ours := ear(func(sound *synth.Sound) {
		s.Play(sound)
		time.AfterFunc(100*time.Millisecond, s.Stop)
	})
	s.Close()

	if err := speaker.Init(synth.SampleRate, synth.SampleRate.N(deviceBuffer)); err != nil {
		t.Fatal(err)
	}
	beeps := ear(func(sound *synth.Sound) {
		speaker.Play(sound)
		time.AfterFunc(100*time.Millisecond, speaker.Clear)
	})
	t.Logf("from Play to the recording, median of 40, the recorder's own delay included: %v; beep's speaker with the same buffer: %v", ours, beeps)
}
