package setting

import (
	"testing"

	"sparetone/drills/course"
)

// Every place that is found is said, and no level is said to be one.
func TestPlacesAreSaid(t *testing.T) {
	level := ByID("level")
	for _, row := range []struct {
		at           course.Level
		short, about string
	}{
		{course.Level{}, "from the beginning", "Where it begins; what comes before is taken as known."},
		{course.Level{Ear: "thirds", Eye: "thirds"}, "major, minor and plain shapes are known", "Where it begins; what comes before is taken as known."},
		{course.Level{Ear: "thirds"}, "the place that was found", "Where it begins; what comes before is taken as known. By ear from “The two thirds”, by eye from the beginning."},
	} {
		s := Standard
		s.Level = row.at
		if got := level.Short(level.Get(&s)).Screen(); got != row.short {
			t.Errorf("%v is said %q, want %q", row.at, got, row.short)
		}
		if got := level.Explained(&s).Screen(); got != row.about {
			t.Errorf("%v is explained %q, want %q", row.at, got, row.about)
		}
	}
}
