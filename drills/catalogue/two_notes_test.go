package catalogue

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/guesser"
	"sparetone/drills/trial"
)

// mostOfOneNote is how many points above chance the first or the second of two notes may tell by itself which is higher, and mostOfLowness
// how many the lower or the upper one may tell of whether they are the same. They cannot tell nothing: on a neck of so many semitones a note
// near either end has no other beyond it. Of n pitches and pairs of two that lie d apart, all pairs as likely, the first tells d/2(n-d):
// 14 points of a fourth on the 23 pitches of a ukulele. When the first told nothing, the second would tell more, 50 at most.
const (
	mostOfOneNote = 16.0
	mostOfLowness = 12.0
)

// How low two notes lie as a pair tells nothing of which is higher, and the first or the second by itself nothing of whether they are the same.
func TestTwoNotesAreFair(t *testing.T) {
	features := []struct {
		name string
		of   func(first, second int) int
	}{
		{"first", func(first, _ int) int { return first }},
		{"second", func(_, second int) int { return second }},
		{"lowest", func(first, second int) int { return min(first, second) }},
		{"highest", func(first, second int) int { return max(first, second) }},
	}
	told := map[string]map[string]float64{ // what a feature of a target may tell
		"higher-note": {"first": mostOfOneNote, "second": mostOfOneNote, "lowest": mostAboveChance, "highest": mostAboveChance},
		"same-note":   {"first": mostAboveChance, "second": mostAboveChance, "lowest": mostOfLowness, "highest": mostOfLowness},
	}
	count := trial.StudyOf(400, allOfEach)
	for _, tuning := range []string{"ukulele", "guitar"} {
		on := trial.Instrument(t, tuning)
		d, _ := ByID("same-or-not")
		for target, bounds := range told {
			for n, rung := range Rungs(on, "same-or-not", target) {
				rng := rand.New(rand.NewPCG(9, uint64(n)))
				guesses := make([][]guesser.Guess, len(features))
				for i := range count {
					q, err := d.Ask(drills.Request{Target: target, On: on, Rand: rng, Clarity: rung.Clarity, Reach: rung.Reach})
					if err != nil {
						t.Fatal(err)
					}
					right := slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID == q.Expected().ID })
					first, second := q.Sounds[0].Score.Plucks[0], q.Sounds[0].Score.Plucks[1]
					if second.At < first.At {
						first, second = second, first
					}
					for f, feature := range features {
						g := guesser.Guess{Right: right, Half: i % 2}
						for _, c := range q.Choices {
							g.Known = append(g.Known, fmt.Sprint(feature.of(first.Pitch.MIDI(), second.Pitch.MIDI()), c.ID))
						}
						guesses[f] = append(guesses[f], g)
					}
				}
				line := fmt.Sprintf("%s, %s, rung %d:", tuning, target, n+1)
				for f, feature := range features {
					above := 100 * (guesser.Share(guesses[f]) - 0.5)
					line += fmt.Sprintf(" %s %+.1f", feature.name, above)
					bound := bounds[feature.name]
					if !trial.Whole() {
						bound += 100 * guesser.ByLuck(count, 0.5, 4*len(features))
					}
					if above > bound {
						t.Errorf("%s: the %s alone tells %.1f points, more than %.1f", line, feature.name, above, bound)
					}
				}
				t.Log(line)
			}
		}
	}
}
