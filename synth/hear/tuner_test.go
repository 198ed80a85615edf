package hear_test

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/synth/hear"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// opens are the open strings of a tuning.
func opens(t *fret.Tuning) (out []hear.String) {
	for i := range t.Strings {
		out = append(out, hear.String{Number: t.StringNumber(i), Open: t.MIDI(i, 0)})
	}
	return out
}

// tuned feeds a sound in which each string is plucked three seconds after the last, the first after half a second, and returns what is told of
// each two seconds after its pluck, and how long after it the first word came.
func tuned(t testing.TB, tuner *hear.Tuner, sound []float64, rate float64, strings int) (out []hear.Tuned, after []float64) {
	t.Helper()
	at, told := 0, 0.0
	for n := range strings {
		pluck := 0.5 + 3*float64(n)
		for ; at < int((pluck+2)*rate) && at < len(sound); at += 480 {
			if tuner.Feed(sound[at:min(len(sound), at+480)]) && told == 0 && float64(at) > (pluck+0.1)*rate {
				if now, _ := tuner.Now(); now.At > pluck-0.1 {
					told = float64(at)/rate - pluck
				}
			}
		}
		now, _ := tuner.Now()
		out, after = append(out, now), append(after, told)
		told = 0
		for ; at < int((pluck+2.9)*rate) && at < len(sound); at += 480 {
			tuner.Feed(sound[at:min(len(sound), at+480)])
		}
	}
	return out, after
}

// Which string it is, and how far off, is told of our own strings on any tuning.
func TestStringsAreTuned(t *testing.T) {
	const rate = float64(synth.SampleRate)
	for _, c := range []struct {
		voice, tuning string
		whole         float64 // cents that the instrument is off
	}{{"ukulele", "ukulele", 0}, {"ukulele", "ukulele", -38}, {"tenor", "baritone", 30}, {"steel", "guitar", 20}, {"steel", "banjo", -10}, {"mandolin", "mandolin", 15}} {
		tuning := tuningCalled(t, c.tuning)
		score := synth.Score{Length: time.Duration(len(tuning.Strings)) * 3 * time.Second}
		for i := range tuning.Strings {
			score.Plucks = append(score.Plucks, synth.Pluck{String: tuning.StringNumber(i), Pitch: tuning.Strings[i], At: time.Duration(i) * 3 * time.Second, Strength: 0.6})
		}
		sound := ownSound(t, c.voice, score, 440*math.Exp2(c.whole/1200))
		tuner, err := hear.NewTuner(rate, opens(tuning), 440)
		if err != nil {
			t.Fatal(err)
		}
		told, after := tuned(t, tuner, sound, rate, len(tuning.Strings))
		for i, now := range told {
			want := tuning.StringNumber(i)
			if !slices.Equal(now.Numbers, []int{want}) || math.Abs(now.Cents-c.whole) > 3 || after[i] <= 0 || after[i] > 1 {
				t.Errorf("%s, %v cents off: string %d is told as %v, %.1f cents, first after %.2f s, noise %.0f dB below", c.tuning, c.whole, want, now.Numbers, now.Cents, after[i], now.Noise)
			}
		}
		for _, s := range opens(tuning) {
			if last, ok := tuner.Of(s.Number); !ok || math.Abs(last.Cents-c.whole) > 3 {
				t.Errorf("%s, %v cents off: string %d was told last as %.1f cents off", c.tuning, c.whole, s.Number, last.Cents)
			}
		}
		if whole, agrees := tuner.Whole(); math.Abs(whole-c.whole) > 2 || !agrees {
			t.Errorf("%s: the whole is told as %.1f cents off, agrees: %v; want %v", c.tuning, whole, agrees, c.whole)
		}
	}
}

