package drills

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

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
		out = append(out, Target{ID: k.ID, Name: k.Name, Near: row.near})
	}
	return out
}

// tooMany reports whether a chord has more tones that must sound than the tuning has strings.
func tooMany(k *theory.Kind, t *fret.Tuning) bool {
	return len(k.Formula)-len(k.Omit) > len(t.Strings)
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
	return Choice{ID: id, Label: k.Name, Spoken: k.Name, Typed: kindTyped(k)}
}

// kindTyped is how a kind is typed: its symbol, and "major" for the one that has none.
func kindTyped(k *theory.Kind) string {
	if k.Symbols[0] == "" {
		return k.Name
	}
	return k.Symbols[0]
}

// kindNamed understands a kind of chord in words or as a symbol without its root.
func kindNamed(text string) (*theory.Kind, bool) {
	for _, k := range theory.Kinds() {
		if sameWords(text, k.Name) {
			return k, true
		}
	}
	if text == "" || strings.Contains(text, "/") {
		return nil, false
	}
	c, err := theory.ParseChord("C" + text)
	return c.Kind, err == nil
}

// kindsClash reports whether some chord of kind a sounds just like one of kind b, on whatever root, so
// that both names could be right: C6 and Am7, Gsus2 and Dsus4.
func kindsClash(a, b string) bool {
	for _, x := range sets(mustKind(a)) {
		for _, y := range sets(mustKind(b)) {
			for r := range 12 {
				if x == (y>>r|y<<(12-r))&0xfff {
					return true
				}
			}
		}
	}
	return false
}

// sets returns the sets of pitch classes above the root that a kind is played as: complete and, from
// five tones on, without its fifth. Bit n is n semitones above the root.
func sets(k *theory.Kind) []int {
	all, short := 0, 0
	for _, i := range k.Formula {
		all |= 1 << (i.Semitones % 12)
		if i != theory.PerfectFifth {
			short |= 1 << (i.Semitones % 12)
		}
	}
	if len(k.Formula) < 5 {
		return []int{all}
	}
	return []int{all, short}
}

// roots are the roots that questions draw from: each pitch class as its chords are mostly written
// (common practice, no source).
var roots = func() []theory.Note {
	var out []theory.Note
	for _, s := range strings.Fields("C Db D Eb E F F# G Ab A Bb B") {
		n, err := theory.ParseNote(s)
		if err != nil {
			panic("drills: roots: " + err.Error())
		}
		out = append(out, n)
	}
	return out
}()

// Shapes in a question are among the easiest of their chord, and none asks too much of a hand.
const (
	easiestShapes = 6
	mostEffort    = 12.0
)

// findShape draws a chord of a kind and one of its easier shapes.
func findShape(on *Instrument, k *theory.Kind, rng *rand.Rand) (fret.Voicing, error) {
	for _, n := range rng.Perm(len(roots)) {
		c := theory.NewChord(roots[n], k)
		if shapes := easyShapes(on, c); len(shapes) > 0 {
			c.Without = 0
			return fret.Voice(on.Tuning, shapes[rng.IntN(len(shapes))].Shape, c)
		}
	}
	return fret.Voicing{}, fmt.Errorf("%s has no shape for a %s chord that a hand can hold", on.Tuning.Name, k.Name)
}

// easyShapes returns the easier shapes of a chord on an instrument.
func easyShapes(on *Instrument, c theory.Chord) []fret.Found {
	found := fret.Search(on.Tuning, c, on.Hand)
	found = slices.DeleteFunc(found, func(f fret.Found) bool { return f.Effort > mostEffort })
	return found[:min(len(found), easiestShapes)]
}

// nearestShape returns the shape of a chord that moves the fewest strings the least from another: what
// was answered, heard as much like what was asked as can be.
func nearestShape(on *Instrument, c theory.Chord, from fret.Shape) (fret.Voicing, bool) {
	best, least := fret.Shape(nil), 0
	for _, f := range fret.Search(on.Tuning, c, on.Hand) {
		moved := 0
		for i := range from {
			if f.Shape[i] != from[i] {
				moved += 2 + distance(f.Shape[i], from[i])
			}
		}
		if best == nil || moved < least {
			best, least = f.Shape, moved
		}
	}
	if best == nil {
		return fret.Voicing{}, false
	}
	v, err := fret.Voice(on.Tuning, best, c)
	return v, err == nil
}

// namedKinds returns the kinds in all right names of what a shape sounds whose root sounds too.
func namedKinds(v fret.Voicing) []string {
	var out []string
	for _, n := range fret.Names(v.Tuning, v.Shape, theory.Context{}) {
		if !rootless(n.Chord) {
			out = append(out, n.Chord.Kind.ID)
		}
	}
	return out
}

// rootless reports whether a chord is named without its root sounding.
func rootless(c theory.Chord) bool { return c.Without.Has(0) }
