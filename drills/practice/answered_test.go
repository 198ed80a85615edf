package practice

import (
	"testing"

	"sparetone/drills"
	"sparetone/progress"
	"sparetone/theory/say"
)

// What came of an answer is said in few words: frets that are right were just typed, and are not said again.
func TestOutcome(t *testing.T) {
	given, expected := say.Of("0003"), say.Of("2010")
	for _, want := range []struct {
		form       drills.Form
		v          drills.Verdict
		sign, says string
	}{
		{drills.Frets, drills.Verdict{Result: progress.Right}, "✓", "Right."},
		{drills.Choose, drills.Verdict{Result: progress.Right}, "✓", "Right: 0003."},
		{drills.Frets, drills.Verdict{Result: progress.Partly}, "±", "Partly right: 0003; all of it: 2010."},
		{drills.Frets, drills.Verdict{Result: progress.Wrong}, "✗", "Not this time: 2010, not 0003."},
		{drills.Frets, drills.Verdict{Result: progress.Wrong, NotKnown: true}, "✗", "Not known yet: 2010."},
	} {
		want.v.Given, want.v.Expected = given, expected
		if sign, says := Outcome(want.form, want.v); sign != want.sign || says.Screen() != want.says {
			t.Errorf("%s %s, want %s %s", sign, says, want.sign, want.says)
		}
	}
}
