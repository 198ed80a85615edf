package paper

import (
	"math"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/inturn"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// 213 is two low knocks, one that is higher and three that are high.
func TestNumbersAreknocked(t *testing.T) {
	for _, c := range []struct {
		number, hundreds, tens, ones int
	}{{1, 0, 0, 1}, {9, 0, 0, 9}, {10, 0, 1, 0}, {20, 0, 2, 0}, {13, 0, 1, 3}, {213, 2, 1, 3}, {999, 9, 9, 9}, {100, 1, 0, 0}} {
		s := knocked(c.number)
		var of [10]int
		for n, p := range s.Plucks {
			of[p.Pitch.Octave]++
			if p.Damp == 0 || p.Damp > 150*time.Millisecond {
				t.Errorf("%d: a knock lasts %v", c.number, p.Damp)
			}
			if n > 0 && p.At-s.Plucks[n-1].At < 300*time.Millisecond {
				t.Errorf("%d: two knocks are %v apart", c.number, p.At-s.Plucks[n-1].At)
			}
			if n > 0 && p.Pitch != s.Plucks[n-1].Pitch && p.At-s.Plucks[n-1].At < 700*time.Millisecond {
				t.Errorf("%d: tens and ones are %v apart", c.number, p.At-s.Plucks[n-1].At)
			}
		}
		if of[3] != c.hundreds || of[5] != c.tens || of[7] != c.ones || len(s.Plucks) != c.hundreds+c.tens+c.ones {
			t.Errorf("%d is knocked %v", c.number, of)
		}
		if last := s.Plucks[len(s.Plucks)-1].At; s.Length-last != knocksEnd {
			t.Errorf("%d: the sound comes %v after the last knock", c.number, s.Length-last)
		}
	}
}

// In one recording each sound begins where it is said to, as loud as alone; its number before it is softer, and the pause after it silent.
func TestRecordingOfAPaper(t *testing.T) {
	on := &neck.Instrument{Tuning: fret.Tunings()[0], Voices: synth.Voices(), Hand: fret.DefaultHand}
	ear, _ := catalogue.ByID("chord-ear")
	eye, _ := catalogue.ByID("shape-tones")
	heard, err := OfDrill(ear, on, 3, 4, 1)
	if err != nil {
		t.Fatal(err)
	}
	seen, err := OfDrill(eye, on, 1, 4, 1)
	if err != nil {
		t.Fatal(err)
	}
	questions := []*drills.Question{heard[0][0], seen[0][0], heard[0][1], heard[0][2]}
	const pause = 2 * time.Second
	stream, begins := Recording(questions, pause)
	var all []float64
	for buffer := make([][2]float64, 700); ; {
		n, ok := stream.Stream(buffer)
		for _, s := range buffer[:n] {
			all = append(all, s[0])
		}
		if !ok {
			break
		}
	}
	if err := stream.Err(); err != nil {
		t.Fatal(err)
	}
	sample := func(at time.Duration) int { return int(math.Round(at.Seconds() * float64(synth.SampleRate))) }
	peak := func(from, to time.Duration) (high float64) {
		for _, x := range all[sample(from):sample(to)] {
			high = max(high, math.Abs(x))
		}
		return high
	}
	if begins[1] != 0 || peak(0, leadIn) != 0 {
		t.Errorf("sounds begin at %v, and it begins with %v", begins, peak(0, leadIn))
	}
	before := leadIn
	for n, q := range questions {
		if n == 1 {
			continue
		}
		alone, err := inturn.Render(q.Voice, q.Sounds, 440)
		if err != nil {
			t.Fatal(err)
		}
		at := sample(begins[n])
		samples := make([][2]float64, alone.Len())
		alone.Stream(samples)
		for i, s := range samples {
			if math.Abs(s[0]-all[at+i]) > 1e-9 {
				t.Fatalf("sound %d is not as alone from sample %d on", n+1, i)
			}
		}
		ends := begins[n] + alone.Duration()
		knocked, heard := peak(before, begins[n]-knocksEnd+100*time.Millisecond), peak(begins[n], ends)
		if knocked < 0.02 || knocked > 0.7*heard || knocked > 0.25 {
			t.Errorf("number %d peaks at %.3f, its sound at %.3f", n+1, knocked, heard)
		}
		if rest := peak(ends, ends+pause); rest != 0 {
			t.Errorf("the pause after %d has %v", n+1, rest)
		}
		before = ends + pause
	}
	if len(all) != sample(before) {
		t.Errorf("it lasts %v, and the last pause ends at %v", synth.SampleRate.D(len(all)), before)
	}
}
