// Package chord has the tables of what drills ask about chords: kinds, what a triad may gain, how roots are written, and which names
// of a shape are right.
package chord

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// AskedKind is a kind of chord that the drills ask for.
type AskedKind struct {
	ID   string
	Near []string // kinds that it is mistaken for
}

// AskedKinds are the kinds of chord the drills ask for, in the order in which choices are shown. Which are confused is common
// practice, no source.
var AskedKinds = []AskedKind{
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

// isAsked reports whether the drills ask for a kind.
func isAsked(k *theory.Kind) bool {
	return slices.ContainsFunc(AskedKinds, func(row AskedKind) bool { return row.ID == k.ID })
}

// TooMany reports whether a chord has more tones that must sound than the tuning has strings.
func TooMany(k *theory.Kind, t *fret.Tuning) bool {
	needed := len(k.Formula)
	if needed > 4 {
		needed-- // its fifth
	}
	return needed > len(t.Strings)
}

// Kind returns a kind of our own tables by its id. It panics if there is none.
func Kind(id string) *theory.Kind {
	k, ok := theory.KindByID(id)
	if !ok {
		panic("drills: no kind of chord is called " + id)
	}
	return k
}

// Clash reports whether some chord of kind a sounds just like one of kind b, on whatever root, so
// that both names could be right: C6 and Am7, Gsus2 and Dsus4.
func Clash(a, b string) bool {
	return couldBe(Kind(a), Kind(b)) || couldBe(Kind(b), Kind(a))
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

// SameSound reports whether chords of a kind on two roots have the same notes.
func SameSound(k *theory.Kind, a, b theory.Note) bool {
	set, up := toneSet(k, nil), (b.Class()-a.Class()+12)%12
	return set == (set<<up|set>>(12-up))&0xfff
}

// TypedKind is how a kind is typed: its symbol, and "major" for the one that has none.
func TypedKind(k *theory.Kind) string {
	if k.Symbols[0] == "" {
		return k.Name
	}
	return k.Symbols[0]
}
