package paper

import (
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/trial"
)

// No question of a paper names a shape that another asks to be named, or shows a shape of a chord that another asks to be built; nor does
// one of another version.
func TestNoQuestionGivesAnotherAway(t *testing.T) {
	on := trial.Ukulele(t)
	kinds := []string{"major", "minor", "dominant"}
	var steps course.Course
	for _, drill := range []string{"shape-tones", "shape-name", "build", "doubled"} {
		s := course.Step{ID: drill, Drill: drill, Asks: kinds}
		if drill == "doubled" {
			s.Asks = []string{"root", "third", "fifth"}
		}
		steps = append(steps, s)
	}
	named, asked := 0, 0
	for seed := range uint64(6) {
		versions, err := OfLesson(steps, on, 12, seed, 2)
		if err != nil {
			t.Fatal(err)
		}
		for v, questions := range versions {
			for _, q := range questions {
				switch q.Drill {
				case "shape-name":
					asked++
				case "shape-tones":
					named++
				}
				for _, o := range questions {
					if o.Shown == nil || o.Drill == "shape-name" {
						continue
					}
					if q.Drill == "shape-name" && slices.Equal(o.Shown.Shape, q.Shown.Shape) {
						t.Errorf("seed %d, version %d: %s names what %s asks", seed, v, o.Text(), q.Text())
					}
					if q.Drill == "build" && q.Answer.String() == o.Shown.Chord.String() {
						t.Errorf("seed %d, version %d: %s shows what %s asks", seed, v, o.Text(), q.Text())
					}
				}
			}
		}
	}
	if named == 0 || asked == 0 {
		t.Errorf("%d shapes are named and %d names are asked", named, asked)
	}
}

// Whose name is asked is told from the drills that say it, and what is built from what is not.
func TestWhatAQuestionAsks(t *testing.T) {
	on := trial.Ukulele(t)
	for _, d := range catalogue.All() {
		for seed := range uint64(4) {
			for _, target := range d.Targets(on) {
				q, err := d.Ask(drills.Request{Target: target.ID, On: on, Reach: reach, Rand: drills.QuestionRand(d.About().ID, target.ID, seed)})
				if err != nil {
					t.Fatal(err)
				}
				if got, want := asksName(q), q.Drill == "shape-name"; got != want {
					t.Errorf("%s asks for the name: %v", q.Text(), got)
				}
			}
		}
	}
}
