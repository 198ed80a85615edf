package wording

import (
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Differences explains, string by string, why a voicing is the chord it is and not another kind on the same
// root. Each tone it names is looked up on the strings. What it returns are clauses, to be made sentences of.
func Differences(v fret.Voicing, other *theory.Kind) []say.Text {
	var clauses []say.Text
	want := v.Chord.Kind
	paired := map[theory.Interval]bool{}
	for _, tone := range want.Formula {
		on := StringsWith(v, tone)
		if _, shared := other.Tone(tone); shared || len(on) == 0 {
			continue
		}
		instead, ok := sameNumber(other, tone)
		_, shared := want.Tone(instead)
		switch {
		case ok && !shared:
			paired[instead] = true
			clauses = append(clauses, sayHasInstead(v, tone, on, other, instead))
		case ok:
			clauses = append(clauses, sayHasNoSuch(v, tone, on, other)) // it has another of that number
		default:
			clauses = append(clauses, sayHasNone(v, tone, on, other))
		}
	}
	for _, tone := range other.Formula {
		if _, shared := want.Tone(tone); shared || paired[tone] {
			continue
		}
		clauses = append(clauses, sayWouldHave(v, other, tone))
	}
	return clauses
}

// sameNumber finds the tone of a kind with the same simple number: its own third for another's third.
func sameNumber(k *theory.Kind, tone theory.Interval) (theory.Interval, bool) {
	for _, t := range k.Formula {
		if t.Simple().Number == tone.Simple().Number {
			return t, true
		}
	}
	return theory.Interval{}, false
}
