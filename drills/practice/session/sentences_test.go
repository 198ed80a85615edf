package session

import (
	"testing"

	"sparetone/progress/plan"
	"sparetone/theory/say"
)

// Why something is asked now, on the screen; and for each reason there is something to say.
func TestWhyInWords(t *testing.T) {
	name := func(item string) say.Text { return say.Of(item) }
	for _, row := range []struct {
		why  plan.Why
		want string
	}{
		{plan.Why{Reason: plan.Due, Days: 0}, "it needs practice; it was last asked today"},
		{plan.Why{Reason: plan.Due, Days: 1}, "it needs practice; it was last asked yesterday"},
		{plan.Why{Reason: plan.Due, Days: 12}, "it needs practice; it was last asked 12 days ago"},
		{plan.Why{Reason: plan.Weak, TakenFor: "sus2", Times: 3}, "it is weak; you took it for “sus2” three times"},
		{plan.Why{Reason: plan.Weak, TakenFor: "sus2", Times: 10}, "it is weak; you took it for “sus2” 10 times"},
		{plan.Why{Reason: plan.Weak}, "it is weak"},
		{plan.Why{Reason: plan.New}, "it is new"},
		{plan.Why{Reason: plan.OnceMore}, "you missed it earlier in this practice"},
		{plan.Why{Reason: plan.Ahead}, "it needs no practice yet, but of all that may be asked now a minute does most for it"},
		{plan.Why{Reason: plan.Easier}, "it needs no practice yet, but much was missed of late, and you are likelier to know this"},
		{plan.Why{Reason: plan.Least}, "it needs no practice yet, but whatever may be asked now was asked as often in this practice"},
		{plan.Why{Reason: plan.Turn}, "it needs no practice yet, but its drill was not asked for a while"},
		{plan.Why{Reason: plan.Closing}, "it is something you know, to close with"},
		{plan.Why{Reason: plan.Beside}, "it stood among the choices, and which of them is asked is left to chance"},
	} {
		if got := sayWhy(row.why, name).Screen(); got != row.want {
			t.Errorf("%+v: %q, want %q", row.why, got, row.want)
		}
	}
}
