package playback

import (
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/theory"
)

// pitch reads a pitch, as in C4.
func pitch(t testing.TB, name string) theory.Pitch {
	t.Helper()
	p, err := theory.ParsePitch(name)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// chordScore is C on the open strings of a ukulele, the last a C, strummed.
func chordScore(t testing.TB) synth.Score {
	t.Helper()
	var notes []synth.Sounding
	for i, name := range []string{"G4", "C4", "E4", "C5"} {
		notes = append(notes, synth.Sounding{String: 4 - i, Pitch: pitch(t, name)})
	}
	return synth.Hand{}.Strum(notes)
}

// rendered is a score on the first voice.
func rendered(t testing.TB, score synth.Score, opt synth.Options) *synth.Sound {
	t.Helper()
	s, err := synth.Render(score, synth.Voices()[0], opt)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// chordSound is chordScore as it is heard.
func chordSound(t testing.TB) *synth.Sound { return rendered(t, chordScore(t), synth.Options{}) }

// note is one note on string 1.
func note(t testing.TB, name string, length time.Duration) synth.Score {
	t.Helper()
	return synth.Score{Plucks: []synth.Pluck{{String: 1, Pitch: pitch(t, name), Strength: 0.7}}, Length: length}
}
