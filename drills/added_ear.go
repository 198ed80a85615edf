package drills

import (
	"fmt"
	"math/rand/v2"
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// addedEar plays a plain chord, then the same shape with one string moved, and asks what was added.
type addedEar struct{}

func (addedEar) About() About {
	return About{ID: "added-ear", Title: "Hear which note was added", Ears: true}
}

// additions are what a plain triad may gain by one string, in the order in which choices are shown.
// A target's id is the kind of chord that comes of it.
var additions = []struct {
	plain, coloured string
	label, typed    string
	near            []string
}{
	{"major", "added-ninth", "the ninth", "9", []string{"added-fourth", "suspended-second"}},
	{"major", "added-fourth", "the fourth", "4", []string{"added-ninth", "suspended-fourth"}},
	{"major", "major-sixth", "the sixth", "6", []string{"dominant", "added-ninth"}},
	{"major", "dominant", "the flat seventh", "b7", []string{"major-seventh", "major-sixth"}},
	{"major", "major-seventh", "the major seventh", "7", []string{"dominant"}},
	{"major", "suspended-second", "the second, in place of the third", "sus2", []string{"added-ninth", "suspended-fourth"}},
	{"major", "suspended-fourth", "the fourth, in place of the third", "sus4", []string{"added-fourth", "suspended-second"}},
	{"minor", "minor-added-ninth", "the ninth", "9", []string{"minor-seventh"}},
	{"minor", "minor-sixth", "the sixth", "6", []string{"minor-seventh"}},
	{"minor", "minor-seventh", "the flat seventh", "b7", []string{"minor-sixth"}},
}

func (addedEar) Targets(on *Instrument) []Target {
	var out []Target
	for _, a := range additions {
		name := fmt.Sprintf("%s added to a %s chord", a.label, mustKind(a.plain).Name)
		out = append(out, Target{ID: a.coloured, Name: name, Near: a.near})
	}
	return out
}

// additionOf returns the index of the addition that a coloured kind comes of, or -1.
func additionOf(coloured string) int {
	for i, a := range additions {
		if a.coloured == coloured {
			return i
		}
	}
	return -1
}

func (d addedEar) Ask(r Request) (*Question, error) {
	n := additionOf(r.Target)
	if n < 0 {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	plain := mustKind(additions[n].plain)
	// Both chords are heard, so only what can be added to this triad stands among the choices.
	same := slices.DeleteFunc(d.Targets(r.On), func(t Target) bool {
		return additions[additionOf(t.ID)].plain != additions[n].plain
	})
	choices, err := draw(same, r, never)
	if err != nil {
		return nil, err
	}
	before, swaps, err := findSwap(r.On, plain, r.Target, r.Rand)
	if err != nil {
		return nil, err
	}
	fits := slices.DeleteFunc(slices.Clone(swaps), func(s fret.Swap) bool { return s.Chord.Kind.ID != r.Target })
	swap := fits[r.Rand.IntN(len(fits))]
	after, err := fret.Voice(r.On.Tuning, swap.To, swap.Chord)
	if err != nil {
		return nil, err
	}
	how := drawWay(r.Rand)
	plainSound := played("plain", before, how, r.Rand)
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: "A plain chord, then one string changes. What came in?",
		Sounds: []Sound{plainSound, played("changed", after, how, r.Rand)},
		Voice:  drawVoice(r.On, r.Rand),
		right:  r.Target,
	}
	for _, t := range choices {
		a := additions[additionOf(t.ID)]
		q.Choices = append(q.Choices, Choice{ID: t.ID, Label: a.label, Spoken: a.label, Typed: a.typed})
	}
	q.read = func(text string) (given, bool) {
		for _, a := range additions {
			if a.plain != plain.ID {
				continue
			}
			if k, ok := kindNamed(text); text == a.typed || sameWords(text, a.label) || sameWords("the "+text, a.label) || ok && k.ID == a.coloured {
				return given{id: a.coloured, label: a.label, right: a.coloured == r.Target}, true
			}
		}
		return given{}, false
	}
	q.explain = func(g given, v *Verdict) {
		v.Shapes = []Reveal{
			{Caption: before.Chord.String() + ", plain", Voicing: before},
			{Caption: after.Chord.String() + ", " + after.Chord.Kind.Name, Voicing: after, Mark: swap.String},
		}
		v.say(moved(swap, before, after))
		if g.right {
			return
		}
		a := additions[additionOf(g.id)]
		v.say(differ(after, mustKind(g.id))...)
		for _, s := range swaps {
			if s.Chord.Kind.ID != g.id {
				continue
			}
			if heard, err := fret.Voice(r.On.Tuning, s.To, s.Chord); err == nil {
				v.Other = []Sound{plainSound, played("with "+a.label, heard, how, nil)}
			}
			break
		}
	}
	return q, nil
}

// findSwap draws a plain chord and one of its easier shapes that can become the coloured kind by moving
// one string, and returns everything else that shape can become as well.
func findSwap(on *Instrument, plain *theory.Kind, coloured string, rng *rand.Rand) (fret.Voicing, []fret.Swap, error) {
	for _, n := range rng.Perm(len(roots)) {
		c := theory.NewChord(roots[n], plain)
		shapes := easyShapes(on, c)
		for _, i := range rng.Perm(len(shapes)) {
			swaps := slices.DeleteFunc(fret.Swaps(on.Tuning, shapes[i].Shape, c, nil), func(s fret.Swap) bool {
				return s.Effort > mostEffort || additionOf(s.Chord.Kind.ID) < 0
			})
			if !slices.ContainsFunc(swaps, func(s fret.Swap) bool { return s.Chord.Kind.ID == coloured }) {
				continue
			}
			v, err := fret.Voice(on.Tuning, shapes[i].Shape, c)
			return v, swaps, err
		}
	}
	return fret.Voicing{}, nil, fmt.Errorf("%s has no shape of a %s chord that becomes %s by one string", on.Tuning.Name, plain.Name, an(mustKind(coloured).Name))
}

// moved says what a swap did: which string, from what to what, and what was given up.
func moved(s fret.Swap, before, after fret.Voicing) string {
	from, to := tone(before, s.String), tone(after, s.String)
	kept := "nothing else sounds it any more"
	if s.Spare {
		kept = "which " + stringList(stringsWith(after, from.Interval)) + " still has"
		if len(stringsWith(after, from.Interval)) > 1 {
			kept = "which " + stringList(stringsWith(after, from.Interval)) + " still have"
		}
	}
	return fmt.Sprintf("String %d went from %s, %s (%s), to %s, %s: %s becomes %s.",
		s.String, from.Pitch.Note, from.Interval.Role(), kept, to.Pitch.Note, to.Interval.Role(), before.Chord, after.Chord)
}

// tone returns what the string with a number sounds.
func tone(v fret.Voicing, number int) fret.StringTone {
	return v.Strings[len(v.Strings)-number]
}