// In noise it asks for quiet instead of guessing: a string is told where the noise lies 30 dB below, and not where it lies 10 dB below.
func TestATunerAsksForQuiet(t *testing.T) {
	const rate = float64(synth.SampleRate)
	tuning := tuningCalled(t, "ukulele")
	score := synth.Score{Length: 3 * time.Second, Plucks: []synth.Pluck{{String: 3, Pitch: tuning.Strings[1], Strength: 0.6}}}
	clean := ownSound(t, "ukulele", score, 440)
	for _, c := range []struct {
		below float64
		told  bool
	}{{40, true}, {30, true}, {10, false}, {4, false}} {
		sound := withNoise(rand.New(rand.NewPCG(1, 2)), slices.Clone(clean), c.below, int(0.5*rate), int(0.9*rate))
		tuner, _ := hear.NewTuner(rate, opens(tuning), 440)
		heard := false
		for block := range slices.Chunk(sound[:int(2*rate)], 480) {
			if tuner.Feed(block) {
				now, _ := tuner.Now()
				heard = heard || now.Numbers != nil
				if now.Numbers == nil && (now.Noise >= hear.Clean || now.Hz != 0) {
					t.Errorf("noise %v dB below: nothing is told, though %+v", c.below, now)
				}
			}
		}
		if heard != c.told {
			t.Errorf("noise %v dB below: a string is told: %v; want %v", c.below, heard, c.told)
		}
	}
	tuner, _ := hear.NewTuner(rate, opens(tuning), 440)
	r := rand.New(rand.NewPCG(3, 3))
	noise := make([]float64, int(3*rate))
	for i := range noise {
		noise[i] = 0.03 * r.NormFloat64()
	}
	if tuner.Feed(noise[:int(1.5*rate)]); tuner.Noisy() {
		t.Error("it is called noisy at once")
	}
	if tuner.Feed(noise[int(1.5*rate):]) || !tuner.Noisy() {
		t.Errorf("it is not called noisy: %+v", tuner.Level())
	}
}

// What comes at once is heard as what comes bit by bit.
func TestATunerHearsAllAtOnce(t *testing.T) {
	const rate = float64(synth.SampleRate)
	tuning := tuningCalled(t, "ukulele")
	score := synth.Score{Length: 4 * time.Second, Plucks: []synth.Pluck{{String: 3, Pitch: tuning.Strings[1], Strength: 0.6}, {String: 2, Pitch: tuning.Strings[2], At: 2 * time.Second, Strength: 0.6}}}
	sound := ownSound(t, "ukulele", score, 440)
	tuner, _ := hear.NewTuner(rate, opens(tuning), 440)
	if !tuner.Feed(sound) {
		t.Fatal("nothing is heard")
	}
	for _, n := range []int{3, 2} {
		if one, ok := tuner.Of(n); !ok || math.Abs(one.Cents) > 3 {
			t.Errorf("string %d is heard: %v, %.1f cents off", n, ok, one.Cents)
		}
	}
}

func TestTunersAreRefused(t *testing.T) {
	strings := opens(tuningCalled(t, "ukulele"))
	for want, make := range map[string]func() (*hear.Tuner, error){
		"0 strings to tune: it must be 1 to 12":                     func() (*hear.Tuner, error) { return hear.NewTuner(48000, nil, 440) },
		"string 4 at MIDI number 20: it must be 24 to 108":          func() (*hear.Tuner, error) { return hear.NewTuner(48000, []hear.String{{Number: 4, Open: 20}}, 440) },
		"a rate of 100 samples a second: it must be 8000 to 192000": func() (*hear.Tuner, error) { return hear.NewTuner(100, strings, 440) },
	} {
		if _, err := make(); err == nil || err.Error() != want {
			t.Errorf("%v; want %s", err, want)
		}
	}
}

// TestStudyOfTuning measures the tuner on recorded strings, plucked three seconds apart and left ringing. SPARETONE_FONTS and SPARETONE_ON
// say on which fonts and for which tuning.
func TestStudyOfTuning(t *testing.T) {
	if os.Getenv("SPARETONE_STUDY") == "" {
		t.Skip("a study: SPARETONE_STUDY=1 has it run")
	}
	for _, f := range fonts {
		if only := os.Getenv("SPARETONE_FONTS"); only != "" && !strings.Contains(only, f.name) {
			continue
		}
		if !f.there() {
			t.Logf("%s is not there", f.name)
			continue
		}
		for _, on := range []struct {
			tuning  string
			program int
		}{{"ukulele", nylon}, {"ukulele-low-g", nylon}, {"baritone", nylon}, {"guitar", nylon}, {"guitar", steel}} {
			if only := os.Getenv("SPARETONE_ON"); only != "" && only != on.tuning {
				continue
			}
			tuning := tuningCalled(t, on.tuning)
			r := rand.New(rand.NewPCG(19, 5))
			var off, after []float64
			plucks, right, quiet := 0, 0, 0
			for range 6 {
				whole := 60*r.Float64() - 30
				var notes []sounded
				var cents []float64
				for i := range tuning.Strings {
					cents = append(cents, whole+20*r.Float64()-10)
					notes = append(notes, sounded{at: 0.5 + 3*float64(i), length: 6, channel: i, midi: tuning.MIDI(i, 0), velocity: 60 + r.IntN(50), cents: cents[i]})
				}
				length := 0.5 + 3*float64(len(notes))
				sound := f.renderAfter(t, on.program, notes, length)
				sound = withNoise(r, inRoom(r, sound), 30, int(0.5*fontRate), int(0.9*fontRate))
				tuner, err := hear.NewTuner(fontRate, opens(tuning), 440)
				if err != nil {
					t.Fatal(err)
				}
				told, first := tuned(t, tuner, sound, fontRate, len(notes))
				for i, now := range told {
					plucks++
					if now.Noise < hear.Clean {
						quiet++
						continue
					}
					if !slices.Equal(now.Numbers, []int{tuning.StringNumber(i)}) {
						t.Logf("%s, %s, program %d: string %d, velocity %d, is told as %+v, after %.2f s", f.name, on.tuning, on.program, tuning.StringNumber(i), notes[i].velocity, now, first[i])
					} else {
						right++
						off, after = append(off, math.Abs(now.Cents-cents[i])), append(after, first[i])
					}
				}
			}
			slices.Sort(off)
			slices.Sort(after)
			if len(off) == 0 {
				t.Errorf("%s, %s, program %d: nothing was told", f.name, on.tuning, on.program)
				continue
			}
			t.Logf("%-8s %-14s %d: %3d strings, %5.1f %% told right, %d asked for quiet; cents off %.1f in the middle, %.1f of 9 in 10, %.1f at most; told after %.2f s, %.2f at most",
				f.name, on.tuning, on.program, plucks, percent(right, plucks), quiet, off[len(off)/2], off[len(off)*9/10], off[len(off)-1], after[len(after)/2], after[len(after)-1])
		}
	}
}

