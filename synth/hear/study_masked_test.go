package hear_test

import (
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"

	"sparetone/synth/hear"
)

// TestStudyOfMasked prints of how many strokes by the font fluid it is told right whether they are of the chord expected, by how much each net
// counts for masked strings. The weights are chosen by this. SPARETONE_SEED and SPARETONE_TRIALS as in TestStudyOfHearing.
func TestStudyOfMasked(t *testing.T) {
	count, seed := studied(t, 100), 7
	if n, err := strconv.Atoi(os.Getenv("SPARETONE_SEED")); err == nil {
		seed = n
	}
	f := fonts[0]
	if !f.there() {
		missing(t, f.name)
	}
	type told struct {
		hear.Stroke
		trial
	}
	var strokes []told
	for n, on := range instruments {
		tuning := tuningCalled(t, on.tuning)
		book := bookOf(t, tuning)
		r := rand.New(rand.NewPCG(uint64(seed), uint64(n)))
		var trials []trial
		for range count {
			trials = append(trials, newTrial(r, tuning, book, false))
		}
		var among [][]int
		for _, s := range book {
			among = append(among, pitchesOf(tuning, s))
		}
		sounds := trialsOn(t, f, on, trials)
		r = rand.New(rand.NewPCG(uint64(seed), 1000+uint64(n)))
		for i, tr := range trials {
			sound := sounds[i]
			if tr.inARoom {
				sound = inRoom(r, sound)
			}
			sound = withNoise(r, sound, 20, int(0.4*fontRate), int(1.4*fontRate))
			first := tr.length
			for _, n := range tr.notes {
				first = min(first, n.at)
			}
			s, err := hear.StrokeAt(sound, fontRate, tr.task(among, true), first-0.01) // as an onset is found
			if err != nil {
				t.Fatal(err)
			}
			strokes = append(strokes, told{s, tr})
		}
	}
	measure := func(w hear.Weights) (amiss int, byFault map[string]int) {
		byFault = map[string]int{}
		for _, s := range strokes {
			right := slices.Equal(sounding(s.truth), sounding(s.expect))
			if (slices.Equal(sounding(s.Likeliest(w)), sounding(s.expect))) != right {
				amiss++
				byFault[s.fault]++
			}
		}
		return amiss, byFault
	}
	amiss, faults := measure(hear.ChosenWeights())
	t.Logf("of %d strokes %d are told amiss by the weights chosen: %v", len(strokes), amiss, faults)
	for _, w := range [][3]float64{
		{0, 0.65, 0.7}, {0, 0.65, 1.9}, {0, 0.8, 1.9}, {0.1, 0.8, 1.9}, {0.2, 0.65, 1.1}, {0.2, 0.65, 1.5}, {0.2, 0.65, 1.9}, {0.2, 0.65, 2.3},
		{0.35, 0.65, 0.7}, {0.35, 0.65, 1.1}, {0.35, 0.65, 1.5}, {0.35, 0.65, 1.9}, {0.35, 0.65, 2.3}, {0.5, 0.65, 1.5}, {0.5, 0.65, 1.9}, {0.5, 0.65, 2.3}, {1, 0, 0},
	} {
		amiss, faults := measure(hear.NewWeights(w[0], w[1], w[2]))
		t.Logf("%.2f of all strings' net, %.2f of masked ones', less %.1f: %d %v", w[0], w[1], w[2], amiss, faults)
	}
}
