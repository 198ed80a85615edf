package catalogue

import (
	"sparetone/drills"
	"sparetone/drills/harmony"
	"sparetone/drills/neck"
)

// rungsTried is how many questions are made on each rung to find out whether there always is one.
const rungsTried = 3

// CanAsk reports whether a drill always has a question for a target, whatever is picked by chance, on the first rungs as on the last.
func CanAsk(on *neck.Instrument, d drills.Drill, target string, inPlay []string) bool {
	id := d.About().ID
	if !drills.IsTarget(d.Targets(on), target) {
		return false
	}
	if chord, ok := harmony.ChordOfKey(on, target); ok && id == (harmony.KeyAdd{}).About().ID { // to look for such questions takes long
		return on.MayAsk(chord)
	}
	for n := range Rungs(on, id, target) {
		at, _ := AtRung(on, id, target, n+1)
		for seed := range uint64(rungsTried) {
			r := drills.Request{Target: target, On: on, InPlay: inPlay, Reach: at.Reach, Clarity: at.Clarity, Rand: drills.QuestionRand(id, target, seed)}
			if _, err := d.Ask(r); err != nil {
				return false
			}
		}
	}
	return true
}
