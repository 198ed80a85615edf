package class

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// Luck is taken out of what is known: of 40 questions among four, 10 right are nothing known and 40 all.
func TestKnownIsAboveChance(t *testing.T) {
	for _, c := range []struct {
		right int
		want  Shown
	}{{10, Shown{0, 0, 20}}, {25, Shown{50, 29, 68}}, {40, Shown{100, 88, 100}}} {
		if got, any := KnownOf(memory.Tally{Asked: 40, Right: c.right, Guessed: 10}); !any || got != c.want {
			t.Errorf("%d of 40: %+v, want %+v", c.right, got, c.want)
		}
	}
	if _, any := KnownOf(memory.Tally{}); any {
		t.Error("something is said of nothing")
	}
}

// Where nothing changed a change is told in one of twenty students, and the interval holds what is true in nineteen, though each thing has
// few answers and other things are asked afterwards.
func TestChangeIsHeldByItsInterval(t *testing.T) {
	rng := rand.New(rand.NewPCG(18, 3))
	for _, truth := range []float64{0, 0.15} {
		const students = 1500
		held := 0
		for range students {
			var all []answer
			for thing := range int32(25) {
				before := 0.3 + 0.5*rng.Float64()
				for n := range 2 + rng.IntN(12) {
					side := n % 2
					if thing >= 20 {
						side = 1 // new since
					}
					a := answer{thing: thing, rung: 1, day: progress.Day(side), result: progress.Wrong}
					if rng.Float64() < before+truth*float64(side) {
						a.result = progress.Right
					}
					all = append(all, a)
				}
			}
			if c, any := changeOf(all, 1); any && c.Low <= truth && truth <= c.High {
				held++
			}
		}
		share := float64(held) / students
		t.Logf("a change of %v: held by %.3f of the intervals", truth, share)
		if math.Abs(share-0.95) > 0.02 {
			t.Errorf("a change of %v: held by %.3f of the intervals", truth, share)
		}
	}
}

// practisedBy is what somebody practised: so many answers to each of some things, each right or taken for another thing as told.
func practisedBy(choices uint8, each int, items []string, taken func(thing, n int) (other int, right bool)) (*practised, []answer) {
	p := newPractised()
	for _, item := range items {
		p.thingOf(item)
	}
	for thing := range items {
		for n := range each {
			a := answer{thing: int32(thing), takenFor: -1, lesson: -1, choices: choices, result: progress.Right}
			if other, right := taken(thing, n); !right {
				a.result, a.takenFor = progress.Wrong, int32(other)
			}
			p.answers = append(p.answers, a)
		}
	}
	return p, p.answers
}

var fourKinds = []string{"chord-ear/major/ukulele", "chord-ear/minor/ukulele", "chord-ear/dominant/ukulele", "chord-ear/added-ninth/ukulele"}

// Each verdict is said where the numbers show it, and not where they are a little short of it.
func TestVerdictsSayNothingThatLuckExplains(t *testing.T) {
	const today = 100
	always := func(thing, _ int) (int, bool) { return 3, thing == 3 }
	guesses := func(thing, n int) (int, bool) { return (thing + n) % 4, n%4 == 0 }
	all := func(int, int) (int, bool) { return 0, true }
	mixes := func(thing, n int) (int, bool) { return 1, thing != 0 || n%2 == 0 } // only one thing is taken for another
	for _, c := range []struct {
		name   string
		each   int
		answer func(thing, n int) (int, bool)
		last   progress.Day
		want   Verdict
	}{
		{"always the ninth", 12, always, today, OneAnswer},
		{"guesses", 25, guesses, today, Guesses},
		{"guesses, but too few to exclude that a third is known", 10, guesses, today, TooFew},
		{"all right, by ear alone", 12, all, today, EarAlone},
		{"all right, too few", 9, all, today, TooFew},
		{"the ninth to two of five, which luck may explain", 25, func(thing, n int) (int, bool) {
			if n%5 < 2 {
				return 3, thing == 3
			}
			return (thing + 1) % 3, n%5 == 2
		}, today, TooFew},
		{"two things mixed up", 12, mixes, today, EarAlone},
		{"a week ago", 12, all, today - 7, Silent},
		{"six days ago", 12, all, today - 6, EarAlone},
	} {
		p, counts := practisedBy(4, c.each, fourKinds, c.answer)
		if got := find(p, counts, true, c.last, today); got.Verdict != c.want {
			t.Errorf("%s: %+v, want %s", c.name, got, c.want)
		} else if got.Says().IsZero() {
			t.Errorf("%s: nothing is said of it", c.name)
		}
	}
	if got := find(newPractised(), nil, false, 0, today); got.Verdict != Silent || got.Says().Screen() != "Nothing was practised yet." {
		t.Errorf("of whom nothing is there: %+v, %s", got, got.Says())
	}
}

