package class_test

import (
	"os"
	"testing"
	"time"

	"sparetone/drills/class"
)

// whole is whether the study runs whole and not in part.
var whole = os.Getenv("SPARETONE_STUDY") != ""

// After a week of practice with the program the verdict on each student of a class of twelve is the kind that was simulated: in 95 of a
// hundred classes on all twelve; in the ordinary run in one class with one of each kind.
func TestVerdictsAreTheKindsSimulated(t *testing.T) {
	classes, each, days, may := 1, 1, 3, 0
	if whole {
		classes, each, days, may = 100, 2, 5, 5
	}
	amiss, wrong := 0, map[string]map[class.Verdict]int{}
	began := time.Now()
	for n := range classes {
		r, err := class.Read(t.Context(), classOf(t, each, days, uint64(n+1)), today)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Students) != 6*each || len(r.Problems) > 0 {
			t.Fatalf("%d students, %v", len(r.Students), r.Problems)
		}
		all := true
		for _, s := range r.Students {
			if got := s.Finding.Verdict; got != wanted(s.Name) {
				all = false
				if wrong[s.Name] == nil {
					wrong[s.Name] = map[class.Verdict]int{}
				}
				wrong[s.Name][got]++
				t.Logf("class %d: %s is called %s: ear %+v, eye %+v", n+1, s.Name, got, s.Ear, s.Eye)
			}
		}
		if !all {
			amiss++
		}
	}
	t.Logf("%d of %d classes with a verdict amiss: %v; %v", amiss, classes, wrong, time.Since(began))
	if amiss > may {
		t.Errorf("in %d of %d classes a verdict is another than what was simulated", amiss, classes)
	}
}
