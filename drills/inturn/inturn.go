// Package inturn has sounds that are heard one after another: slower or briefer, named, set against each other after a mistake, and made
// audible with the one silence that there is between two of them.
package inturn

import (
	"slices"
	"time"

	"sparetone/drills"
	"sparetone/synth"
	"sparetone/theory/say"
)

// Each returns the sounds, each played in another way.
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

// Slower returns the sounds at half the speed: what lies between plucks and how long they last is doubled.
func Slower(sounds []drills.Sound) []drills.Sound {
	return Each(sounds, func(s drills.Sound) drills.Sound { return s.Slower(stretch) })
}

// briefRing is how long the last pluck of a sound rings at the most where it is set against another.
const briefRing = 1400 * time.Millisecond

// Brief returns the sounds, which ring no longer than is needed to tell one from another.
func Brief(sounds []drills.Sound) []drills.Sound {
	out := slices.Clone(sounds)
	for i, s := range sounds {
		var last time.Duration
		for _, p := range s.Score.Plucks {
			last = max(last, p.At)
		}
		out[i].Score.Length = min(s.Score.Length, last+briefRing)
	}
	return out
}

// longestTwice is how long a contrast may be to be heard twice: longer than anybody waits for the next question (from judgement).
const longestTwice = 9 * time.Second

// Contrast returns what was right and what was answered, in turn: twice where that is short enough, else once. Each sound is labelled as
// what it is.
func Contrast(v drills.Verdict) []drills.Sound {
	one := append(Named(v, Brief(v.Contrast.Right)), Yours(v)...)
	if 2*Lasts(one) > longestTwice {
		return one
	}
	return slices.Concat(one, one)
}

// Yours returns what was answered, labelled as that.
func Yours(v drills.Verdict) []drills.Sound {
	out := Named(v, Brief(v.Contrast.Given))
	for i := range out {
		out[i].Label = YourAnswer(out[i].Label)
	}
	return out
}

// Named returns the sounds labelled as what they are.
func Named(v drills.Verdict, sounds []drills.Sound) []drills.Sound {
	out := slices.Clone(sounds)
	for i := range out {
		out[i].Label = v.Called(out[i])
	}
	return out
}

// YouHear says what is heard by itself after an answer, before it is heard; zero if nothing is.
func YouHear(v drills.Verdict) say.Text {
	right, given := v.Contrast.Right, v.Contrast.Given
	switch {
	case len(right) == 1 && len(given) == 1:
		return sayTwoHeard(v.Called(right[0]), v.Called(given[0]))
	case v.Contrast.Any():
		return sayBothHeard
	case len(v.Asked) > mostForetold:
		return sayOnceMore
	}
	return Foretold(Named(v, v.Asked))
}

// mostForetold is how many sounds are named before they are heard.
const mostForetold = 3

// Foretold names sounds that are heard by themselves in turn, before they are heard; zero if there are none.
func Foretold(sounds []drills.Sound) say.Text {
	if len(sounds) == 0 {
		return say.Text{}
	}
	names := make([]say.Text, len(sounds))
	for i, s := range sounds {
		names[i] = s.Label
	}
	return sayHeard(names)
}

// Lasts returns how long sounds in turn last, with the silence after each.
func Lasts(sounds []drills.Sound) time.Duration {
	var sum time.Duration
	for _, s := range sounds {
		sum += s.Score.Length + Gap
	}
	return sum
}

// Rest is how long it is quiet after what sounded by itself, before it goes on by itself (from judgement).
const Rest = 700 * time.Millisecond

// Gap is the silence between two sounds that are heard in turn.
const Gap = 350 * time.Millisecond

// Render makes sounds in turn audible, for an A4 in Hz.
func Render(v synth.Voice, sounds []drills.Sound, a4 float64) (*synth.Sound, error) {
	scores := make([]synth.Score, len(sounds))
	for i, s := range sounds {
		scores[i] = s.Score
	}
	return synth.Render(synth.Then(Gap, scores...), v, synth.Options{A4: a4})
}