// Who answers the same in each of three drills is found by all of them together where none alone would tell.
func TestOneAnswerIsFoundInAllDrillsTogether(t *testing.T) {
	const today = 100
	for drills, want := range map[int]Verdict{1: TooFew, 3: OneAnswer} {
		var items []string
		for d := range drills {
			for kind := range 4 {
				items = append(items, fmt.Sprintf("%s/thing%d/ukulele", []string{"chord-ear", "shape-name", "added-ear"}[d], kind))
			}
		}
		// To every second question about something else the first of its drill, else a wrong one in turn, or the right one.
		p, counts := practisedBy(4, 10, items, func(thing, n int) (int, bool) {
			first := thing - thing%4
			switch {
			case thing == first || n%2 == 0:
				return first, thing == first
			case n%4 == 1:
				return thing, true
			}
			return first + 1 + thing%3, first+1+thing%3 == thing
		})
		if got := find(p, counts, true, today, today); got.Verdict != want {
			t.Errorf("in %d drills: %+v, want %s", drills, got, want)
		}
	}
}

// Where it is known what there was to choose from, a few questions tell who answers the same whenever that can be chosen: a choice, a thing, or a
// kind of chord on whatever root. Whoever picks any of them does not, nor who takes only one thing for another.
func TestOneAnswerAmongWhatWasOffered(t *testing.T) {
	const today = 100
	rng := rand.New(rand.NewPCG(18, 13))
	always := func(ids ...string) func([]string, int) int {
		return func(offered []string, _ int) int {
			if n := slices.IndexFunc(offered, func(id string) bool { return slices.Contains(ids, id) }); n >= 0 {
				return n
			}
			return rng.IntN(len(offered))
		}
	}
	any := func(offered []string, _ int) int { return rng.IntN(len(offered)) }
	kinds := []string{"major", "minor", "dominant", "added-ninth", "minor-seventh", "major-sixth"}
	symbols := []string{"", "m", "7", "add9", "m7", "6"}
	for _, c := range []struct {
		name, drill string
		id          func(kind int) string // of a choice
		answer      func(offered []string, right int) int
		want        string // what is said to be answered; "" if nothing
	}{
		{"a thing", "chord-ear", func(kind int) string { return kinds[kind] }, always("dominant"), "seventh"},
		{"a kind of chord", "shape-name", func(kind int) string { return "CDEFGA"[rng.IntN(6):][:1] + symbols[kind] }, always("C7", "D7", "E7", "F7", "G7", "A7"), "seventh"},
		{"a choice", "resolve", func(kind int) string { return []string{"P1 major", "m2 major", "P4 major"}[kind%3] }, always("m2 major"), "said"},
		{"any", "chord-ear", func(kind int) string { return kinds[kind] }, any, ""},
		{"any kind of chord", "shape-name", func(kind int) string { return "CDEFGA"[rng.IntN(6):][:1] + symbols[kind] }, any, ""},
		{"minor for major alone", "chord-ear", func(kind int) string { return kinds[kind] }, func(offered []string, right int) int {
			if minor := slices.Index(offered, "minor"); offered[right] == "major" && minor >= 0 {
				return minor
			}
			return right
		}, ""},
	} {
		p := newPractised()
		for n := range 48 {
			kind := n % len(kinds)
			offered := []string{c.id(kind)}
			for other := range 3 {
				offered = append(offered, c.id((kind+1+other+rng.IntN(3))%len(kinds)))
			}
			rng.Shuffle(len(offered), func(i, j int) { offered[i], offered[j] = offered[j], offered[i] })
			right := slices.Index(offered, c.id(kind))
			a := progress.Answer{Drill: c.drill, Given: "said", Offered: strings.Join(offered, progress.Between), Chosen: c.answer(offered, max(0, right)) + 1}
			one := answer{thing: p.thingOf(c.drill + "/" + kinds[kind] + "/ukulele"), takenFor: -1, lesson: -1, choices: 4, chosen: uint8(a.Chosen), result: progress.Wrong}
			if a.Chosen == right+1 {
				one.result = progress.Right
			}
			one.offer = p.offerOf(a)
			p.answers = append(p.answers, one)
		}
		got := find(p, p.answers, true, today, today)
		switch said := got.Says().Screen(); {
		case c.want == "":
			if got.Verdict == OneAnswer {
				t.Errorf("%s: %s", c.name, said)
			}
		case got.Verdict != OneAnswer || got.Answer != c.want || !got.Offered:
			t.Errorf("%s: %+v", c.name, got)
		case !strings.Contains(said, "Answers “"+c.want+"” in "+c.drill+" nearly whenever it can be chosen and something else is right: "):
			t.Error(said)
		}
	}
}

