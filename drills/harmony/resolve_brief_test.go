package harmony

import (
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/trial"
)

// Of the tones that move where a chord goes one is told at once, the one that pulls most; all are in the explanation.
func TestOneTendencyAtOnce(t *testing.T) {
	on := trial.Instrument(t, "ukulele")
	for target, want := range map[string]string{"dominant": "major third, rises", "diminished": "root, rises", "suspended-fourth": "fourth, falls", "dominant-ninth": "major third, rises"} {
		for seed := range uint64(8) {
			q, err := Resolve{}.Ask(drills.Request{Target: target, On: on, Clarity: drills.Clearest, Reach: 1, Rand: drills.QuestionRand("resolve", target, seed)})
			if err != nil {
				t.Fatal(err)
			}
			v := q.Solution()
			short, all := v.Short.Screen(), v.Lines[0].Screen()
			if !strings.Contains(short, want) || strings.Contains(short, ";") || !strings.Contains(all, ": "+strings.TrimSuffix(short[strings.Index(short, ", ")+2:], ".")) {
				t.Errorf("%s: at once %q, and of all %q", target, short, all)
			}
			if target == "dominant" && !strings.Contains(all, "seventh, falls") {
				t.Errorf("%q leaves something out", all)
			}
		}
	}
}
