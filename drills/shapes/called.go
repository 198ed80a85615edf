package shapes

import (
	"slices"

	"sparetone/drills/chord"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// rarestCalled is the ID of the last kind in the table of kinds, which begins with the commonest, whose name a shape that
// was not asked for is called by. Players know few by name that stand further down.
const rarestCalled = "major-seventh-sharp-eleven"

// called says what a shape is called that is not what was asked for; or, where it has no name that a player would say, the
// notes that it sounds, spelled as in the chord that it is heard as.
func called(v fret.Voicing) say.Text {
	for _, n := range fret.Names(v.Tuning, v.Shape, theory.Context{}) {
		if callable(n.Chord) {
			return sayCalled(v.Shape, n.Chord)
		}
	}
	var sounds []theory.Note
	for _, p := range v.Pitches() {
		if n := chord.Plainly(p.Note); !slices.Contains(sounds, n) {
			sounds = append(sounds, n)
		}
	}
	return sayShapeSounds(v.Shape, sounds)
}

// callable reports whether a player would say a name of a shape at sight: of a common kind, whole but for the fifth of a
// chord of four tones or more, and over no bass that is foreign to it, unless it is a triad.
func callable(c theory.Chord) bool {
	at := func(id string) int {
		return slices.IndexFunc(theory.Kinds(), func(k *theory.Kind) bool { return k.ID == id })
	}
	tones := len(c.Kind.Formula)
	for _, tone := range c.Missing() {
		if tone != theory.PerfectFifth || tones < 4 {
			return false
		}
	}
	return at(c.Kind.ID) <= at(rarestCalled) && (tones <= 3 || !chord.ForeignBass(c))
}