// Who seems to guess and may answer always the same is said to do neither; where it is known what there was to choose from that takes more.
func TestWhoMayAnswerTheSameIsNotSaidToGuess(t *testing.T) {
	for _, c := range []struct {
		luck    float64
		offered bool
		want    Verdict
	}{{0.5, false, Guesses}, {0.49, false, TooFew}, {0.49, true, Guesses}, {0.02, true, Guesses}, {0.019, true, TooFew}, {0.001, true, TooFew}, {0.0009, true, OneAnswer}} {
		j := &judged{isAtChance: true, always: Finding{Verdict: OneAnswer, Luck: c.luck, Offered: c.offered}}
		j.senses.All.Asked = fewest
		if got := verdicts[slices.IndexFunc(verdicts, func(v rule) bool { return v.holds(j) })].verdict; got != c.want {
			t.Errorf("%+v: %s", c, got)
		}
	}
}

// Two chances of one in ten make together what the method's tables say, and one alone is what it is.
func TestFisher(t *testing.T) {
	at := func(luck float64) favourite { return favourite{Finding: Finding{Luck: luck}, things: 1} }
	for _, c := range []struct {
		all  []favourite
		want float64
	}{
		{nil, 1},
		{[]favourite{at(0.05)}, 0.05},
		{[]favourite{at(1), at(1), at(1)}, 1},
		{[]favourite{at(0.1), at(0.1)}, 0.01 * (1 - math.Log(0.01))},
		{[]favourite{{Finding: Finding{Luck: 0.025}, things: 4}, at(0.1)}, 0.01 * (1 - math.Log(0.01))},
	} {
		if got := fisher(c.all); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v: %v, want %v", c.all, got, c.want)
		}
	}
}

// What is right as often as it should be is called weak, of all things of a student together, in one of twenty students at the most.
func TestWeakByBadLuckIsRare(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	var items []string
	for n := range 30 {
		items = append(items, fmt.Sprintf("chord-ear/thing%d/ukulele", n))
	}
	const students = 600
	called := 0
	for range students {
		p, counts := practisedBy(4, 10, items, func(int, int) (int, bool) { return 0, rng.Float64() < memory.Aim })
		for _, i := range itemsOf(p, counts) {
			if i.Weak {
				called++
				break
			}
		}
	}
	if share := float64(called) / students; share > family+0.02 {
		t.Errorf("%.3f of the students are called weak at something by bad luck", share)
	}
}

func TestPointsHaveTheirSign(t *testing.T) {
	for share, want := range map[float64]string{0.234: "+23", -0.03: "-3", 0: "0", 0.004: "0", -0.004: "0", 1: "+100"} {
		if got := Points(share); got != want {
			t.Errorf("%g: %s, want %s", share, got, want)
		}
	}
}

// What is weak by ear is played, what is weak by eye is shown, in the way of its drill.
func TestWhatToBring(t *testing.T) {
	for want, w := range map[string]Weakness{
		"Name a kind of chord by ear: play “minor” among others.":                    {Thing: &Thing{Drill: "chord-ear", Ear: true, Name: "minor"}},
		"Name a shape by sight: show “minor” among others.":                          {Thing: &Thing{Drill: "shape-name", Name: "minor"}},
		"Name a kind of chord by ear: play “minor” and “minor added ninth” in turn.": {Thing: &Thing{Drill: "chord-ear", Ear: true, Name: "minor"}, Mostly: "minor added ninth"},
		"later: show “this” among others.":                                           {Thing: &Thing{Drill: "later", Name: "this"}},
	} {
		if got := w.toBring().Screen(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// What comes next is what a course has after what was asked of a drill, and not what a lesson passed over before it.
func TestNextStepsPassOverNothingBefore(t *testing.T) {
	asked := func(items ...string) *Student {
		s := &Student{}
		for _, item := range items {
			drill, target, _ := strings.Cut(item, "/")
			s.Items = append(s.Items, Item{Thing: &Thing{Drill: drill, Target: target}})
		}
		return s
	}
	ids := func(students ...*Student) (out []string) {
		for _, step := range nextSteps(students) {
			out = append(out, step.Drill)
		}
		return out
	}
	if got := ids(asked()); !slices.Equal(got, []string{"same-or-not", "chord-ear"}) {
		t.Errorf("%v after nothing", got)
	}
	pairs := asked("same-or-not/major-or-minor")
	if got := ids(pairs, pairs, asked()); slices.Contains(got, "same-or-not") || got[0] != "chord-ear" {
		t.Errorf("%v after pairs of chords", got)
	}
	if got := ids(pairs, asked(), asked()); got[0] != "same-or-not" {
		t.Errorf("%v where most were asked nothing", got)
	}
}
