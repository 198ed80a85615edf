package practice

import (
	"testing"

	"sparetone/drills/course"
)

// Every place is written so that it can be read again.
func TestPlacesHaveNames(t *testing.T) {
	ids := []string{""}
	for _, s := range course.BuiltIn() {
		ids = append(ids, s.ID)
	}
	for _, ear := range ids {
		for _, eye := range ids {
			at := course.Place{Ear: ear, Eye: eye}
			if ear == "" || eye == "" || ear == eye {
				if got, err := levelNamed(LevelName(at)); err != nil || got != at {
					t.Fatalf("%v is written %q, and read as %v, %v", at, LevelName(at), got, err)
				}
			}
		}
	}
	for _, wrong := range []string{"", "nowhere", "by ear from nowhere, by eye from thirds", "by ear from thirds, by eye from "} {
		if at, err := levelNamed(wrong); err == nil {
			t.Errorf("%q is read as %v", wrong, at)
		}
	}
}
