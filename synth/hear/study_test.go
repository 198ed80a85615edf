package hear_test

import (
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sparetone/synth/hear"
)

// missing skips a test for want of something; where the environment says CI it fails.
func missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") != "" {
		t.Fatalf("%s is not here, and CI needs it", what)
	}
	t.Skipf("%s is not here", what)
}

// TestStudyOfHearing prints what is heard of recordings. SPARETONE_STUDY=1 runs it; SPARETONE_FONTS, SPARETONE_SEED and SPARETONE_TRIALS say
// on which fonts, by what seed and how many trials for each line.
func TestStudyOfHearing(t *testing.T) {
	if os.Getenv("SPARETONE_STUDY") == "" {
		t.Skip("a study of many minutes: SPARETONE_STUDY=1")
	}
	count, seed := 150, uint64(7)
	if n, err := strconv.Atoi(os.Getenv("SPARETONE_TRIALS")); err == nil {
		count = n
	}
	if n, err := strconv.Atoi(os.Getenv("SPARETONE_SEED")); err == nil {
		seed = uint64(n)
	}
	t.Logf("%-9s %-13s %-6s %2s | missed twice | strings | sure  right | said right | alarms | chord, unisons aside | cents off the whole, off its strings", "font", "on", "how", "dB")
	for _, f := range fonts {
		if only := os.Getenv("SPARETONE_FONTS"); only != "" && !strings.Contains(only, f.name) {
			continue
		}
		if !f.there() {
			missing(t, f.name)
		}
		for n, on := range instruments {
			if only := os.Getenv("SPARETONE_ON"); only != "" && !strings.Contains(only, on.name) {
				continue
			}
			for _, inTurn := range []bool{true, false} {
				if only := os.Getenv("SPARETONE_HOW"); only != "" && (only == "turn") != inTurn {
					continue
				}
				tuning := tuningCalled(t, on.tuning)
				book := bookOf(t, tuning)
				r := rand.New(rand.NewPCG(seed, uint64(n)))
				var trials []trial
				for range count {
					trials = append(trials, newTrial(r, tuning, book, inTurn))
				}
				var among [][]int
				for _, s := range book {
					among = append(among, pitchesOf(tuning, s))
				}
				sounds := trialsOn(t, f, on, trials)
				own := ownCents(t, f, on.program, 38, 84)
				for i, tr := range trials {
					trials[i].off = tr.above(own)
				}
				for _, quiet := range []float64{30, 20, 10} {
					if only := os.Getenv("SPARETONE_NOISE"); only != "" && only != strconv.Itoa(int(quiet)) {
						continue
					}
					var c tells
					r := rand.New(rand.NewPCG(seed, 1000+uint64(n)))
					for i, tr := range trials {
						sound := sounds[i]
						if tr.inARoom {
							sound = inRoom(r, sound)
						}
						sound = withNoise(r, sound, quiet, int(0.4*fontRate), int(1.4*fontRate))
						heard, err := hear.Hear(sound, fontRate, tr.task(among, true))
						if err != nil {
							t.Fatal(err)
						}
						c.count(tr, heard)
						if os.Getenv("SPARETONE_EACH") != "" {
							t.Log(tr.fault, tr.expect, tr.truth, heard)
						}
					}
					how := "strum"
					if inTurn {
						how = "turn"
					}
					slices.Sort(c.cents)
					slices.Sort(c.within)
					var half, most, halfWithin, mostWithin float64
					if last := len(c.cents) - 1; last >= 0 {
						half, most, halfWithin, mostWithin = c.cents[last/2], c.cents[last], c.within[last/2], c.within[last]
					}
					t.Logf("%-9s %-13s %-6s %2.0f | %5.1f %5.1f  | %6.2f  | %5.1f %6.2f | %5.1f %6.2f | %5.1f | %5.1f %5.1f of %d | %.1f %.1f | %.1f %.1f",
						f.name, on.name, how, quiet, percent(c.missed, c.trials), percent(c.twice, c.trials), percent(c.right, c.strings),
						percent(c.sure, c.strings), percent(c.sureRight, c.sure), percent(c.said, c.trials), percent(c.saidRight, c.said),
						percent(c.alarms, c.rights), percent(c.chordsRight, c.chords), percent(c.apartRight, c.apart), c.apart, half, most, halfWithin, mostWithin)
					if os.Getenv("SPARETONE_MARGINS") != "" {
						for _, least := range []float64{0.8, 0.9, 0.93, 0.95, 0.97, 0.99} {
							var sure, right int
							for _, m := range c.margins {
								if m.sure >= least {
									sure++
									if m.right {
										right++
									}
								}
							}
							t.Logf("  surer than %.2f: %.1f, right %.2f", least, percent(sure, c.strings), percent(right, sure))
						}
					}
				}
			}
		}
	}
}
