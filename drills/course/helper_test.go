package course

import (
	"os"
	"testing"

	"sparetone/drills/neck"
)

// ukulele is the instrument most tests play.
func ukulele(t testing.TB) *neck.Instrument {
	t.Helper()
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	return on
}

// whole is whether studies run whole and not in part.
var whole = os.Getenv("SPARETONE_STUDY") != ""

// studyOf returns how many students a study takes.
func studyOf(ordinary, full int) int {
	if whole {
		return full
	}
	return ordinary
}
