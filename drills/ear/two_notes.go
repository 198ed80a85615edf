package ear

import (
	"slices"

	"sparetone/drills"
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

// noteIntervals are how far apart two notes lie that are told apart, by how far they are to lie apart (from judgement). The wider, the
// more the lowness of one note alone tells: a note nearer than that to an end of the neck has no other beyond it.
var noteIntervals = [3][]theory.Interval{
	2: {theory.PerfectFourth},
	1: {theory.MinorThird, theory.MajorThird},
	0: {theory.MinorSecond, theory.MajorSecond},
}

// twoNotes are two notes one after the other: a place on the neck, and which of them is first.
type twoNotes struct {
	spot
	interval theory.Interval
	falls    bool
}

// pickNotes picks two notes of which an answer is right. Which two sound is picked first, without regard to the answer: so neither of them
// is lower or higher for one answer than for the other, as a pair. Where one note is to sound twice, it is either of such a pair. What the
// first or the second note tells by itself cannot be had away on a neck of a few octaves, but is the least there can be for both, for all
// pairs of pitches are as likely, however many places a pitch has: so any note that has others below and above rises as often as it falls.
func pickNotes(r drills.Request, task noteTask, right int) (twoNotes, bool) {
	level := map[int][]spot{} // by MIDI number
	for _, s := range spotsOf(r.On.Tuning, theory.Unison) {
		level[s.low.MIDI()] = append(level[s.low.MIDI()], s)
	}
	var pairs [][]twoNotes // all places for two pitches stand together
	for _, i := range noteIntervals[r.Clarity.Apart] {
		at := map[int]int{} // where in pairs, by the MIDI number of the lower note
		for _, s := range spotsOf(r.On.Tuning, i) {
			if task.same && (level[s.low.MIDI()] == nil || level[s.high.MIDI()] == nil) {
				continue
			}
			n, ok := at[s.low.MIDI()]
			if !ok {
				n = len(pairs)
				at[s.low.MIDI()], pairs = n, append(pairs, nil)
			}
			pairs[n] = append(pairs[n], twoNotes{s, i, false})
		}
	}
	if len(pairs) == 0 {
		return twoNotes{}, false
	}
	places := pairs[r.Rand.IntN(len(pairs))]
	picked := places[r.Rand.IntN(len(places))]
	either := r.Rand.IntN(2) == 0
	switch {
	case !task.same:
		picked.falls = right == 0
	case right == 0:
		once := picked.low
		if either {
			once = picked.high
		}
		places := level[once.MIDI()]
		picked = twoNotes{places[r.Rand.IntN(len(places))], theory.Unison, false}
	default:
		picked.falls = either
	}
	return picked, true
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
	is := n.low
	if n.falls {
		is = n.high
	}
	first := notes[slices.IndexFunc(notes, func(s synth.Sounding) bool { return s.Pitch == is })]
	return drills.Contrast{Right: play(sayTwoNotes, n.falls, notes), Given: play(sayOneNote, false, []synth.Sounding{first, first})}
}

// The answers: which is higher, or whether they are the same.
var (
	oneNote     = sameness{"same", sayOneNote, "same", []string{"yes", "y", "same note", "one note"}, []string{"yes", "y"}}
	notesDiffer = sameness{"different", sayTwoNotes, "two", []string{"no", "n", "not", "different", "not the same", "two notes"}, []string{"no", "n", "not", "different", "two notes"}}
	noteAnswers = map[bool][]sameness{false: {theFirst, theSecond}, true: {oneNote, notesDiffer}}
)

// askNotes plays two notes one after the other, for the drill of an id.
func askNotes(drill string, r drills.Request, task noteTask) (*drills.Question, error) {
	right := r.Toss(0, 2)
	drawn, ok := pickNotes(r, task, right)
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
			v.Say(v.Short)
		}
		v.Say(were)
		if !g.Right() {
			v.Contrast = drawn.contrast(r.On.Tuning, hand, task.same)
		}
	})
	return q, nil
}
