package practice

import (
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
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
