package practice

import (
	"os"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
)

// instrument is a tuning that is played.
func instrument(t testing.TB, tuning string) *neck.Instrument {
	t.Helper()
	on, err := neck.NewInstrument(tuning, 0, "")
	if err != nil {
		t.Fatal(err)
	}
	return on
}

// drill is one of the drills by its id.
func drill(t testing.TB, id string) drills.Drill {
	t.Helper()
	d, ok := catalogue.ByID(id)
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
