package paper

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/theory/fret"
	"sparetone/theory/read"
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

// held is a ukulele that is held to chords in one shape each.
func held(t *testing.T, shapes map[string]string) *neck.Instrument {
	t.Helper()
	hold := neck.Hold{}
	for symbol, frets := range shapes {
		c, err := read.Chord(symbol)
		if err != nil {
			t.Fatal(err)
		}
		s, err := fret.ParseShape(frets)
		if err != nil {
			t.Fatal(err)
		}
		hold.Chords = append(hold.Chords, neck.HeldChord{Chord: c, Shapes: []fret.Shape{s}})
	}
	slices.SortFunc(hold.Chords, func(a, b neck.HeldChord) int { return strings.Compare(a.Chord.Symbol(), b.Chord.Symbol()) })
	return trial.Ukulele(t).HeldTo(hold)
}

// Where the only shape of a kind is named by one question, another asks for the name of something else of its step.
func TestAStepAsksSomethingElseForWhatIsGivenAway(t *testing.T) {
	on := held(t, map[string]string{"C": "0003", "F": "2010", "G7": "0212"})
	steps := course.Course{
		{ID: "tones", Drill: "shape-tones", Asks: []string{"major", "dominant"}},
		{ID: "names", Drill: "shape-name", Asks: []string{"major", "dominant"}},
	}
	named := map[string]int{}
	for seed := range uint64(20) {
		versions, err := OfLesson(steps, on, 2, seed, 1)
		if err != nil {
			t.Fatal(err)
		}
		tones, name := versions[0][0], versions[0][1]
		if slices.Equal(tones.Shown.Shape, name.Shown.Shape) {
			t.Errorf("seed %d: %s names what %s asks", seed, tones.Text(), name.Text())
		}
		named[tones.Target+" "+name.Target]++
	}
	if named["dominant major"] == 0 || named["major dominant"] == 0 || named["major major"] == 0 {
		t.Errorf("%v", named)
	}
}

// What one string makes is given away by its shape under its name, and not by another shape of it, or by the name of another chord.
func TestWhatGivesAMoveAway(t *testing.T) {
	on := trial.Ukulele(t)
	swap, _ := catalogue.ByID("swap")
	tones, _ := catalogue.ByID("shape-tones")
	ask := func(d drills.Drill, on *neck.Instrument, target string, seed uint64) *drills.Question {
		q, err := d.Ask(drills.Request{Target: target, On: on, Reach: reach, Rand: drills.QuestionRand(d.About().ID, target, seed)})
		if err != nil {
			t.Fatal(err)
		}
		return q
	}
	away, not := 0, 0
	for seed := range uint64(300) {
		q := ask(swap, on, "added-ninth", seed)
		o := ask(tones, on, "added-ninth", seed+1)
		right := q.IsRight(o.Shown.Shape.String())
		want := right && q.Answer.Symbol() == o.Shown.Chord.Symbol()
		if got := givesAway(o, q); got != want {
			t.Errorf("%s gives %s away: %v", o.Text(), q.Text(), got)
		}
		if want {
			away++
		} else if q.Answer.Symbol() == o.Shown.Chord.Symbol() {
			not++
		}
	}
	if away == 0 || not == 0 {
		t.Errorf("%d give away, %d of the same chord do not", away, not)
	}
}
