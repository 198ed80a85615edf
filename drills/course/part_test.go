package course

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"sparetone/drills"
)

func TestFromAStep(t *testing.T) {
	c := BuiltIn()
	on := ukulele(t)
	from := c.From(Level{"thirds", "thirds"}, on)
	if len(from) != len(c) || from[0].ID != "thirds" {
		t.Fatalf("%d steps from %s, want %d from thirds", len(from), from[0].ID, len(c))
	}
	if len(from[0].RestsOn) != 0 {
		t.Errorf("thirds still rests on %v, which is known", from[0].RestsOn)
	}
	if last := from[len(from)-1]; last.ID == "" || len(c.From(Level{"no such step", ""}, on)) != len(c) {
		t.Error("steps are lost")
	}
	if len(c[3].RestsOn) == 0 {
		t.Error("the course itself was changed")
	}
}

// A player who knows shapes and no sounds passes over shapes only.
func TestFromTwoPlaces(t *testing.T) {
	c, on := BuiltIn(), ukulele(t)
	from := c.From(Level{Ear: "", Eye: "sevenths-seen"}, on)
	if len(from) != len(c) {
		t.Fatalf("%d steps of %d", len(from), len(c))
	}
	var got []string
	for _, s := range from[:6] {
		got = append(got, s.ID)
	}
	want := []string{"high-and-low", "major-or-minor", "alike-or-not", "octave-and-fifth", "thirds", "tones-of-a-triad"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if rests := from[5].RestsOn; len(rests) != 1 || rests[0] != "major-or-minor" {
		t.Errorf("the tones of a triad rest on %v: their spelling is known, and major and minor are not", rests)
	}
}

func TestOnlySomeItems(t *testing.T) {
	got := Only([]string{"chord-ear/dominant/ukulele", "chord-ear/major-seventh/ukulele", "chord-ear/nonsense/ukulele", "nothing"})
	if len(got) != 1 || got[0].Drill != "chord-ear" || len(got[0].Asks) != 2 {
		t.Errorf("%v", got)
	}
}

func TestKnows(t *testing.T) {
	for _, s := range BuiltIn() {
		for _, a := range s.Asks {
			if id := drills.ItemID(s.Drill, a, "guitar"); !Knows(id) {
				t.Errorf("%s is not known", id)
			}
		}
	}
	for _, id := range []string{"", "build", "build/major", "build/majr/ukulele", "nose/major/ukulele", "build/major/nose"} {
		if Knows(id) {
			t.Errorf("%q is known", id)
		}
	}
	if id := drills.ItemID("build", "major", "E4 A4 D5"); !Knows(id) {
		t.Errorf("%s is not known", id)
	}
}
