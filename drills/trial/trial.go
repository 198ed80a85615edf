// Package trial has what tests of drills share: instruments to ask on, and questions from seeds.
package trial

import (
	"os"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Ukulele is the instrument that most tests play.
func Ukulele(t testing.TB) *neck.Instrument { return Instrument(t, "ukulele") }

// Instrument is one with a tuning, by its name or its strings, in all voices.
func Instrument(t testing.TB, tuning string) *neck.Instrument {
	t.Helper()
	tn, err := fret.ParseTuning(tuning)
	if err != nil {
		t.Fatal(err)
	}
	return &neck.Instrument{Tuning: tn, Voices: synth.Voices(), Hand: fret.DefaultHand}
}

// Played is an instrument as somebody practises on it, without a capo: its own voice comes first.
func Played(t testing.TB, tuning string) *neck.Instrument {
	t.Helper()
	on, err := neck.NewInstrument(tuning, 0, "")
	if err != nil {
		t.Fatal(err)
	}
	return on
}

// MetFirst lists what players of an instrument meet before any other, as symbol and shape.
func MetFirst(on *neck.Instrument) []string {
	var out []string
	for _, l := range fret.Lessons(on.Tuning) {
		if l.First {
			out = append(out, l.Chord.Symbol()+" "+l.Shapes[0].String())
		}
	}
	return out
}

// Ask makes a question from a seed.
func Ask(t testing.TB, d drills.Drill, target string, on *neck.Instrument, seed uint64) *drills.Question {
	t.Helper()
	q, err := d.Ask(drills.Request{Target: target, On: on, Rand: drills.QuestionRand(d.About().ID, target, seed)})
	if err != nil {
		t.Fatalf("%s %s seed %d: %v", d.About().ID, target, seed, err)
	}
	return q
}

// AskAll makes questions of every target of a drill, from so many seeds each.
func AskAll(t testing.TB, d drills.Drill, on *neck.Instrument, seeds uint64, do func(q *drills.Question)) {
	t.Helper()
	for _, target := range d.Targets(on) {
		for seed := range seeds {
			do(Ask(t, d, target.ID, on, seed))
		}
	}
}

// Whole reports whether studies are to run whole, as SPARETONE_STUDY=1 asks for.
func Whole() bool { return os.Getenv("SPARETONE_STUDY") != "" }

// StudyOf returns how much a study looks at: a part of it in the ordinary run.
func StudyOf(ordinary, whole int) int {
	if Whole() {
		return whole
	}
	return ordinary
}

// Pitches are what a sound sounds, string by string.
func Pitches(s drills.Sound) []theory.Pitch {
	var out []theory.Pitch
	for _, n := range s.Notes {
		out = append(out, n.Pitch)
	}
	return out
}

// Printed is what sentences look like on the screen.
func Printed(texts []say.Text) []string {
	out := make([]string, len(texts))
	for i, t := range texts {
		out[i] = t.Screen()
	}
	return out
}

// Typed writes signs as they are typed: F# for F♯.
func Typed(s string) string { return strings.NewReplacer("♯", "#", "♭", "b").Replace(s) }
