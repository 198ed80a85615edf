package practice

import (
	"slices"
	"testing"

	"sparetone/drills/practice/setting"
	"sparetone/progress"
)

// Each setting goes to a student's other machines or stays, and somebody has decided which.
func TestSettingsAreCarriedOrStay(t *testing.T) {
	stay := []string{"voice", "volume", "part", "movement", "colours"}
	for _, s := range setting.All {
		want := progress.Newest
		if slices.Contains(stay, s.ID) {
			want = progress.Stays
		}
		if got := Carried(s.ID); got != want {
			t.Errorf("%s: %d, want %d; a new setting is of the student or of the machine", s.ID, got, want)
		}
	}
	for key, want := range map[string]progress.Carry{
		"welcomed": progress.Once, "met/chord-ear/add9/ukulele": progress.Once, "opened/third": progress.Once,
		"whose/id": progress.Stays, "sync/state": progress.Stays, "sync/folder": progress.Stays, "import/x": progress.Stays, "undone/x": progress.Stays, "mine/x": progress.Stays, "tunings": progress.Stays, "taken-back/x": progress.Newest,
	} {
		if got := Carried(key); got != want {
			t.Errorf("%s: %d, want %d", key, got, want)
		}
	}
}
