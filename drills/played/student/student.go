// Package student plays an instrument for tests: strokes, plucks in turn and notes, on strings of ours, as a microphone in a quiet room
// hears them.
package student

import (
	"math"
	"math/rand/v2"
	"time"

	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// Rate is how many samples a second the microphone hears.
const Rate = 16000

// Times in seconds, and how loud the room is.
const (
	Before   = 0.4  // of the room before something is played
	After    = 2.0  // and after the last pluck
	strum    = 0.02 // from string to string
	turn     = 0.4
	note     = 0.8
	rings    = 3.0
	room     = 5e-4 // of the noise, root mean square
	loudness = 0.5  // of a pluck
)

// Student plays on one instrument. What it plays is the same for the same seed.
type Student struct {
	on     *fret.Tuning
	voice  synth.Voice
	random *rand.Rand
	plucks map[pluck][]float64
}

// pluck is a string, by its number, and the pitch that it is plucked at.
type pluck struct{ string, midi int }

// New returns a student of an instrument.
func New(on *fret.Tuning, voice synth.Voice, seed uint64) *Student {
	return &Student{on, voice, rand.New(rand.NewPCG(seed, 19)), map[pluck][]float64{}}
}

// Silence is the room, for some seconds.
func (s *Student) Silence(seconds float64) []float64 {
	out := make([]float64, int(seconds*Rate))
	for i := range out {
		out[i] = room * s.random.NormFloat64()
	}
	return out
}

// Strum strikes a shape over all strings.
func (s *Student) Strum(shape fret.Shape) []float64 { return s.play(s.inOrder(shape, s.all()), strum) }

// Turn plucks the strings of a shape one after another, by their numbers.
func (s *Student) Turn(shape fret.Shape, order []int) []float64 {
	return s.play(s.inOrder(shape, order), turn)
}

// Notes plucks notes one after another, each on the string where it lies lowest.
func (s *Student) Notes(midis ...int) []float64 {
	var all []pluck
	for _, m := range midis {
		best, at := -1, 0
		for i := range s.on.Strings {
			if f := m - s.on.MIDI(i, 0); f >= 0 && (best < 0 || f < at) {
				best, at = i, f
			}
		}
		if best >= 0 {
			all = append(all, pluck{s.on.StringNumber(best), m})
		}
	}
	return s.play(all, note)
}

// Hum sings notes one after another, each a second long, without an instrument.
func (s *Student) Hum(midis ...int) []float64 {
	out := s.Silence(Before + float64(len(midis))*1.2 + 0.5)
	phase := 0.0
	for n, m := range midis {
		from := int((Before + 1.2*float64(n)) * Rate)
		for i := range int(1.0 * Rate) {
			at := float64(i) / Rate
			f := theory.MIDIFrequency(m, theory.StandardA4) * math.Exp2(0.15/12*math.Sin(2*math.Pi*5.5*at))
			phase += f / Rate
			loud := 0.1 * min(1, at/0.08, (1-at)/0.08)
			for k := 1; k <= 8; k++ {
				out[from+i] += loud / float64(k*k) * math.Sin(2*math.Pi*phase*float64(k))
			}
		}
	}
	return out
}

func (s *Student) all() (out []int) {
	for i := range s.on.Strings {
		out = append(out, s.on.StringNumber(i))
	}
	return out
}

// inOrder are the plucks of a shape; a string that it mutes is passed over.
func (s *Student) inOrder(shape fret.Shape, order []int) (out []pluck) {
	for _, number := range order {
		i := len(shape) - number
		if shape[i] != fret.Muted {
			out = append(out, pluck{number, s.on.MIDI(i, shape[i])})
		}
	}
	return out
}

// play plucks one after another, a step apart, each a little early or late, harder or softer. What rings on a string ends when it is
// plucked again.
func (s *Student) play(plucks []pluck, step float64) []float64 {
	out := s.Silence(Before + float64(len(plucks))*step + After)
	ends := map[int]int{}
	for n := len(plucks) - 1; n >= 0; n-- {
		p := plucks[n]
		from := int((Before + step*(float64(n)+0.1*s.random.Float64())) * Rate)
		force := loudness * (0.7 + 0.3*s.random.Float64())
		to := len(out)
		if end, again := ends[p.string]; again {
			to = end
		}
		ends[p.string] = from
		for i, x := range s.sound(p) {
			if from+i >= to {
				break
			}
			out[from+i] += force * x
		}
	}
	return out
}

// sound is one pluck.
func (s *Student) sound(p pluck) []float64 {
	if was := s.plucks[p]; was != nil {
		return was
	}
	i := len(s.on.Strings) - p.string
	pitch := s.on.Pitch(i, p.midi-s.on.MIDI(i, 0)+s.on.Start(i))
	if p.midi == s.on.MIDI(i, 0) {
		pitch = s.on.Pitch(i, 0)
	}
	score := synth.Score{Plucks: []synth.Pluck{{String: p.string, Pitch: pitch, Strength: 0.8}}, Length: time.Duration(rings * float64(time.Second))}
	sound, err := synth.Render(score, s.voice, synth.Options{})
	if err != nil {
		panic("student: " + err.Error())
	}
	const every = int(synth.SampleRate) / Rate
	var all []float64
	var block [every * 256][2]float64
	for {
		n, ok := sound.Stream(block[:])
		for k := 0; k+every <= n; k += every {
			sum := 0.0
			for _, frame := range block[k : k+every] {
				sum += frame[0]
			}
			all = append(all, sum/float64(every))
		}
		if !ok {
			break
		}
	}
	s.plucks[p] = all
	return all
}
