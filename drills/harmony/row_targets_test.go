package harmony

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/trial"
)

// Rows of chords are made once for all who ask: who takes some away takes them from nobody else, and three strings have no room for a
// note added to a chord.
func TestTargetsOfRowsAreOnesOwn(t *testing.T) {
	var d ProgressionEar
	on := trial.Instrument(t, "ukulele")
	all := len(d.Targets(on))
	_ = slices.DeleteFunc(d.Targets(on), func(drills.Target) bool { return true })
	for _, target := range d.Targets(on) {
		if target.ID == "" {
			t.Fatal("a target is gone for good")
		}
	}
	fewer := 0
	for _, target := range d.Targets(trial.Instrument(t, "G3 D4 G4")) {
		if Colours(target.ID) {
			t.Errorf("%s on three strings", target.ID)
		}
		fewer++
	}
	if fewer == 0 || fewer >= all {
		t.Errorf("%d targets on three strings, %d on four", fewer, all)
	}
}
