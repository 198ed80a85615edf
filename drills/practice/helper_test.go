package practice

import (
	"os"
	"testing"

	"sparetone/drills"
)

// instrument is a tuning that is played.
func instrument(t testing.TB, tuning string) *drills.Instrument {
	t.Helper()
	on, err := drills.NewInstrument(tuning, 0, "")
	if err != nil {
		t.Fatal(err)
	}
	return on
}

// drill is one of the drills by its id.
func drill(t testing.TB, id string) drills.Drill {
	t.Helper()
	d, ok := drills.ByID(id)
	if !ok {
		t.Fatalf("there is no drill %s", id)
	}
	return d
}

// whole is whether studies run whole and not in part.
var whole = os.Getenv("SPARETONE_STUDY") != ""

// studyOf returns how many students a study asks or takes.
func studyOf(ordinary, full int) int {
	if whole {
		return full
	}
	return ordinary
}
