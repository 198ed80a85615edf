package session

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/trial"
)

// On a ukulele that is as much as the planner is handed.
func TestRoomIsWhatThePlannerIsHanded(t *testing.T) {
	on := trial.Played(t, "ukulele")
	var of []string
	forms := 0
	for _, step := range course.BuiltIn() {
		d, _ := catalogue.ByID(step.Drill)
		for _, target := range d.Targets(on) {
			if item := drills.ItemID(step.Drill, target.ID, on.Name()); slices.Contains(step.Asks, target.ID) && !slices.Contains(of, item) {
				of = append(of, item)
				forms += len(catalogue.Rungs(on, step.Drill, target.ID))
			}
		}
	}
	t.Logf("%d things in %d forms", len(of), forms)
	if got := len(taught(t).Items); got != len(of) {
		t.Errorf("%d things, and the planner is handed %d", len(of), got)
	}
}
