package paper

import (
	"time"

	"github.com/gopxl/beep/v2"

	"sparetone/drills"
	"sparetone/drills/inturn"
	"sparetone/synth"
	"sparetone/theory"
)

// One recording of a paper: before each sound its number is knocked, without a voice that would have to speak a language. Knocks are
// strings that are stopped at once, too short to be heard as notes. All from judgement.
const (
	knockApart  = 350 * time.Millisecond // from one knock to the next
	knocksApart = 400 * time.Millisecond // more between hundreds, tens and ones
	knocksEnd   = time.Second            // from the last knock to the sound
	knockSofter = -15.0                  // dB below what they would be if they were as loud as a sound
	knockLoud   = 0.3                    // strength
)

// knocks are how hundreds, tens and ones are knocked: low and dull, then higher and shorter.
var knocks = []struct {
	worth  int
	octave int
	stop   time.Duration
}{{100, 3, 120 * time.Millisecond}, {10, 5, 60 * time.Millisecond}, {1, 7, 25 * time.Millisecond}}

// knocked returns the score of a number of a question, 1 to 999.
func knocked(number int) synth.Score {
	var s synth.Score
	at := time.Duration(0)
	for _, k := range knocks {
		times := number / k.worth
		number %= k.worth
		for range times {
			s.Plucks = append(s.Plucks, synth.Pluck{String: k.octave, Pitch: theory.Pitch{Note: theory.Note{Letter: theory.C}, Octave: k.octave}, At: at, Strength: knockLoud, Damp: k.stop})
			at += knockApart
		}
		if times > 0 {
			at += knocksApart
		}
	}
	s.Length = at - knocksApart - knockApart + knocksEnd
	return s
}

// leadIn is how quiet it is before the first knock.
const leadIn = time.Second

// Recording is the sounds of a paper one after another: each after its number, and then a pause to write in. Questions without sound are
// passed over. It returns when the sound of each question begins, 0 for one that has none. Nothing is rendered before it is streamed.
func Recording(questions []*drills.Question, pause time.Duration) (beep.Streamer, []time.Duration) {
	parts := []synth.Part{{Rest: leadIn}}
	begins := make([]time.Duration, len(questions))
	at := synth.SampleRate.N(leadIn) // samples
	for n, q := range questions {
		if len(q.Sounds) == 0 {
			continue
		}
		number := knocked(n + 1)
		parts = append(parts,
			synth.Part{Sound: func() (*synth.Sound, error) {
				return synth.Render(number, synth.Voices()[0], synth.Options{Gain: knockSofter})
			}},
			synth.Part{Sound: func() (*synth.Sound, error) { return inturn.Render(q.Voice, q.Sounds, theory.StandardA4) }, Rest: pause})
		at += synth.SampleRate.N(number.Length)
		begins[n] = synth.SampleRate.D(at)
		at += synth.SampleRate.N(inturn.Lasts(q.Sounds)-inturn.Gap) + synth.SampleRate.N(pause)
	}
	return synth.Sequence(parts), begins
}
