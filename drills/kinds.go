package drills

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// chordKinds are the kinds of chord the drills ask for, in the order in which choices are shown, and
// what each is mistaken for. Which are confused is common practice, no source.
var chordKinds = []struct {
	id   string
	near []string
}{
	{"major", []string{"minor", "suspended-fourth", "added-ninth"}},
	{"minor", []string{"major", "diminished", "minor-added-ninth"}},
	{"diminished", []string{"minor", "diminished-seventh"}},
	{"augmented", []string{"major"}},
	{"suspended-second", []string{"added-ninth", "major"}},
	{"suspended-fourth", []string{"added-fourth", "major"}},
	{"added-ninth", []string{"suspended-second", "major-sixth"}},
	{"minor-added-ninth", []string{"minor", "added-ninth"}},
	{"added-fourth", []string{"suspended-fourth", "added-ninth"}},
	{"major-sixth", []string{"added-ninth", "dominant"}},
	{"minor-sixth", []string{"minor-seventh", "diminished-seventh"}},
	{"dominant", []string{"major-seventh", "minor-seventh", "dominant-ninth"}},
	{"major-seventh", []string{"dominant", "added-ninth"}},
	{"minor-seventh", []string{"dominant", "minor-sixth"}},
	{"half-diminished", []string{"minor-seventh", "diminished-seventh"}},
	{"diminished-seventh", []string{"half-diminished", "minor-sixth"}},
	{"dominant-ninth", []string{"dominant", "added-ninth"}},
}

// kindTargets lists the chord kinds that an instrument has shapes for.
func kindTargets(on *Instrument) []Target {
	var out []Target
	for _, row := range chordKinds {
		k := mustKind(row.id)
		if tooMany(k, on.Tuning) {
			continue
		}
		out = append(out, Target{ID: k.ID, Topic: kindTopic(k), Name: sayKind(k), Near: row.near})
	}
	return out
}

// kindTopic is what the drills that teach a kind of chord are about.
func kindTopic(k *theory.Kind) Topic { return Topic{"kind", k.ID} }

// tooMany reports whether a chord has more tones that must sound than the tuning has strings.
func tooMany(k *theory.Kind, t *fret.Tuning) bool {
	needed := len(k.Formula)
	if needed > 4 {
		needed-- // its fifth
	}
	return needed > len(t.Strings)
}

// mustKind returns a kind of our own tables.
func mustKind(id string) *theory.Kind {
	k, ok := theory.KindByID(id)
	if !ok {
		panic("drills: no kind of chord is called " + id)
	}
	return k
}

// kindChoice is how a kind of chord is offered as an answer.
func kindChoice(id string) Choice {
	k := mustKind(id)
	return Choice{ID: id, Said: sayKind(k), Typed: kindTyped(k)}
}

// kindTyped is how a kind is typed: its symbol, and "major" for the one that has none.
func kindTyped(k *theory.Kind) string {
	if k.Symbols[0] == "" {
		return k.Name
	}
	return k.Symbols[0]
}

// isNumber reports whether a text would be taken for the number of a choice.
func isNumber(s string) bool { return len(s) == 1 && s[0] >= '1' && s[0] <= '0'+mostChoices }

// isTarget reports whether an id is one of the targets.
func isTarget(targets []Target, id string) bool {
	return indexOf(targets, id) >= 0
}

// indexOf returns the index of a target among others.
func indexOf(targets []Target, id string) int {
	return slices.IndexFunc(targets, func(t Target) bool { return t.ID == id })
}

// kindsClash reports whether some chord of kind a sounds just like one of kind b, on whatever root, so
// that both names could be right: C6 and Am7, Gsus2 and Dsus4.
func kindsClash(a, b string) bool {
	return couldBe(mustKind(a), mustKind(b)) || couldBe(mustKind(b), mustKind(a))
}

// couldBe reports whether a shape of kind a may be named as kind b.
func couldBe(a, b *theory.Kind) bool {
	for _, x := range playedSets(a) {
		for _, y := range namedSets(b) {
			for r := range 12 {
				if x == (y>>r|y<<(12-r))&0xfff {
					return true
				}
			}
		}
	}
	return false
}

// playedSets returns the sets of pitch classes above the root that a kind is played as: complete and, from
// five tones on, without its fifth. Bit n is n semitones above the root.
func playedSets(k *theory.Kind) []int {
	all := toneSet(k, nil)
	if len(k.Formula) < 5 {
		return []int{all}
	}
	return []int{all, toneSet(k, []theory.Interval{theory.PerfectFifth})}
}

// namedSets returns the sets that may carry the name of a kind with its root sounding: complete, and
// without any of the tones that may be left out.
func namedSets(k *theory.Kind) []int {
	var out []int
	for drop := range 1 << len(k.Omit) {
		var without []theory.Interval
		for n, tone := range k.Omit {
			if drop&(1<<n) != 0 {
				without = append(without, tone)
			}
		}
		if !slices.Contains(without, theory.Unison) {
			out = append(out, toneSet(k, without))
		}
	}
	return out
}

func toneSet(k *theory.Kind, without []theory.Interval) int {
	set := 0
	for _, i := range k.Formula {
		if !slices.Contains(without, i) {
			set |= 1 << (i.Semitones % 12)
		}
	}
	return set
}

// rightNames returns the names of what a shape sounds that are right (theory.RightNames), whatever the bass: Bsus2 is not
// what Bsus2/D is called, for D is one of the notes.
func rightNames(v fret.Voicing) []theory.Chord {
	var out []theory.Chord
	for _, n := range theory.RightNames(v.Pitches()) {
		out = append(out, n.Chord)
	}
	return out
}

// foreignBass reports whether a chord is written over a bass that is none of its tones.
func foreignBass(c theory.Chord) bool {
	return foreignTo(c, c.Bass)
}

// isNamed reports whether a chord is one of the names, however its root is spelled and whatever bass
// it is written over.
func isNamed(names []theory.Chord, c theory.Chord) bool {
	return slices.ContainsFunc(names, func(n theory.Chord) bool { return n.Kind == c.Kind && n.Root.Same(c.Root) })
}

// foreignTo reports whether a note is none of a chord's.
func foreignTo(c theory.Chord, n theory.Note) bool {
	_, own := c.Kind.Tone(c.Root.To(n))
	return !own
}
