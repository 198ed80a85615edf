package drills

import (
	"fmt"
	"slices"
	"strings"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// sameOrNot plays two chords on different roots and asks whether they are of one kind; its later targets play
// a plain and a coloured chord and ask which of them has the added note.
type sameOrNot struct{}

func (sameOrNot) About() About {
	return About{ID: "same-or-not", Title: "Hear whether two chords are of one kind", Ears: true, Terse: true}
}

// kindPair is two kinds of chord set against each other.
type kindPair struct{ one, other string }

// pairs are the kinds that are set against each other, from the plainest to the closest. Which are confused
// is common practice, no source.
var pairs = []kindPair{
	{"major", "minor"},
	{"major", "suspended-fourth"},
	{"major", "dominant"},
	{"minor", "minor-seventh"},
	{"dominant", "major-seventh"},
	{"dominant", "minor-seventh"},
	{"major", "augmented"},
	{"minor", "diminished"},
	{"added-ninth", "suspended-second"},
	{"added-fourth", "suspended-fourth"},
	{"added-ninth", "major-sixth"},
	{"half-diminished", "diminished-seventh"},
}

// whichHas begins the id of a target that asks which of two chords has the added note.
const whichHas = "which-has-"

func (sameOrNot) Targets(on *Instrument) []Target {
	var out []Target
	for _, p := range pairs {
		if tooMany(mustKind(p.one), on.Tuning) || tooMany(mustKind(p.other), on.Tuning) {
			continue
		}
		out = append(out, Target{
			ID:   p.one + "-or-" + p.other,
			Name: mustKind(p.one).Name + " or " + mustKind(p.other).Name,
		})
	}
	for _, a := range additions {
		if !tooMany(mustKind(a.coloured), on.Tuning) {
			out = append(out, Target{ID: whichHas + a.coloured, Name: "which of two chords has " + joins(a.plain, a.coloured)})
		}
	}
	return out
}

func (d sameOrNot) Ask(r Request) (*Question, error) {
	coloured, which := strings.CutPrefix(r.Target, whichHas)
	var kinds [2]*theory.Kind
	if n := additionOf("", coloured); which && n >= 0 {
		kinds = [2]*theory.Kind{mustKind(additions[n].plain), mustKind(coloured)}
	} else if one, other, ok := strings.Cut(r.Target, "-or-"); ok && slices.ContainsFunc(pairs, func(p kindPair) bool { return p == kindPair{one, other} }) {
		kinds = [2]*theory.Kind{mustKind(one), mustKind(other)}
	} else {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	first := r.toss(0, 2)
	second := 1 - first
	if !which {
		second = r.toss(1, 2)
	}
	v, err := d.draw(r, kinds, [2]int{first, second})
	if err != nil {
		return nil, err
	}
	how := drawWay(r.Rand)
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: "Two chords. Are they of the same kind?",
		Sounds: []Sound{played("first", v[0], how, r.Rand), played("second", v[1], how, r.Rand)},
		Voice:  drawVoice(r.On, r.Rand),
	}
	if which {
		a := additions[additionOf("", coloured)]
		q.Prompt = fmt.Sprintf("Two chords. Which of them has %s?", a.label)
		q.offer([]string{"first", "second"}[1-first],
			Choice{ID: "first", Label: "the first", Spoken: "the first", Typed: "first"},
			Choice{ID: "second", Label: "the second", Spoken: "the second", Typed: "second"})
		q.Accepts = []string{[]string{"1st", "2nd"}[1-first]}
	} else {
		q.offer(map[bool]string{true: "same", false: "different"}[first == second],
			Choice{ID: "same", Label: "the same kind", Spoken: "the same kind", Typed: "same"},
			Choice{ID: "different", Label: "different kinds", Spoken: "different kinds", Typed: "two"})
		q.Accepts = map[bool][]string{true: {"yes", "y"}, false: {"no", "n", "not", "different", "two kinds"}}[first == second]
	}
	q.read = func(text string) (given, error) { return d.read(q, text) }
	q.explain = func(g given, verdict *Verdict) {
		for n, word := range []string{"first", "second"} {
			verdict.Shapes = append(verdict.Shapes, Reveal{Caption: fmt.Sprintf("The %s: %s", word, titled(v[n].Chord)), Voicing: v[n]})
		}
		if first == second {
			verdict.say(fmt.Sprintf("Both are %s chords.", kinds[first].Name))
		} else {
			verdict.say(fmt.Sprintf("The first is %s chord, the second %s chord.", an(kinds[first].Name), an(kinds[second].Name)))
			for _, line := range differ(v[1], kinds[first]) {
				if strings.HasPrefix(line, "A ") || strings.HasPrefix(line, "An ") {
					line = "a" + line[1:]
				}
				verdict.say("In the second chord, " + line)
			}
		}
		if g.right() {
			return
		}
		// What was answered: the second chord as it would have been.
		c := theory.NewChord(v[1].Chord.Root, kinds[1-second])
		if other, ok := nearestShape(r.On, c, v[1].Shape); ok && !which {
			verdict.say(fmt.Sprintf("By your answer the second chord would be %s: hear both.", c))
			verdict.Other = []Sound{q.Sounds[0], played("the second as "+an(c.Kind.Name)+" chord", other, how, nil)}
		}
	}
	return q, nil
}

// draw draws the two shapes, on different roots: each such that it could as well have been of the other kind.
func (sameOrNot) draw(r Request, kinds [2]*theory.Kind, which [2]int) ([2]fret.Voicing, error) {
	var out [2]fret.Voicing
	var used theory.Note // the root of the first
	t := r.On.Tuning
	for n := range out {
		options := func(reach float64) (out [][]held) {
			for _, k := range kinds {
				out = append(out, slices.DeleteFunc(r.On.shapesOf(k, reach), func(h held) bool { return n > 0 && h.chord.Root.Same(used) }))
			}
			return out
		}
		h, ok := match(r, which[n], options,
			func(h held) feature {
				return feature{sounding(h.shape), lowest(t, h.shape), h.chord.Root.Class()}
			},
			func(h held) feature { return feature{sounding(h.shape), lowest(t, h.shape)} },
			func(h held) feature { return feature{sounding(h.shape)} },
		)
		if !ok {
			return out, noShape(r.On, kinds[which[n]])
		}
		v, err := h.voice(r.On)
		if err != nil {
			return out, err
		}
		out[n], used = v, h.chord.Root
	}
	return out, nil
}

func (sameOrNot) read(q *Question, text string) (given, error) {
	for id, ways := range map[string][]string{
		"same": {"yes", "y", "same kind", "one kind"}, "different": {"no", "n", "not", "different", "not the same", "two kinds"},
		"first": {"1st", "first one", "first chord"}, "second": {"2nd", "second one", "second chord"},
	} {
		if !slices.ContainsFunc(ways, func(w string) bool { return sameWords(text, w) }) {
			continue
		}
		if i := slices.IndexFunc(q.Choices, func(c Choice) bool { return c.ID == id }); i >= 0 {
			return q.chosen(q.Choices[i]), nil
		}
	}
	return given{}, errUnread
}
