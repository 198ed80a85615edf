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

// pluckedSoftly is strings plucked at some times, in seconds, 0 for none; those that are soft begin so slowly that no onset is found.
func pluckedSoftly(rate, length float64, pitches []int, at []float64, soft []bool) []float64 {
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
	pitches := []int{67, 60, 64, 72}
	for _, c := range []struct {
		name    string
		at      []float64
		soft    []int
		seconds float64 // that were heard
		want    []int
	}{
		{"between", []float64{0.8, 1.1, 1.4, 1.7}, []int{1}, 4, pitches},
		{"close between two", []float64{0.8, 1.02, 1.24, 1.7}, []int{1}, 4, pitches},
		{"the first", []float64{0.8, 1.1, 1.4, 1.7}, []int{0}, 4, pitches},
		{"the first, long before", []float64{0.8, 1.24, 1.5, 1.8}, []int{0}, 4, pitches},
		{"the last", []float64{0.8, 1.1, 1.4, 1.7}, []int{3}, 4, pitches},
		{"the last, long behind", []float64{0.8, 1.1, 1.4, 1.94}, []int{3}, 4, pitches},
		{"the last two", []float64{0.8, 1.1, 1.55, 2.0}, []int{2, 3}, 4, pitches},
		{"the last, much too late", []float64{0.8, 1.1, 1.4, 2.8}, []int{3}, 4, []int{67, 60, 64, Silent}},
		{"the last, not whole yet", []float64{0.8, 1.1, 1.4, 1.7}, []int{3}, 2.0, []int{67, 60, 64, Silent}},
		{"not plucked", []float64{0.8, 0, 1.4, 1.7}, []int{1}, 4, []int{67, Silent, 64, 72}},
		{"the first not plucked", []float64{0, 1.1, 1.4, 1.7}, []int{0}, 4, []int{Silent, 60, 64, 72}},
		{"the last not plucked", []float64{0.8, 1.1, 1.4, 0}, []int{3}, 4, []int{67, 60, 64, Silent}},
	} {
		got := readSoftly(t, c.at, c.soft, c.seconds, func(task *Task) { task.Expect = pitches })
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	// One that should be silent is not sought, nor any where nothing is expected.
	at, soft := []float64{0.8, 1.1, 1.4, 1.7}, []int{1}
	if got := readSoftly(t, at, soft, 4, func(task *Task) { task.Expect = []int{67, Silent, 64, 72} }); !slices.Equal(got, []int{67, Silent, 64, 72}) {
		t.Errorf("one that should be silent: %v", got)
	}
	if got := readSoftly(t, at, soft, 4, func(task *Task) { task.Among = [][]int{{67, 60, 64, 69}, {67, 60, 64, 72}} }); !slices.Equal(got, []int{67, Silent, 64, 72}) {
		t.Errorf("one among several: %v", got)
	}
}

// readSoftly returns what is read of the strings of a C chord plucked at some times, of which those that are soft have no onset.
func readSoftly(t *testing.T, at []float64, soft []int, seconds float64, expect func(*Task)) (got []int) {
	t.Helper()
	const rate = 16000.0
	task := ukulele(4, 3, 2, 1)
	expect(&task)
	l, err := Listen(rate, task)
	if err != nil {
		t.Fatal(err)
	}
	softly := make([]bool, 4)
	for _, i := range soft {
		softly[i] = true
	}
	l.kept = pluckedSoftly(rate, seconds, []int{67, 60, 64, 72}, at, softly)
	var onsets []onset
	for i, begins := range at {
		if !softly[i] {
			onsets = append(onsets, onset{begins, 20})
		}
	}
	r, heard := l.inTurn(onsets)
	if !heard {
		t.Fatal("nothing is heard")
	}
	for _, s := range r.Strings {
		got = append(got, s.Pitch)
	}
	return got
}

// Where a soft pluck is found is within three hundredths of a second of where it was, however close the next string follows.
func TestWhereASoftPluckIsFound(t *testing.T) {
	const rate = 16000.0
	pitches := []int{67, 60, 64, 72}
	task := ukulele(4, 3, 2, 1)
	task.Expect = pitches
	for _, c := range []struct {
		soft int // the index of the string
		at   []float64
	}{
		{0, []float64{0.8, 0.92, 1.22, 1.52}}, {0, []float64{0.8, 1.0, 1.3, 1.6}}, {1, []float64{0.8, 1.1, 1.22, 1.52}},
		{1, []float64{0.8, 1.13, 1.25, 1.55}}, {2, []float64{0.8, 1.1, 1.4, 1.52}},
	} {
		l, err := Listen(rate, task)
		if err != nil {
			t.Fatal(err)
		}
		softly := make([]bool, 4)
		softly[c.soft] = true
		l.kept = pluckedSoftly(rate, 3, pitches, c.at, softly)
		var onsets []onset
		for i, at := range c.at {
			if i != c.soft {
				onsets = append(onsets, onset{at, 20})
			}
		}
		p := l.plucks(onsets)
		all := l.seek(onsets, p, l.weigh(onsets, p))
		if len(all) != 4 || math.Abs(all[c.soft].at-c.at[c.soft]) > 0.031 {
			t.Errorf("string %d plucked at %v is sought and found at %v", 4-c.soft, c.at[c.soft], all)
		}
	}
}
