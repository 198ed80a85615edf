package ear

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/fair"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Before chords are told apart, notes are: which of two is higher, and whether they are the same. The nearer they lie, the closer it is.

// noteTask is a target of two notes, one after the other.
type noteTask struct {
	name   string
	asks   say.Text
	called say.Text
	same   bool // it is asked whether they are the same; else which of them is higher
}

func (n noteTask) ID() string { return n.name }

// noteTasks are all of them.
var noteTasks = drills.Tasks([]noteTask{
	{name: "higher-note", asks: askHigherNote, called: sayHigherNote},
	{name: "same-note", asks: askSameNote, called: saySameNoteTarget, same: true},
})

// noteIntervals are how far apart two notes lie that are told apart, by how far they are to lie apart (from judgement).
var noteIntervals = [3][]theory.Interval{
	2: {theory.PerfectFifth, theory.Octave},
	1: {theory.MajorThird, theory.PerfectFourth, theory.PerfectFifth},
	0: {theory.MinorSecond, theory.MajorSecond, theory.MinorThird, theory.MajorThird},
}

// twoNotes are two notes one after the other: a place on the neck, and which of them is first.
type twoNotes struct {
	spot
	interval theory.Interval
	falls    bool
}

// first is the MIDI number of the note that is heard first.
func (n twoNotes) first() int {
	if n.falls {
		return n.high.MIDI()
	}
	return n.low.MIDI()
}

// noteOptions are the two notes that each of the answers may be right for.
func noteOptions(r drills.Request, task noteTask) [2][]twoNotes {
	t := r.On.Tuning
	var rising, falling, level []twoNotes
	for _, i := range noteIntervals[r.Clarity.Apart] {
		for _, s := range spotsOf(t, i) {
			rising, falling = append(rising, twoNotes{s, i, false}), append(falling, twoNotes{s, i, true})
		}
	}
	if !task.same {
		return [2][]twoNotes{falling, rising}
	}
	for _, s := range spotsOf(t, theory.Unison) {
		level = append(level, twoNotes{s, theory.Unison, false})
	}
	return [2][]twoNotes{level, slices.Concat(rising, falling)}
}

// contrast sets what was heard against what the other answer says: the two notes the other way round, or where it was asked whether
// they are the same, the first of them twice or with a note a semitone higher.
func (n twoNotes) contrast(t *fret.Tuning, hand synth.Hand, same bool) drills.Contrast {
	hand.Rand = nil
	play := func(label say.Text, falls bool, notes []synth.Sounding) []drills.Sound {
		score := hand.Rising(notes)
		if falls {
			score = hand.Falling(notes)
		}
		return []drills.Sound{{Label: label, Notes: notes, Score: score}}
	}
	notes := n.notes(t)
	heard, other := sayIsHigher(n.falls), sayIsHigher(!n.falls)
	switch {
	case !same:
		return drills.Contrast{Right: play(heard, n.falls, notes), Given: play(other, !n.falls, notes)}
	case n.interval == theory.Unison:
		above := notes[:1:1]
		above = append(above, synth.Sounding{String: notes[1].String, Pitch: n.low.Up(theory.MinorSecond)})
		return drills.Contrast{Right: play(sayOneNote, false, notes), Given: play(sayTwoNotes, false, above)}
	}
	first := notes[slices.IndexFunc(notes, func(s synth.Sounding) bool { return s.Pitch.MIDI() == n.first() })]
	return drills.Contrast{Right: play(sayTwoNotes, n.falls, notes), Given: play(sayOneNote, false, []synth.Sounding{first, first})}
}

// The answers: which is higher, or whether they are the same.
var (
	oneNote      = sameness{"same", sayOneNote, "same", []string{"yes", "y", "same note", "one note"}, []string{"yes", "y"}}
	notesDiffer  = sameness{"different", sayTwoNotes, "two", []string{"no", "n", "not", "different", "not the same", "two notes"}, []string{"no", "n", "not", "different", "two notes"}}
	noteAnswers  = map[bool][]sameness{false: {theFirst, theSecond}, true: {oneNote, notesDiffer}}
	noteFeatures = func(n twoNotes) fair.Feature { return fair.Feature{n.first()} }
)

// askNotes plays two notes one after the other, for the drill of an id. The first of them could be the same for either answer.
func askNotes(drill string, r drills.Request, task noteTask) (*drills.Question, error) {
	right := r.Toss(0, 2)
	options := noteOptions(r, task)
	drawn, ok := fair.Match(r, right, func(float64) [][]twoNotes { return options[:] }, noteFeatures)
	if !ok {
		return nil, say.Wrong("{} has no two notes to set against each other", say.Foreign(r.On.Tuning.Name))
	}
	hand, notes := r.NotesHand(), drawn.notes(r.On.Tuning)
	play := hand.Rising
	if drawn.falls {
		play = hand.Falling
	}
	q := &drills.Question{
		Drill: drill, Target: r.Target, Prompt: task.asks, Voice: r.Voice(),
		Sounds: []drills.Sound{{Notes: notes, Score: play(notes)}},
	}
	offerTwo(q, noteAnswers[task.same], right, func(g drills.Given, v *drills.Verdict) {
		v.Shapes = []drills.Reveal{{Caption: labelBothNotes, Voicing: drawn.voicing(r.On.Tuning, drawn.interval)}}
		apart := drawn.interval.Semitones
		were := sayTwoNotesWere(drawn.low.Note, drawn.high.Note, apart, drawn.falls)
		if v.Short = were; apart > 0 {
			v.Short = sayHowFar(apart, drawn.falls)
		}
		v.Say(v.Short, were)
		if !g.Right() {
			v.Contrast = drawn.contrast(r.On.Tuning, hand, task.same)
		}
	})
	return q, nil
}
