package class_test

import (
	"flag"
	"os"
	"testing"
	"time"

	"sparetone/drills/class"
)

// whole is whether the study runs whole and not in part.
var whole = os.Getenv("SPARETONE_STUDY") != ""

// firstClass and studied part the study.
var (
	firstClass = flag.Int("first-class", 1, "the seed of the first class of the study")
	studied    = flag.Int("classes", 100, "how many classes the study looks at")
)

// After a week of practice with the program the verdict on each student of a class of twelve is the kind that was simulated: in 95 of a
// hundred classes on all twelve; in the ordinary run in one class with one of each kind.
func TestVerdictsAreTheKindsSimulated(t *testing.T) {
	classes, each, days, may := 1, 1, 3, 0
	if whole {
		classes, each, days, may = *studied, 2, 5, *studied/20
	}
	amiss, wrong := 0, map[string]map[class.Verdict]int{}
	began := time.Now()
	for n := range classes {
		r, err := class.Read(t.Context(), classOf(t, each, days, uint64(*firstClass+n)), today)
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
				t.Logf("class %d: %s is called %s: ear %+v, eye %+v", *firstClass+n, s.Name, got, s.Ear, s.Eye)
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
