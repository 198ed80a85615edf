package course

import "testing"

// Every level is kept so that it can be read again.
func TestPlacesHaveIDs(t *testing.T) {
	ids := []string{""}
	for _, s := range BuiltIn() {
		ids = append(ids, s.ID)
	}
	for _, at := range []Level{{}, {Ear: "thirds"}, {Eye: "thirds"}, {Ear: "thirds", Eye: "added-heard"}} {
		if got, ok := LevelByID(at.ID()); !ok || got != at {
			t.Errorf("%v is kept as %q, and read as %v, %v", at, at.ID(), got, ok)
		}
	}
	for _, id := range ids {
		if at := (Level{Ear: id, Eye: id}); at.ID() != "ear="+id+",eye="+id {
			t.Errorf("%v is kept as %q", at, at.ID())
		} else if got, ok := LevelByID(at.ID()); !ok || got != at {
			t.Errorf("%q is read as %v, %v", at.ID(), got, ok)
		}
	}
	for _, wrong := range []string{"", "nowhere", "ear=nowhere,eye=thirds", "ear=thirds", "eye=thirds", "ear=thirds,eye=thirds ", "thirds,eye=thirds"} {
		if at, ok := LevelByID(wrong); ok {
			t.Errorf("%q is read as %v", wrong, at)
		}
	}
}
