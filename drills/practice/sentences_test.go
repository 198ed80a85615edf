package practice

import (
	"testing"

	"sparetone/progress"
	"sparetone/theory/say"
)

// Why something is asked now, on the screen; and for each reason there is something to say.
func TestWhyInWords(t *testing.T) {
	name := func(item string) say.Text { return say.Of(item) }
	for _, row := range []struct {
		why  progress.Why
		want string
	}{
		{progress.Why{Reason: progress.Due, Days: 0}, "it has come back: it was last asked today"},
		{progress.Why{Reason: progress.Due, Days: 1}, "it has come back: it was last asked yesterday"},
		{progress.Why{Reason: progress.Due, Days: 12}, "it has come back: it was last asked 12 days ago"},
		{progress.Why{Reason: progress.Weak, TakenFor: "sus2", Times: 3}, "it is weak: you took it for “sus2” three times"},
		{progress.Why{Reason: progress.Weak, TakenFor: "sus2", Times: 10}, "it is weak: you took it for “sus2” 10 times"},
		{progress.Why{Reason: progress.Weak}, "it is weak"},
		{progress.Why{Reason: progress.New}, "it is new"},
		{progress.Why{Reason: progress.Contrast, TakenFor: "sus2"}, "you just took “sus2” for it"},
		{progress.Why{Reason: progress.OnceMore}, "you missed it a moment ago"},
		{progress.Why{Reason: progress.Ahead}, "nothing has come back yet, and this has faded most"},
		{progress.Why{Reason: progress.Closing}, "it is something you know, to close with"},
		{progress.Why{Reason: progress.Beside}, "it stood among the choices, and which of them is asked is left to chance"},
	} {
		if got := sayWhy(row.why, name).Screen(); got != row.want {
			t.Errorf("%+v: %q, want %q", row.why, got, row.want)
		}
	}
}
