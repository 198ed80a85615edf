package drills

import (
	"math/rand/v2"

	"sparetone/synth"
	"sparetone/theory/fret"
)

// Soundings lists what a voicing sounds, in the tuning's order.
func Soundings(v fret.Voicing) []synth.Sounding {
	var out []synth.Sounding
	for _, s := range v.Strings {
		if s.Fret != fret.Muted {
			out = append(out, synth.Sounding{String: s.Number, Pitch: s.Pitch})
		}
	}
	return out
}

// chordWays are the ways a chord is played in a question.
var chordWays = []synth.How{synth.Block, synth.Strum, synth.Up, synth.Pick}

// chordTempo is how fast a picked chord is, in plucks a minute.
const chordTempo = 200

// drawWay draws a way to play a chord.
func drawWay(rng *rand.Rand) synth.How { return chordWays[rng.IntN(len(chordWays))] }

// drawVoice draws one of the instrument's voices.
func drawVoice(on *Instrument, rng *rand.Rand) *synth.Voice {
	return on.Voices[rng.IntN(len(on.Voices))]
}

// played is a voicing played in a way. A nil rng plays it evenly.
func played(label string, v fret.Voicing, how synth.How, rng *rand.Rand) Sound {
	notes := Soundings(v)
	return Sound{Label: label, Notes: notes, Score: synth.Hand{Tempo: chordTempo, Rand: rng}.Play(how, notes)}
}

// Opened returns the same notes one string after the other, slowly, ringing on.
func (s Sound) Opened() Sound {
	s.Score = synth.Hand{}.OpenUp(s.Notes)
	return s
}
