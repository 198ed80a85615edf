package drills

import (
	"slices"

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

	// A kind of chord by itself.
	kindRungs = []Rung{
		{say.Of("after the plain chord"), 0, onOneRoot},
		{say.Of("without the plain chord"), newReach, rootedHere},
		{say.Of("in any voicing"), 1, strummedHere},
		{say.Of("however it is played"), 1, ownVoice},
		{say.Of("in any voice"), 1, lasting},
		{say.Of("however short it is"), 1, Clarity{}},
	}
	// Two chords.
	pairRungs = []Rung{
		{say.Of("on one root"), 0, onOneRoot},
		{say.Of("on different roots"), newReach, rootedHere},
		{say.Of("in any voicing"), 1, strummedHere},
		{say.Of("however they are played"), 1, ownVoice},
		{say.Of("in any voice"), 1, lasting},
		{say.Of("however short they are"), 1, Clarity{}},
	}
	// What a chord has or does.
	chordRungs = []Rung{
		{say.Of("with the root lowest"), 0, slowlyRooted},
		{say.Of("in any voicing"), 1, strummedHere},
		{say.Of("however it is played"), 1, ownVoice},
		{say.Of("in any voice"), 1, lasting},
		{say.Of("however short it is"), 1, Clarity{}},
	}
	aloneRungs = afterWords("without the plain chord", chordRungs)
	// An interval.
	intervalRungs = []Rung{
		{say.Of("going up"), 0, Clarity{Plainly: true, InTurn: true, OwnVoice: true}},
		{say.Of("going up or down"), 0, Clarity{InTurn: true, OwnVoice: true}},
		{say.Of("both notes together too"), 0, ownVoice},
		{say.Of("in any voice"), 0, Clarity{}},
	}
	// Two notes.
	noteRungs = []Rung{
		{say.Of("far apart"), 0, Clarity{OwnVoice: true, Apart: 2}},
		{say.Of("nearer together"), 0, Clarity{OwnVoice: true, Apart: 1}},
		{say.Of("close together"), 0, ownVoice},
		{say.Of("in any voice"), 0, Clarity{}},
	}
	// A row of chords.
	rowRungs = []Rung{
		{say.Of("strummed"), 0, strummedHere},
		{say.Of("however it is played"), 1, ownVoice},
		{say.Of("in any voice"), 1, Clarity{}},
	}
	// What is seen or held.
	neckRungs = []Rung{
		{say.Of("in the first shapes"), 0, ownVoice},
		{say.Of("in easy shapes"), newReach, Clarity{}},
		{say.Of("further along the neck"), 2 * newReach, Clarity{}},
		{say.Of("anywhere on the neck"), 1, Clarity{}},
	}
	// What is about names alone.
	oneRung = []Rung{{}}
)

// rungsOf are the rungs of the drills whose targets have all the same.
var rungsOf = map[string][]Rung{
	"chord-ear": kindRungs, "interval-ear": intervalRungs, "resolve": chordRungs, "progression-ear": rowRungs,
	"shape-name": neckRungs, "shape-tones": neckRungs, "doubled": neckRungs, "build": neckRungs, "swap": neckRungs,
}

// Rungs returns the forms in which a target of a drill is asked, the clearest first: one at least.
func Rungs(drill, target string) []Rung {
	if rungs, ok := rungsOf[drill]; ok {
		return rungs
	}
	switch drill {
	case "added-ear":
		if task, ok := addedTasks.of(target); ok && task.alone {
			return aloneRungs
		}
		return chordRungs
	case "same-or-not":
		if noteTasks.has(target) {
			return noteRungs
		}
		return pairRungs
	case "spell":
		if task, ok := spellTasks.of(target); ok && task.group != nil {
			return chordRungs
		}
	}
	return oneRung
}

// AtRung returns the form in which a target of a drill is asked at a rung, counted from 1, and which that is: beyond the last, the last.
func AtRung(drill, target string, rung int) (Rung, int) {
	all := Rungs(drill, target)
	rung = min(max(1, rung), len(all))
	return all[rung-1], rung
}

// TellsIt says how far a target can be told that is asked at a rung: zero if it is asked in the first form still, or in one alone.
func TellsIt(drill, target string, rung int) say.Text {
	all := Rungs(drill, target)
	if told := min(rung-1, len(all)); told > 0 {
		return all[told-1].Words
	}
	return say.Text{}
}

// afterWords are rungs of which each is said after some words.
func afterWords(words string, rungs []Rung) []Rung {
	out := slices.Clone(rungs)
	for n, s := range out {
		out[n].Words = say.Of(words+", {}", s.Words)
	}
	return out
}

// rootLowest leaves of shapes those in which no note lies below the root, if that is wanted and each of the choices has some on the neck.
// options returns the shapes of each choice within a reach, and root the root of one.
func rootLowest[T any](r Request, options func(reach float64) [][]T, shape func(T) held) func(reach float64) [][]T {
	if !r.Clarity.RootLowest {
		return options
	}
	rooted := func(reach float64) [][]T {
		lists := options(reach)
		out := make([][]T, len(lists))
		for n, list := range lists {
			for _, x := range list {
				if h := shape(x); (lowest(r.On.Tuning, h.shape)-h.chord.Root.Class())%12 == 0 {
					out[n] = append(out[n], x)
				}
			}
		}
		return out
	}
	if slices.ContainsFunc(rooted(1), func(list []T) bool { return len(list) == 0 }) {
		return options
	}
	return rooted
}
