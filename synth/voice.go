package synth

import (
	"fmt"
	"strings"
)

// Voice is what a score is played on: a modelled instrument, or whatever else states its partials and sounds plucks.
type Voice interface {
	// Name returns what a person types to choose the voice.
	Name() string
	// Title returns what a person reads of it.
	Title() string
	// Partials returns what a single note of f Hz (LowestPitch to HighestPitch) is made of that is plucked with a
	// strength above 0 and up to 1, from the lowest partial up. Each string of a course has its own.
	Partials(f, strength float64) []Partial
	// Ready returns the voice ready to play one score from its beginning.
	Ready() Performer
}

// Performer plays one score on a voice.
type Performer interface {
	// Pluck returns what a pluck at sample at of the score sets sounding at f Hz: one tone, or one for each string of a
	// course. Plucks come in the order of their time, all of a score at once or each a little before it sounds.
	Pluck(f float64, at int, strength float64) []Tone
}

// Tone is one string from a pluck on. It knows nothing of the hand that stills strings but when that is; the score's
// player lets it fade.
type Tone interface {
	// Span returns the samples of the score from which and up to which the tone sounds: until it has died away or is
	// stilled. It starts at its pluck, or up to 20 ms before or after.
	Span() (start, end int)
	// Still ends the tone at a sample, if it has not ended before. Sound is asked for a few milliseconds more.
	Still(at int)
	// Slur has the tone sound f Hz from a sample on.
	Slur(f float64, at int, strength float64)
	// Sound adds to mix what sounds from sample at on. It is called for one stretch after another, each at most
	// a Chunk long, from the start on.
	Sound(mix []float64, at int)
}

// Chunk is how many samples a tone is asked for at a time, at most.
const Chunk = 256

// voices are the built-in voices.
var voices = func() (all []Voice) {
	for _, v := range instruments {
		all = append(all, v)
	}
	return all
}()

// Voices returns every built-in voice; the first is the one to begin with.
func Voices() []Voice { return voices }

// VoiceByName returns the built-in voice of that name; the error lists the names there are.
func VoiceByName(name string) (Voice, error) {
	var names []string
	for _, v := range voices {
		if v.Name() == name {
			return v, nil
		}
		names = append(names, v.Name())
	}
	return nil, fmt.Errorf("%q is not a voice: it is one of %s", name, strings.Join(names, ", "))
}
