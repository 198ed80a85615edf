package played

import (
	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/theory/say"
)

// tone is an attempt at which tone of a chord a note is that sounded: the root of the chord, then the note, in any octave. The note alone could
// be played after without knowing what it is.
type tone struct {
	q     *drills.Question
	hears Listening
	root  *Note
}

// toneAbove are the tones of chords by their semitones above the root, as they are typed.
var toneAbove = map[int]string{0: "root", 3: "third", 4: "third", 7: "fifth", 10: "seventh", 11: "seventh"}

func newTone(q *drills.Question, on *neck.Instrument, a4 float64) Attempt {
	return &tone{q: q, hears: neckNotes(on.Tuning, a4)}
}

// Listens implements Attempt.
func (t *tone) Listens() Listening { return t.hears }

// Asks implements Attempt.
func (t *tone) Asks() say.Text { return sayRootAndNote }

// Take implements Attempt.
func (t *tone) Take(h Heard) Came {
	if c, is := nothingToMark(h); is || h.Note == nil {
		return c
	}
	if t.root == nil {
		t.root = h.Note
		return Came{Says: sayRootHeard}
	}
	above := ((h.Note.MIDI-t.root.MIDI)%12 + 12) % 12
	t.root = nil
	typed := toneAbove[above]
	if _, err := t.q.Result(typed); typed == "" || err != nil {
		return Came{Says: say.Of("{} {}", sayNoSuchTone(above), t.Asks())}
	}
	c := Came{Answer: typed, Anew: true}
	if c.Right = right(t.q, typed); c.Right {
		c.Says = sayThatIsIt
	}
	return c
}
