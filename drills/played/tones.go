package played

import (
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// tones is an attempt at what each string of a shape is. Each tone of the chord is asked for in turn, and every string that is it is
// plucked, until a pause. A string belongs to the tone that it was plucked for last.
type tones struct {
	q     *drills.Question
	shape fret.Voicing
	a4    float64
	asked []theory.Interval // the tones, from the root up
	at    int               // of these the one that is asked for now
	given []string          // of each string its degree, as it is typed; empty where it was not plucked yet
	any   bool              // something was plucked for the tone that is asked for
}

func newTones(q *drills.Question, a4 float64) Attempt {
	t := &tones{q: q, shape: *q.Shown, a4: a4}
	for _, tone := range t.shape.Chord.Kind.Formula {
		if slices.ContainsFunc(t.shape.Strings, func(s fret.StringTone) bool { return s.Fret != fret.Muted && s.Interval == tone }) {
			t.asked = append(t.asked, tone)
		}
	}
	t.begin()
	return t
}

// begin forgets what was plucked.
func (t *tones) begin() { t.at, t.any, t.given = 0, false, make([]string, len(t.shape.Strings)) }

// Listens implements Attempt.
func (t *tones) Listens() Listening {
	n := &Notes{A4: t.a4}
	for _, p := range t.shape.Pitches() {
		n.Pitches = append(n.Pitches, p.MIDI())
	}
	slices.Sort(n.Pitches)
	n.Pitches = slices.Compact(n.Pitches)
	return Listening{Notes: n}
}

// Asks implements Attempt.
func (t *tones) Asks() say.Text { return sayPluckTone(t.asked[t.at]) }

// Take implements Attempt.
func (t *tones) Take(h Heard) Came {
	if c, is := nothingToMark(h); is {
		return c
	}
	switch {
	case h.Note != nil:
		return t.plucked(h.Note.MIDI)
	case h.Paused && t.any:
		return t.next()
	}
	return Came{}
}

// plucked gives the strings that sound a pitch the tone that is asked for.
func (t *tones) plucked(midi int) Came {
	tone := t.asked[t.at]
	was := t.whole()
	var numbers []int
	for i, s := range t.shape.Strings {
		if s.Fret != fret.Muted && s.Pitch.MIDI() == midi {
			t.given[i] = tone.DegreeASCII()
			numbers = append(numbers, s.Number)
		}
	}
	if numbers == nil {
		return Came{}
	}
	t.any = true
	if t.at == len(t.asked)-1 && t.whole() && !was { // else more strings may be moved to the last tone, until the pause
		return t.answer()
	}
	return Came{Says: sayToneOn(t.shape.Tuning, numbers, tone), Given: slices.Clone(t.given)}
}

// next asks for the next tone, and after the last for all of them anew.
func (t *tones) next() Came {
	t.any = false
	if t.at++; t.at < len(t.asked) {
		return Came{Says: t.Asks(), Given: slices.Clone(t.given)}
	}
	if t.whole() {
		return t.answer()
	}
	var left []int
	for i, s := range t.shape.Strings {
		if s.Fret != fret.Muted && t.given[i] == "" {
			left = append(left, s.Number)
		}
	}
	t.begin()
	return Came{Says: say.Of("{} {}", sayNoTone(t.shape.Tuning, left), t.Asks()), Given: slices.Clone(t.given)}
}

// whole reports whether all strings that sound have a tone.
func (t *tones) whole() bool {
	for i, s := range t.shape.Strings {
		if s.Fret != fret.Muted && t.given[i] == "" {
			return false
		}
	}
	return true
}

// answer is what was plucked as an answer.
func (t *tones) answer() Came {
	words := slices.Clone(t.given)
	for i, s := range t.shape.Strings {
		if s.Fret == fret.Muted {
			words[i] = "x"
		}
	}
	c := Came{Answer: strings.Join(words, " "), Given: t.given, Anew: true}
	if c.Right = right(t.q, c.Answer); c.Right {
		c.Says = sayThatIsIt
	}
	t.begin()
	return c
}
