package practice

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/trial"
)

// What there is to learn is all that the course asks on an instrument, each in all its forms.
func TestRoomToLearn(t *testing.T) {
	on := trial.Played(t, "ukulele")
	chord, _ := catalogue.ByID("chord-ear")
	seen, _ := catalogue.ByID("spell")
	things := []Thing{{Drill: chord, Target: drills.Target{ID: "major"}}, {Drill: seen, Target: drills.Target{ID: "major"}}, {Drill: seen, Target: drills.Target{ID: "third-of-triad"}}}
	forms := len(catalogue.Rungs(on, "chord-ear", "major")) + len(catalogue.Rungs(on, "spell", "major")) + len(catalogue.Rungs(on, "spell", "third-of-triad"))
	got := RoomIn(on, []Chapter{{Parts: []Part{{Things: things[:1]}, {Things: things[1:2]}}}, {Parts: []Part{{Things: things[2:]}}}})
	if want := (Room{Things: 3, Forms: forms}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	want := "3 things to learn, in 10 forms: new ones day by day."
	if said := (Room{3, 10}).Words().Screen(); said != want {
		t.Errorf("%q, want %q", said, want)
	}
}

// On a ukulele that is as much as the planner is handed.
func TestRoomIsWhatThePlannerIsHanded(t *testing.T) {
	on := trial.Played(t, "ukulele")
	var of []string
	room := Room{}
	for _, step := range course.BuiltIn() {
		d, _ := catalogue.ByID(step.Drill)
		for _, target := range d.Targets(on) {
			if item := drills.ItemID(step.Drill, target.ID, on.Name()); slices.Contains(step.Asks, target.ID) && !slices.Contains(of, item) {
				of = append(of, item)
				room.Forms += len(catalogue.Rungs(on, step.Drill, target.ID))
			}
		}
	}
	t.Logf("%d things in %d forms", len(of), room.Forms)
	if got := len(taught(t).Items); got != len(of) {
		t.Errorf("%d things, and the planner is handed %d", len(of), got)
	}
}
