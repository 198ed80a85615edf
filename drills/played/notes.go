package played

import (
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// intervals are the intervals that two notes are heard as, by their semitones.
var intervals = []theory.Interval{
	theory.Unison, theory.MinorSecond, theory.MajorSecond, theory.MinorThird, theory.MajorThird, theory.PerfectFourth, theory.AugmentedFourth,
	theory.PerfectFifth, theory.MinorSixth, theory.MajorSixth, theory.MinorSeventh, theory.MajorSeventh, theory.Octave, theory.MinorNinth,
	theory.MajorNinth, theory.MinorTenth, theory.MajorTenth, theory.Eleventh, theory.SharpEleventh, theory.Twelfth, theory.MinorThirteenth, theory.Thirteenth,
	{Number: 14, Semitones: 22}, {Number: 14, Semitones: 23}, theory.DoubleOctave,
}

// neckNotes are all notes that a neck has, and those that may be sung.
func neckNotes(t *fret.Tuning, a4 float64) Listening {
	n := &Notes{Sung: true, A4: a4}
	for _, s := range Strings(t) {
		n.Pitches = append(n.Pitches, s.May...)
	}
	slices.Sort(n.Pitches)
	n.Pitches = slices.Compact(n.Pitches)
	return Listening{Notes: n}
}

// interval is an attempt at an interval: two notes, one after the other, in any order and from any note.
type interval struct {
	q     *drills.Question
	hears Listening
	first *Note
}

func newInterval(q *drills.Question, on *neck.Instrument, a4 float64) Attempt {
	return &interval{q: q, hears: neckNotes(on.Tuning, a4)}
}

// Listens implements Attempt.
func (i *interval) Listens() Listening { return i.hears }

// Asks implements Attempt.
func (i *interval) Asks() say.Text { return sayTwoNotes }

// Take implements Attempt.
func (i *interval) Take(h Heard) Came {
	if c, is := nothingToMark(h); is || h.Note == nil {
		return c
	}
	if i.first == nil || i.first.MIDI == h.Note.MIDI {
		i.first = h.Note
		return Came{Says: sayOneNote}
	}
	wide := h.Note.MIDI - i.first.MIDI
	wide = max(wide, -wide)
	i.first = nil
	if wide >= len(intervals) {
		return Came{Says: sayTooWide}
	}
	c := Came{Answer: intervals[wide].String(), Anew: true}
	if c.Right = right(i.q, c.Answer); c.Right {
		c.Says = sayThatIsIt
	}
	return c
}

// notes is an attempt at the notes of a chord, one after another, in any octave. They are spelled as the chord spells them, for nobody
// hears a letter.
type notes struct {
	q     *drills.Question
	hears Listening
	chord theory.Chord
	given []theory.Note
}

func newNotes(q *drills.Question, on *neck.Instrument, a4 float64) Attempt {
	return &notes{q: q, hears: neckNotes(on.Tuning, a4), chord: q.Answer}
}

// Listens implements Attempt.
func (n *notes) Listens() Listening { return n.hears }

// Asks implements Attempt.
func (n *notes) Asks() say.Text { return sayPlayNotes(n.chord) }

// Take implements Attempt.
func (n *notes) Take(h Heard) Came {
	if c, is := nothingToMark(h); is || h.Note == nil {
		return c
	}
	note := spelled(n.chord, h.Note.MIDI)
	if slices.ContainsFunc(n.given, note.Same) {
		return Came{}
	}
	n.given = append(n.given, note)
	if len(n.given) < len(n.chord.Tones()) {
		return Came{Says: sayNotesSoFar(n.given)}
	}
	var typed []string
	for _, g := range n.given {
		typed = append(typed, g.ASCII())
	}
	n.given = nil
	c := Came{Answer: strings.Join(typed, " "), Anew: true}
	if c.Right = right(n.q, c.Answer); c.Right {
		c.Says = sayThatIsIt
	}
	return c
}

// spelled is the note of a MIDI number, as a chord spells it if it is one of its tones.
func spelled(c theory.Chord, midi int) theory.Note {
	above := ((midi-c.Root.Class())%12 + 12) % 12
	for _, tone := range c.Kind.Formula {
		if (tone.Semitones-above)%12 == 0 {
			return c.Root.Up(tone)
		}
	}
	return c.Root.Up(intervals[above])
}
