package played

import (
	"math"
	"slices"

	"sparetone/synth/hear"
	"sparetone/theory"
)

// Times, in seconds, and the compass of voices, in Hz.
const (
	sungFor      = 0.6  // that a note is held before it counts as sung: a spoken vowel is not held so long (from judgement)
	notSungAfter = 2.5  // after a pluck: what holds a note then is a string that rings
	begins       = 0.25 // from the first sample: what is heard before rang already
	settled      = 0.4  // from the first sample: what is held already then is a hum
	voiceBlock   = 0.05 // after which it is looked whether a note is sung
	struckBy     = 15.0 // dB above the room, from which on it was struck for somebody to hear
	pause        = 1.6  // after the last pluck: no more is plucked for what was asked
	readIn       = 0.6  // after a pluck it is read
	wordEvery    = 4.0  // between a word that nothing was heard and the next; with each twice as long, for a room in which people talk,
	wordLatest   = 64.0 // and no longer than this
	lowestVoice  = 80.0 // E2, a bass (from memory)
	highestVoice = 1000.0
)

// Ear hears what it listens for in sound that is fed block by block. It is not for two goroutines at once.
type Ear struct {
	rate    float64
	fed     int
	strings *hear.Listener // strings, or plucks of one note each
	notes   *Notes
	tones   *hear.Tones // nil where nothing may be sung
	plucked float64     // when the last pluck was, in seconds
	sung    float64     // when the last note began that was sung
	loud    bool        // what was struck last was far louder than the room
	waits   bool        // for a pause after it
	said    float64     // when it was said last that nothing was heard
	every   float64     // seconds until it may be said again
	inTurn  bool        // strings are plucked in turn
}

// NewEar returns an ear for sound of so many samples a second. The error says what is wrong with the rate, or with what is listened for.
func NewEar(rate float64, l Listening) (*Ear, error) {
	e := &Ear{rate: rate, notes: l.Notes, plucked: -notSungAfter, sung: -1, said: -wordEvery, every: wordEvery / 2}
	task := l.Task
	if l.Notes != nil {
		task = l.Notes.task()
		if l.Notes.Sung {
			tones, err := hear.NewTones(rate, lowestVoice, min(highestVoice, rate/8))
			if err != nil {
				return nil, err
			}
			e.tones = tones
		}
	}
	e.inTurn = l.Notes == nil && task.Order != nil
	var err error
	e.strings, err = hear.Listen(rate, *task)
	return e, err
}

// task reads each pluck by itself. What rings on from before is told from what is plucked.
func (n *Notes) task() *hear.Task {
	return &hear.Task{Strings: []hear.String{{Number: 1, Open: n.Pitches[0], May: n.Pitches}}, Order: []int{1}, A4: n.A4}
}

// Feed hears the samples that come next, -1 to 1, one channel.
func (e *Ear) Feed(samples []float64) (out []Heard) {
	e.fed += len(samples)
	begun, strongly := e.strings.Begun(), e.strings.BegunStrongly(begins)
	readings := e.strings.Feed(samples)
	if len(readings) > 0 {
		e.every = wordEvery / 2
	}
	for _, r := range readings {
		switch {
		case r.At < begins:
		case r.AboveNoise < hear.Quiet:
			out = append(out, Heard{Noisy: true})
		case e.notes == nil:
			out = append(out, Heard{Reading: &r})
		default:
			e.plucked, e.waits = r.At, true
			out = append(out, Heard{Note: &Note{MIDI: r.Strings[0].Pitch}})
		}
	}
	if b := e.strings.BegunStrongly(begins); e.inTurn && b > strongly {
		out = append(out, Heard{Begun: b})
	}
	if e.tones != nil {
		for block := range slices.Chunk(samples, int(e.rate*voiceBlock)) {
			out = append(out, e.voice(block)...)
		}
	}
	now := float64(e.fed) / e.rate
	switch {
	case e.waits && now > e.plucked+pause+readIn:
		e.waits = false
		out = append(out, Heard{Paused: true})
	case len(out) > 0:
		e.said = now
	case len(readings) == 0 && begun > 0 && e.strings.Begun() == 0 && e.loud && now > e.said+e.every:
		e.said, e.every = now, min(2*e.every, wordLatest)
		out = append(out, Heard{Nothing: true})
	}
	level := e.strings.Level()
	e.loud = e.strings.Begun() > 0 && (e.loud || level.Now > level.Floor+struckBy)
	return out
}

// voice hears whether a note is sung.
func (e *Ear) voice(samples []float64) []Heard {
	e.tones.Feed(samples)
	held, is := e.tones.Sustained()
	if !is || held.At == e.sung || held.Length < sungFor || held.At < settled || held.At < e.plucked+notSungAfter {
		return nil
	}
	e.sung = held.At
	a4 := e.notes.A4
	if a4 == 0 {
		a4 = theory.StandardA4
	}
	return []Heard{{Note: &Note{MIDI: int(math.Round(69 + 12*math.Log2(held.Hz/a4))), Sung: true}}}
}
