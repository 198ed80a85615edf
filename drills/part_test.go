package drills

import "testing"

func TestFromAStep(t *testing.T) {
	c := BuiltIn()
	from := c.From("thirds")
	if len(from) != len(c) || from[0].ID != "thirds" {
		t.Fatalf("%d steps from %s, want %d from thirds", len(from), from[0].ID, len(c))
	}
	if len(from[0].RestsOn) != 0 {
		t.Errorf("thirds still rests on %v, which is known", from[0].RestsOn)
	}
	if last := from[len(from)-1]; last.ID == "" || len(c.From("no such step")) != len(c) {
		t.Error("steps are lost")
	}
	if len(c[3].RestsOn) == 0 {
		t.Error("the course itself was changed")
	}
}

func TestOnlySomeItems(t *testing.T) {
	got := Only([]string{"chord-ear/dominant/ukulele", "chord-ear/major-seventh/ukulele", "chord-ear/nonsense/ukulele", "nothing"})
	if len(got) != 1 || got[0].Drill != "chord-ear" || len(got[0].Asks) != 2 {
		t.Errorf("%v", got)
	}
}
