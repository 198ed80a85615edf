package drills

import (
	"slices"

	"sparetone/drills/neck"
	"sparetone/theory/say"
)

// Rung is one of the forms in which a thing is asked. They are taken from the clearest to the closest, as each is told.
type Rung struct {
	Words   say.Text // how far whoever tells it in this form can tell it; zero where a thing is asked in one form alone
	Reach   float64  // how much of the neck it is asked on at least, 0 to 1
	Clarity Clarity
}

// The rungs of what is taught. The number of a rung is kept with each answer: one that is put between others gives those after it
// other numbers, so new ones go to the end, or take a migration of what is kept.
var (
	ownVoice     = Clarity{OwnVoice: true, Lasting: true}
	strummedHere = Clarity{Plainly: true, OwnVoice: true, Lasting: true}
	rootedHere   = Clarity{RootLowest: true, Plainly: true, OwnVoice: true, Lasting: true}
	slowlyRooted = Clarity{RootLowest: true, Plainly: true, Slowly: true, OwnVoice: true, Lasting: true}
	onOneRoot    = Clarity{OneRoot: true, RootLowest: true, Plainly: true, Slowly: true, OwnVoice: true, Lasting: true}
	lasting      = Clarity{Lasting: true}
	turned       = Clarity{Turned: true}
	overBass     = say.Of("with another note in the bass")

	// A kind of chord by itself.
	KindRungs = []Rung{
		{say.Of("after the plain chord"), 0, onOneRoot},
		{say.Of("without the plain chord"), neck.NewReach, rootedHere},
		{say.Of("in any voicing"), 1, strummedHere},
		{say.Of("however it is played"), 1, ownVoice},
		{say.Of("in any voice"), 1, lasting},
		{say.Of("however short it is"), 1, Clarity{}},
		{say.Of("among other chords"), 1, Clarity{Among: true}},
		{overBass, 1, turned},
	}
	// Two chords.
	PairRungs = []Rung{
		{say.Of("on one root"), 0, onOneRoot},
		{say.Of("on different roots"), neck.NewReach, rootedHere},
		{say.Of("in any voicing"), 1, strummedHere},
		{say.Of("however they are played"), 1, ownVoice},
		{say.Of("in any voice"), 1, lasting},
		{say.Of("however short they are"), 1, Clarity{}},
	}
	// What a chord has or does.
	ChordRungs = []Rung{
		{say.Of("with the root lowest"), 0, slowlyRooted},
		{say.Of("in any voicing"), 1, strummedHere},
		{say.Of("however it is played"), 1, ownVoice},
		{say.Of("in any voice"), 1, lasting},
		{say.Of("however short it is"), 1, Clarity{}},
	}
	AloneRungs = afterWords("without the plain chord", ChordRungs)
	// An interval.
	IntervalRungs = []Rung{
		{say.Of("going up"), 0, Clarity{Plainly: true, InTurn: true, OwnVoice: true}},
		{say.Of("going up or down"), neck.NewReach, Clarity{InTurn: true, OwnVoice: true}},
		{say.Of("both notes together too"), 1, ownVoice},
		{say.Of("in any voice"), 1, Clarity{}},
	}
	// Two notes.
	NoteRungs = []Rung{
		{say.Of("far apart"), 0, Clarity{OwnVoice: true, Apart: 2}},
		{say.Of("nearer together"), 0, Clarity{OwnVoice: true, Apart: 1}},
		{say.Of("close together"), 0, ownVoice},
		{say.Of("in any voice"), 0, Clarity{}},
	}
	// A row of chords.
	RowRungs = []Rung{
		{say.Of("strummed"), 0, strummedHere},
		{say.Of("however it is played"), 1, ownVoice},
		{say.Of("in any voice"), 1, Clarity{}},
	}
	// What is seen or held.
	NeckRungs = []Rung{
		{say.Of("in the first shapes"), 0, ownVoice},
		{say.Of("in easy shapes"), neck.NewReach, Clarity{}},
		{say.Of("further along the neck"), 2 * neck.NewReach, Clarity{}},
		{say.Of("anywhere on the neck"), 1, Clarity{}},
	}
	// What is seen or held of a kind of chord.
	ShapeRungs = append(slices.Clone(NeckRungs), Rung{overBass, 1, turned})
	// What is about names alone.
	OneRung = []Rung{{}}
)

// afterWords are rungs of which each is said after some words.
func afterWords(words string, rungs []Rung) []Rung {
	out := slices.Clone(rungs)
	for n, s := range out {
		out[n].Words = say.Of(words+", {}", s.Words)
	}
	return out
}

// RungsOn are those of some rungs that an instrument has: without a bass no chord has another note in it.
func RungsOn(on *neck.Instrument, all []Rung) []Rung {
	if on.Tuning.HasBass() {
		return all
	}
	return slices.DeleteFunc(slices.Clone(all), func(r Rung) bool { return r.Clarity.Turned })
}
