package drills

import (
	"slices"
	"testing"

	"sparetone/synth"
	"sparetone/theory"
)

// Two notes one after the other are known by their strings as they are heard, also twice on one string; at once they are not, nor is a chord.
func TestStringsInTurn(t *testing.T) {
	low := theory.Pitch{Note: theory.Note{Letter: 0}, Octave: 4}
	two := []synth.Sounding{{String: 4, Pitch: low.Up(theory.PerfectFifth)}, {String: 3, Pitch: low}}
	three := append(slices.Clone(two), synth.Sounding{String: 2, Pitch: low.Up(theory.MajorThird)})
	hand := synth.Hand{}
	for _, c := range []struct {
		called string
		score  synth.Score
		want   []int
	}{
		{"rising", hand.Rising(two), []int{3, 4}},
		{"falling", hand.Falling(two), []int{4, 3}},
		{"twice", hand.Rising([]synth.Sounding{two[1], two[1]}), []int{3, 3}},
		{"at once", hand.Block(two), nil},
		{"ringing on", hand.OpenUp(two), nil},
		{"three in turn", hand.Rising(three), nil},
		{"one", hand.Rising(two[:1]), nil},
	} {
		if got := (Sound{Score: c.score}).InTurn(); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.called, got, c.want)
		}
	}
}
