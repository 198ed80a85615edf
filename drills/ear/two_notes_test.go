package ear

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/trial"
)

// Of two notes each pair of pitches is as likely as another, however many places the neck has for it: else the middle of the neck, which has
// most, would be left upwards from below and downwards from above, and a note would tell by itself where the other lies.
func TestPairsOfPitchesAreAsLikely(t *testing.T) {
	const drawn = 1500
	for _, tuning := range []string{"ukulele", "guitar"} {
		on := trial.Instrument(t, tuning)
		for _, task := range noteTasks.All {
			r := drills.Request{Target: task.ID(), On: on, Rand: rand.New(rand.NewPCG(15, 4)), Clarity: drills.NoteRungs[0].Clarity}
			times := map[[2]int]int{}
			for range drawn {
				n, ok := pickNotes(r, task, 1)
				if !ok {
					t.Fatalf("%s: no two notes for %s", tuning, task.ID())
				}
				times[[2]int{n.low.MIDI(), n.high.MIDI()}]++
			}
			even := float64(drawn) / float64(len(times))
			for pair, n := range times {
				if off := math.Abs(float64(n) - even); off > 4*math.Sqrt(even) {
					t.Errorf("%s, %s: %v come %d times of %d, each of %d would be %.0f", tuning, task.ID(), pair, n, drawn, len(times), even)
				}
				if pair[1]-pair[0] != 5 {
					t.Errorf("%s, %s: %v are not a fourth apart", tuning, task.ID(), pair)
				}
			}
		}
	}
}

// How far two notes are apart is said in frets of one string, and which of them is higher: as what sounds says.
func TestHowFarInFrets(t *testing.T) {
	on := trial.Ukulele(t)
	for rung := range drills.NoteRungs {
		for seed := range uint64(8) {
			q, err := SameOrNot{}.Ask(drills.Request{Target: "higher-note", On: on, Clarity: drills.NoteRungs[rung].Clarity, Reach: drills.NoteRungs[rung].Reach, Rand: drills.QuestionRand("same-or-not", "higher-note", seed)})
			if err != nil {
				t.Fatal(err)
			}
			plucks := q.Sounds[0].Score.InTime()
			first, second := plucks[0].Pitch.MIDI(), plucks[1].Pitch.MIDI()
			want := fmt.Sprintf("The second is higher, by %d frets on one string.", second-first)
			if first > second {
				want = fmt.Sprintf("The first is higher, by %d frets on one string.", first-second)
			}
			if got := q.Solution().Short.Screen(); got != strings.Replace(want, " 1 frets", " 1 fret", 1) {
				t.Errorf("%s: %q, want %q", q.Text(), got, want)
			}
		}
	}
}
