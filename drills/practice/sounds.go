package practice

import (
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/synth"
)

// Each is sounds played in another way.
func Each(sounds []drills.Sound, other func(drills.Sound) drills.Sound) []drills.Sound {
	out := make([]drills.Sound, len(sounds))
	for i, s := range sounds {
		out[i] = other(s)
	}
	return out
}

// Rooted reports whether some of the sounds can be opened from their root.
func Rooted(sounds []drills.Sound) bool { return slices.ContainsFunc(sounds, drills.Sound.Rooted) }

// stretch is how much slower slower is.
const stretch = 2

// Slower is sounds at half the speed: what lies between plucks and how long they last is doubled.
func Slower(sounds []drills.Sound) []drills.Sound {
	out := slices.Clone(sounds)
	for i, s := range sounds {
		plucks := slices.Clone(s.Score.Plucks)
		var last int64
		for n := range plucks {
			last = max(last, int64(plucks[n].At))
			plucks[n].At *= stretch
			plucks[n].Damp *= stretch
		}
		out[i].Score.Plucks = plucks
		// The last pluck rings as long as it did.
		out[i].Score.Length += (stretch - 1) * time.Duration(last)
	}
	return out
}

// SoundGap is the silence between two sounds that are heard in turn.
const SoundGap = 350 * time.Millisecond

// Render makes sounds in turn audible, for an A4 in Hz.
func Render(v synth.Voice, sounds []drills.Sound, a4 float64) (*synth.Sound, error) {
	scores := make([]synth.Score, len(sounds))
	for i, s := range sounds {
		scores[i] = s.Score
	}
	return synth.Render(synth.Then(SoundGap, scores...), v, synth.Options{A4: a4})
}
