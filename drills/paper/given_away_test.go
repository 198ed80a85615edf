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

// A paper does not ask the same twice where the drill has something else to ask: of 20 questions in ten papers about doubled notes of the
// guitar 42 were asked before when nothing looked after that.
func TestNothingIsAskedAgain(t *testing.T) {
	for _, x := range []struct {
		drill, on string
		most      int // what is asked again in four papers; from the few shapes that there are
	}{{"doubled", "ukulele", 0}, {"swap", "ukulele", 0}, {"added-ear", "guitar", 0}, {"resolve", "guitar", 0}, {"doubled", "guitar", 8}} {
		d, _ := catalogue.ByID(x.drill)
		again := 0
		for seed := range uint64(4) {
			versions, err := OfDrill(d, trial.Instrument(t, x.on), 20, seed+1, 1)
			if err != nil {
				t.Fatal(err)
			}
			for n, q := range versions[0] {
				if asksAgain(q, versions[0][:n]) {
					again++
				}
			}
		}
		if again > x.most {
			t.Errorf("%s on %s: %d questions are asked again, more than %d", x.drill, x.on, again, x.most)
		}
	}
}

// The same sounds in another order of plucking are the same question, another shape of the chord is another.
func TestWhatIsAskedAgain(t *testing.T) {
	on := trial.Ukulele(t)
	d, _ := catalogue.ByID("build")
	ask := func(seed uint64) *drills.Question {
		q, err := d.Ask(drills.Request{Target: "major", On: on, Rand: drills.QuestionRand("build", "major", seed)})
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	one := ask(1)
	for seed := range uint64(20) {
		if q := ask(seed); asksAgain(q, []*drills.Question{one}) != (q.Answer == one.Answer) {
			t.Errorf("%s and %s", q.Text(), one.Text())
		}
	}
	e, _ := catalogue.ByID("resolve")
	again, orders := 0, map[string]bool{}
	var asked []*drills.Question
	for seed := range uint64(40) {
		q, err := e.Ask(drills.Request{Target: "dominant-ninth", On: on, Rand: drills.QuestionRand("resolve", "dominant-ninth", seed)})
		if err != nil {
			t.Fatal(err)
		}
		if asksAgain(q, asked) && !orders[q.Text()] {
			again++
		}
		asked, orders[q.Text()] = append(asked, q), true
	}
	if again == 0 {
		t.Error("no two of 40 questions are the same but for the order of plucking")
	}
}
