package hear

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/theory"
)

// A strong onset speaks for a pluck, a little, and a weak one against it, much.
func TestWhatAnOnsetIsWorth(t *testing.T) {
	for strength, want := range map[float64]float64{weak: -4, 2.2: -2.998, 2.8: -1.068, 3.2: 0, 3.5: 0.717, 3.7: 1, 60: 1} {
		if got := (onset{strength: strength}).worth(); math.Abs(got-want) > 1e-3 {
			t.Errorf("an onset of strength %v is worth %.3f, want %.3f", strength, got, want)
		}
	}
}

// What two nets say of a masked string is weighed as was chosen, see TestStudyOfMasked.
func TestMaskedIsWeighed(t *testing.T) {
	for _, c := range []struct{ strum, masked, want float64 }{{0, 0, -1.5}, {2, 0, -0.5}, {0, 2, -0.2}, {9, 9, 8.85}} {
		if got := maskedWeights.odds(c.strum, c.masked); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("of %v and %v come %v, want %v", c.strum, c.masked, got, c.want)
		}
	}
}

// What crackles after the last string that was plucked is not taken for the next, however often it does.
func TestCracklingIsNoPluck(t *testing.T) {
	task := ukulele(4, 3, 2, 1)
	task.Expect = []int{67, 60, 64, 72}
	l := &Listener{task: task}
	for _, c := range []struct {
		name     string
		strength float64
		want     int
	}{{"crackling", weak, Silent}, {"plucks", 8, 72}} {
		onsets := []onset{{0.5, 20}, {0.8, 20}, {1.1, 20}}
		p := plucked{odds: []map[int]float64{odds(task, map[int]float64{67: 8}), odds(task, map[int]float64{60: 8}), odds(task, map[int]float64{64: 8})}}
		for n := range 12 {
			onsets = append(onsets, onset{1.3 + 0.1*float64(n), c.strength})
			p.odds = append(p.odds, odds(task, map[int]float64{72: -3.3}))
		}
		if pitch, sure := l.weigh(onsets, p).likeliest(3); pitch != c.want {
			t.Errorf("%s: string 1 is read as %d, %.2f; want %d", c.name, pitch, sure, c.want)
		}
	}
}

// softly is strings plucked at some times, in seconds, 0 for none; those that are soft begin so slowly that no onset is found.
func softly(rate, length float64, pitches []int, at []float64, soft []bool) []float64 {
	r := rand.New(rand.NewPCG(4, 4))
	out := make([]float64, int(length*rate))
	for i := range out {
		out[i] = 2e-4 * r.NormFloat64()
		for n, p := range pitches {
			s := float64(i)/rate - at[n]
			if at[n] == 0 || s < 0 {
				continue
			}
			rise := 0.001
			if soft[n] {
				rise = 0.03
			}
			for k := 1.0; k <= 8; k++ {
				out[i] += 0.03 / k * (1 - math.Exp(-s/rise)) * math.Exp(-s*(0.8+0.3*k)) * math.Sin(2*math.Pi*k*theory.MIDIFrequency(p, 440)*s)
			}
		}
	}
	return out
}

// A string that was plucked so softly that nothing was found to begin is sought between those beside it, before the first and behind the last; one that
// was not plucked is not found.
func TestASoftPluckIsSought(t *testing.T) {
	const rate = 16000.0
	pitches := []int{67, 60, 64, 72}
	for _, c := range []struct {
		name string
		at   []float64
		soft int
		want []int
	}{
		{"between", []float64{0.8, 1.1, 1.4, 1.7}, 1, pitches},
		{"soon behind another", []float64{0.8, 1.0, 1.4, 1.7}, 1, pitches},
		{"the first", []float64{0.8, 1.1, 1.4, 1.7}, 0, pitches},
		{"the first, long before", []float64{0.8, 1.24, 1.5, 1.8}, 0, pitches},
		{"the last", []float64{0.8, 1.1, 1.4, 1.7}, 3, pitches},
		{"the last, long behind", []float64{0.8, 1.1, 1.4, 1.94}, 3, pitches},
		{"not plucked", []float64{0.8, 0, 1.4, 1.7}, 1, []int{67, Silent, 64, 72}},
		{"the first not plucked", []float64{0, 1.1, 1.4, 1.7}, 0, []int{Silent, 60, 64, 72}},
		{"the last not plucked", []float64{0.8, 1.1, 1.4, 0}, 3, []int{67, 60, 64, Silent}},
	} {
		task := ukulele(4, 3, 2, 1)
		task.Expect = pitches
		l, err := Listen(rate, task)
		if err != nil {
			t.Fatal(err)
		}
		soft := make([]bool, 4)
		soft[c.soft] = true
		l.kept = softly(rate, 4, pitches, c.at, soft)
		var onsets []onset
		for i, at := range c.at {
			if i != c.soft {
				onsets = append(onsets, onset{at, 20})
			}
		}
		r, heard := l.inTurn(onsets)
		if !heard {
			t.Fatalf("%s: nothing is heard", c.name)
		}
		var got []int
		for _, s := range r.Strings {
			got = append(got, s.Pitch)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
