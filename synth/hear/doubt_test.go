package hear

import (
	"math"
	"math/rand/v2"
	"testing"

	"sparetone/theory"
)

// That a string is silent is doubted where the pitch that is expected of it sounds in the end, and nowhere else.
func TestSilenceIsDoubtedWhereThePitchSounds(t *testing.T) {
	const rate = 16000.0
	sounds := []int{67, 60, 64, 72}
	r := rand.New(rand.NewPCG(2, 2))
	kept := make([]float64, int(2.5*rate))
	for i := range kept {
		kept[i] = 2e-4 * r.NormFloat64()
		if s := float64(i)/rate - 0.5; s > 0 {
			for _, p := range sounds {
				for k := 1.0; k <= 8; k++ {
					kept[i] += 0.03 / k * math.Exp(-s*(0.8+0.3*k)) * math.Sin(2*math.Pi*k*theory.MIDIFrequency(p, 440)*s)
				}
			}
		}
	}
	for pitch, doubted := range map[int]bool{60: true, 64: true, 61: false, 66: false} {
		task := Task{Expect: []int{67, pitch, 64, 72}, Order: []int{4, 3, 2, 1}}
		for i, open := range []int{67, 60, 64, 69} {
			s := String{Number: 4 - i, Open: open}
			for f := range 8 {
				s.May = append(s.May, open+f)
			}
			task.Strings = append(task.Strings, s)
		}
		l, err := Listen(rate, task)
		if err != nil {
			t.Fatal(err)
		}
		l.kept = kept
		tally := &tally{all: 1, strings: []map[int]float64{{67: 1}, {Silent: 0.99}, {64: 1}, {72: 1}}}
		l.doubtSilence(tally, 0.9, 0)
		if got := tally.strings[1][Silent] < Certain; got != doubted {
			t.Errorf("the silence of a string that should sound %d is doubted: %v", pitch, got)
		}
	}
}