// Strings that ring on under the one that is plucked do not mislead: together they repeat themselves far below the lowest, and the second
// partial of a low string is often stronger than its first.
func TestStringsAreTunedWhileOthersRing(t *testing.T) {
	const rate = 16000.0
	tuning := tuningCalled(t, "guitar")
	r := rand.New(rand.NewPCG(8, 8))
	sound := make([]float64, int((0.5+3*6)*rate))
	cents := []float64{-12, 9, -4, 15, 0, -20}
	for i := range tuning.Strings {
		f := theory.MIDIFrequency(tuning.MIDI(i, 0), 440) * math.Exp2(cents[i]/1200)
		from := int((0.5 + 3*float64(i)) * rate)
		for k := 1; k <= 8 && f*float64(k) < 4000; k++ {
			loud := 0.06 / float64(k)
			if k == 1 && f < 120 {
				loud = 0.02
			}
			for n := from; n < len(sound); n++ {
				at := float64(n-from) / rate
				sound[n] += loud * math.Exp(-at*(0.3+0.1*float64(k))) * min(1, at/0.004) * math.Sin(2*math.Pi*f*float64(k)*at)
			}
		}
	}
	for i := range sound {
		sound[i] += 1e-4 * r.NormFloat64()
	}
	tuner, err := hear.NewTuner(rate, opens(tuning), 440)
	if err != nil {
		t.Fatal(err)
	}
	told, after := tuned(t, tuner, sound, rate, len(tuning.Strings))
	for i, now := range told {
		if want := tuning.StringNumber(i); !slices.Equal(now.Numbers, []int{want}) || math.Abs(now.Cents-cents[i]) > 3 || after[i] <= 0 || after[i] > 0.7 {
			t.Errorf("string %d, %v cents off, is told as %v, %.1f cents, first after %.2f s", want, cents[i], now.Numbers, now.Cents, after[i])
		}
	}
}

// What is told of a string stands when it has died away, and the next one is plucked.
func TestAStringThatDiedAwayStands(t *testing.T) {
	const rate = 16000.0
	tuning := tuningCalled(t, "ukulele")
	r := rand.New(rand.NewPCG(9, 9))
	sound := make([]float64, int(6.5*rate))
	for n, i := range []int{1, 2} { // C and E
		f := theory.MIDIFrequency(tuning.MIDI(i, 0), 440)
		for m := range int(1.2 * rate) {
			for k := 1; k <= 6; k++ {
				at := float64(m) / rate
				sound[int((0.5+3*float64(n))*rate)+m] += 0.05 / float64(k) * math.Exp(-at*float64(k)) * min(1, at/0.004) * math.Sin(2*math.Pi*f*float64(k)*at)
			}
		}
	}
	for i := range sound {
		sound[i] += 5e-4 * r.NormFloat64()
	}
	tuner, err := hear.NewTuner(rate, opens(tuning), 440)
	if err != nil {
		t.Fatal(err)
	}
	tuned(t, tuner, sound, rate, 2)
	for _, number := range []int{3, 2} {
		if last, heard := tuner.Of(number); !heard || math.Abs(last.Cents) > 1.5 {
			t.Errorf("string %d is told at last as %.1f cents off, heard: %v", number, last.Cents, heard)
		}
	}
}
