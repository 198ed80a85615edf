package perform

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// livelyPlayed plays so many bars of a song, and does something before a bar is asked for.
func livelyPlayed(t *testing.T, l *Live, bars int, before map[int]func()) synth.Score {
	t.Helper()
	var all synth.Score
	for n := range bars {
		if do := before[n]; do != nil {
			do()
		}
		s, stills := l.bar(n)
		for _, still := range stills {
			all = all.Still(all.Length+still.At, still.String)
		}
		all = synth.RingOn(all, s)
	}
	return all
}

func live(t *testing.T, a arrange.Arrangement, w Wishes, from int) *Live {
	t.Helper()
	l, err := NewLive(a, w, from)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// What is played bar by bar is, pluck by pluck and to where each is stilled, what is written out at once.
func TestLiveIsWhatIsWrittenOut(t *testing.T) {
	for _, chart := range []string{
		"tempo: 60\nmeter: 4/4\npick: 4 2 3 1\nkey: C\n| C | F G | Am | N.C. F |",
		"tempo: 75\nmeter: 3/4\nstrum: D . D U . U D\nkey: C\n| C | F | G7 | C | / |", // seven steps: it goes on over bars
		"tempo: 90\npick: 4h - . (21)\nkey: G\n| G | C | D7 |",
	} {
		for _, sounds := range All() {
			w := Wishes{Sounds: sounds, Rounds: 3, Click: true, CountIn: true}
			a := arranged(t, chart, 8)
			p, err := Play(a, w)
			if err != nil {
				t.Fatal(err)
			}
			rounds := 3
			if sounds == ByTurns {
				rounds = 6
			}
			got := livelyPlayed(t, live(t, a, w, 1), 1+rounds*a.Bars, nil)
			got.Length += lastRing
			want := p.Score
			order := func(a, b synth.Pluck) int {
				if d := a.At - b.At; d.Abs() > time.Microsecond {
					return int(d)
				}
				return a.String - b.String
			}
			slices.SortStableFunc(got.Plucks, order)
			slices.SortStableFunc(want.Plucks, order)
			if len(got.Plucks) != len(want.Plucks) {
				t.Fatalf("%q %s: %d plucks, want %d", chart, sounds, len(got.Plucks), len(want.Plucks))
			}
			for i, k := range got.Plucks {
				o := want.Plucks[i]
				if (k.At-o.At).Abs() > time.Microsecond || (k.Damp-o.Damp).Abs() > time.Microsecond || k.String != o.String || k.Pitch != o.Pitch || k.Slur != o.Slur || k.Strength != o.Strength {
					t.Fatalf("%q %s: pluck %d is %+v, want %+v", chart, sounds, i, k, o)
				}
			}
		}
	}
}

// Tempo, what is heard, a shape and the chords change at the next bar line and not before; what keeps its pitch rings on.
func TestChangesTakeEffectAtTheBarLine(t *testing.T) {
	a := arranged(t, "tempo: 60\nmeter: 2/4\npick: 4 1\nkey: C\n| C | F |", 10)
	w := Wishes{Sounds: Plain}
	l := live(t, a, w, 1)
	other := arranged(t, "tempo: 60\nmeter: 2/4\npick: 4 1\nkey: C\n| C | Am |", 0)
	change := func(a arrange.Arrangement, w Wishes) func() {
		return func() {
			if err := l.Change(a, w); err != nil {
				t.Error(err)
			}
		}
	}
	var seen []Now
	note := func(do func()) func() {
		return func() {
			seen = append(seen, l.Now())
			if do != nil {
				do()
			}
		}
	}
	got := livelyPlayed(t, l, 6, map[int]func(){
		1: note(change(a, Wishes{Sounds: Plain, Tempo: 120})), 2: note(nil), 3: note(change(a, Wishes{Tempo: 30})), 4: note(change(other, Wishes{Tempo: 60})), 5: note(nil),
	})
	// C plain at 60; F plain at 120; C plain at 120; F coloured at 30; C at 60; Am at 60
	want := "4:67@0 1:72@1000 4:69@2000 1:69@2500 4:67@3000 1:72@3500 4:67@4000 1:69@6000 4:67@8000 1:72@9000 4:69@10000 1:69@11000"
	if text := written(Performance{Score: got}); text != want || got.Length != 12*time.Second {
		t.Errorf("%v\n%s, want\n%s", got.Length, text, want)
	}
	for i, want := range []Now{{1, false, 60}, {2, false, 120}, {1, false, 120}, {2, true, 30}, {1, true, 60}} {
		if seen[i] != want {
			t.Errorf("before bar %d: %+v, want %+v", i+1, seen[i], want)
		}
	}
	for _, k := range got.Plucks { // the g string sounds G in coloured F as in C, and is only stilled by its next pluck
		if k.At == 4*time.Second && k.Damp != 0 {
			t.Errorf("stilled after %v", k.Damp)
		}
		if k.At == 3*time.Second+500*time.Millisecond && k.Damp != 500*time.Millisecond {
			t.Errorf("C on the first string is stilled after %v", k.Damp)
		}
	}
}

// A song is begun at a bar, and anew from there.
func TestLiveBeginsAtABar(t *testing.T) {
	a := arranged(t, "tempo: 60\nmeter: 1/4\npick: 4\nkey: C\n| C | F | G |", 0)
	l := live(t, a, Wishes{CountIn: true}, 2)
	for range 2 {
		if got := written(Performance{Score: livelyPlayed(t, l, 4, nil)}); got != "0:96@0 4:69@1000 4:67@2000 4:67@3000" {
			t.Error(got)
		}
	}
}

// As it is rendered, tempo changes at the bar line to the sample, nothing is louder than it may be, and it goes on without end.
func TestLiveSounds(t *testing.T) {
	a := arranged(t, "tempo: 120\nmeter: 2/4\nstrum: D\nkey: C\n| C | F |", 10)
	l := live(t, a, Wishes{}, 1)
	sound, err := l.Sound(synth.Voices()[0], synth.Options{})
	if err != nil {
		t.Fatal(err)
	}
	peak := 0.0
	var buf [512][2]float64
	for range 40 {
		n, ok := sound.Stream(buf[:])
		for _, x := range buf[:n] {
			peak = max(peak, math.Abs(x[0]))
		}
		if !ok || n != len(buf) {
			t.Fatalf("%d samples, %v", n, ok)
		}
	}
	if peak == 0 || peak > math.Pow(10, synth.TruePeak/20) {
		t.Errorf("peak %v", peak)
	}
	none := arrange.Arrangement{Song: a.Song, Tuning: a.Tuning, Bars: 1, Places: []arrange.Place{{Change: song.Change{Silent: true, Beats: 2, Bar: 1, At: 1}}}}
	if _, err := live(t, none, Wishes{}, 1).Sound(synth.Voices()[0], synth.Options{}); err == nil || !strings.Contains(err.Error(), "nothing to play") {
		t.Error(err)
	}
}

// spectrumAt returns how strong a frequency is in samples.
func spectrumAt(samples []float64, hz float64) float64 {
	var re, im float64
	for i, x := range samples {
		w := 0.5 - 0.5*math.Cos(2*math.Pi*float64(i)/float64(len(samples)))
		re += w * x * math.Cos(2*math.Pi*hz*float64(i)/float64(synth.SampleRate))
		im += w * x * math.Sin(2*math.Pi*hz*float64(i)/float64(synth.SampleRate))
	}
	return math.Hypot(re, im) / float64(len(samples))
}

// heardOf returns the samples of a sound.
func heardOf(s *synth.Sound, d time.Duration) []float64 {
	out := make([]float64, 0, synth.SampleRate.N(d))
	var buf [500][2]float64
	for len(out) < cap(out) {
		n, _ := s.Stream(buf[:min(len(buf), cap(out)-len(out))])
		for _, x := range buf[:n] {
			out = append(out, x[0])
		}
	}
	return out
}

// partOf returns the samples from one time to another.
func partOf(samples []float64, from, to time.Duration) []float64 {
	return samples[synth.SampleRate.N(from):synth.SampleRate.N(to)]
}

// A hammer changes the pitch of the string that rings, without a new pluck: the new pitch takes over, the old one goes. The finger gives the
// string something of its own, but far less than a pluck.
func TestHammersChangeThePitchThatRings(t *testing.T) {
	a := arranged(t, "tempo: 60\nmeter: 1/4\npick: 4h\nkey: C\n| F |", 10) // 2010 to 0010: the string falls from A to G, half way through the beat
	l := live(t, a, Wishes{}, 1)
	sound, err := l.Sound(synth.Voices()[0], synth.Options{})
	if err != nil {
		t.Fatal(err)
	}
	all := heardOf(sound, time.Second)
	above, below := theory.Pitch{Note: theory.Note{Letter: theory.A}, Octave: 4}.Frequency(440), theory.Pitch{Note: theory.Note{Letter: theory.G}, Octave: 4}.Frequency(440)
	ms := time.Millisecond
	before, after := partOf(all, 200*ms, 450*ms), partOf(all, 600*ms, 850*ms)
	if a, g := spectrumAt(before, above), spectrumAt(before, below); a < 20*g {
		t.Errorf("before the hammer A is %g and G %g", a, g)
	}
	if a, g := spectrumAt(after, above), spectrumAt(after, below); g < 20*a {
		t.Errorf("after the hammer A is %g and G %g", a, g)
	}
	rms := func(x []float64) float64 {
		sum := 0.0
		for _, v := range x {
			sum += v * v
		}
		return math.Sqrt(sum / float64(len(x)))
	}
	pluck, hammer := rms(partOf(all, 0, 60*ms)), rms(partOf(all, 500*ms, 560*ms))
	if hammer > 0.6*pluck { // 0.54
		t.Errorf("level %g at the pluck, %g with the hammer", pluck, hammer)
	}
}

// What rang goes on ringing over a change, each string sounding one note, as a chord, and what is heard, change at the bar line.
func TestWhatRangRingsOn(t *testing.T) {
	a := arranged(t, "tempo: 60\nmeter: 1/4\npick: (41) - - -\nkey: C\n| C | F |", 0) // of C, 0003, string 4 sounds G and string 1 C; F, 2010, has A and A
	hz := func(l theory.Letter, octave int) float64 {
		return theory.Pitch{Note: theory.Note{Letter: l}, Octave: octave}.Frequency(440)
	}
	second := arranged(t, "tempo: 60\nmeter: 1/4\npick: (41) - - -\nkey: C\n| C | G |", 0) // 0232: string 4 stays on G
	rung := func(a arrange.Arrangement) (g, c float64) {
		sound, err := live(t, a, Wishes{}, 1).Sound(synth.Voices()[0], synth.Options{})
		if err != nil {
			t.Fatal(err)
		}
		all := heardOf(sound, 2*time.Second)
		before, after := partOf(all, 700*time.Millisecond, 950*time.Millisecond), partOf(all, 1100*time.Millisecond, 1350*time.Millisecond)
		return spectrumAt(after, hz(theory.G, 4)) / spectrumAt(before, hz(theory.G, 4)), spectrumAt(after, hz(theory.C, 5)) / spectrumAt(before, hz(theory.C, 5))
	}
	if g, c := rung(second); g < 0.3 || c > 0.02 {
		t.Errorf("over C to G, G is left at %.3f and C at %.3f", g, c)
	}
	if g, c := rung(a); g > 0.02 || c > 0.02 {
		t.Errorf("over C to F, G is left at %.3f and C at %.3f", g, c)
	}
}
