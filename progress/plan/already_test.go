package plan

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// asked is what is known of something that was asked so many times, of which so many were right, among four.
func asked(times, right int) memory.Memory {
	return memory.Memory{Asked: times, Right: right, Guess: 0.25}
}

// known lays out a course of drill d, one thing after another, and says how likely each was known before.
func known(all ...memory.Memory) []float64 {
	var course []Candidate
	for i := range all {
		course = append(course, Candidate{Item: fmt.Sprint("d", i), Drill: "d"})
	}
	p := planner(history(), course...)
	for i, m := range all {
		if m.Asked > 0 {
			p.known.Memory[course[i].Item] = m
		}
	}
	return p.alreadyKnown()
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-6 {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// What was right at first among four was known with odds of four to one times those of the student's level; a miss says it was not.
func TestWhatARightAnswerSaysOfWhatIsKnown(t *testing.T) {
	near(t, "nothing was asked", known(memory.Memory{})[0], 0.2)
	near(t, "a level of a fifth", wasKnown(asked(1, 1), 0.2), 0.2/(0.2+0.8*0.25))
	near(t, "a level of four fifths", wasKnown(asked(3, 3), 0.8), 0.8/(0.8+0.2*0.25))
	near(t, "missed once", wasKnown(asked(3, 2), 0.8), 0.05)
	near(t, "given freely", wasKnown(memory.Memory{Asked: 1, Right: 1}, 0.2), 0.2/(0.2+0.8*0.02))
	// One right: the level is (4·0.2 + what it says) / 5, four times over.
	level := 0.2
	for range 4 {
		level = (0.8 + level/(level+(1-level)*0.25)) / 5
	}
	says := level / (level + (1-level)*0.25)
	before := 0.2
	for range 3 {
		before = (0.8 + before/(before+(1-before)*0.25)) / 5
	}
	got := known(asked(1, 1), memory.Memory{})
	near(t, "what was right", got[0], says)
	near(t, "what stands beside it", got[1], (level+says)/2)
	if math.Abs(before-level) < 1e-6 {
		t.Error("four rounds are no more than three")
	}
}

// What stands near tells: the eight before it of its drill that were asked, no more than sixty places back, and those after it up to thirty.
func TestWhatStandsNearTellsWhatIsKnown(t *testing.T) {
	p := planner(history(), Candidate{Item: "x", Drill: "d"})
	share := func(at int, missed ...int) float64 {
		p.course = nil
		all := make([]memory.Memory, 200)
		for i := range all {
			p.course = append(p.course, Candidate{Item: fmt.Sprint(i), Drill: "d"})
		}
		for _, i := range missed {
			all[i] = asked(1, 0)
		}
		return p.near(at, all, 0.7)
	}
	near(t, "nothing near: the level", share(100), 0.7)
	near(t, "one miss before it", share(100, 99), (0.7+0.05)/2)
	near(t, "sixty places back", share(100, 40), (0.7+0.05)/2)
	near(t, "sixty-one are too far", share(100, 39), 0.7)
	near(t, "thirty places on", share(100, 130), (0.7+0.05)/2)
	near(t, "thirty-one are too far", share(100, 131), 0.7)
	var nine []int
	for i := range 9 {
		nine = append(nine, 99-i)
	}
	near(t, "eight before it", share(100, nine[:8]...), (0.7+8*0.05)/9)
	near(t, "a ninth tells nothing more", share(100, nine...), (0.7+8*0.05)/9)
	p.course[99].Drill = "e"
	near(t, "another drill tells nothing", p.near(100, append(append(make([]memory.Memory, 99), asked(1, 0)), make([]memory.Memory, 100)...), 0.7), 0.7)
}

// What is likely known is begun last, and what rests on it does not wait; where all is likely known the least likely comes.
func TestWhatIsLikelyKnownComesLast(t *testing.T) {
	course := []Candidate{
		{Item: "a1", Drill: "a"}, {Item: "a2", Drill: "a"}, {Item: "a3", Drill: "a"}, {Item: "a4", Drill: "a"},
		{Item: "b1", Drill: "b"}, {Item: "b2", Drill: "b", After: []string{"a4"}},
	}
	p := planner(history(), course...)
	for _, item := range []string{"a1", "a2", "a3"} {
		p.known.Memory[item] = asked(1, 1)
	}
	p.known.Memory["b1"] = asked(2, 1)
	all := p.alreadyKnown()
	if !(all[3] >= 0.5 && all[5] < 0.5) {
		t.Fatal(all)
	}
	if next := p.newOnes(); len(next) != 1 || next[0].Item != "b2" {
		t.Errorf("%v, want what rests on something likely known", next)
	}
	delete(p.known.Memory, "b1")
	p.known.Memory["b2"] = asked(1, 1)
	p.already = nil
	if all := p.alreadyKnown(); !(all[4] < all[3] && all[4] >= 0.5) {
		t.Fatal(all)
	}
	if next := p.newOnes(); len(next) != 1 || next[0].Item != "b1" {
		t.Errorf("%v, want what is least likely known", next)
	}
	// Who begins, or is taught, keeps the course's order.
	p = planner(history(), course...)
	p.known.Memory["a1"] = asked(2, 1)
	if next := p.newOnes(); next[0].Item != "a2" || next[1].Item != "a3" {
		t.Errorf("%v, want the course's order", next)
	}
}

// From one half on something is likely known.
func TestFromWhenOnSomethingIsLikelyKnown(t *testing.T) {
	p := planner(history(), Candidate{Item: "a", Drill: "a"}, Candidate{Item: "b", Drill: "b"})
	for chance, want := range map[float64]bool{0.499: false, 0.501: true} {
		p.already = []float64{chance, 0}
		if p.likelyKnown("a") != want || slices.ContainsFunc(p.newOnes(), func(c Candidate) bool { return c.Item == "a" }) == want {
			t.Errorf("known with %v: %v", chance, p.likelyKnown("a"))
		}
	}
}

// What was shown before it was asked says nothing by being right, until it has come to the third rung; a miss does.
func TestWhatWasShownSaysLittleOfWhatWasKnown(t *testing.T) {
	for _, c := range []struct {
		m     memory.Memory
		shown bool
		tells bool
	}{
		{memory.Memory{Asked: 1, Right: 1, Guess: 0.25, Rung: 2}, true, false},
		{memory.Memory{Asked: 1, Right: 1, Guess: 0.25, Rung: 2}, false, true},
		{memory.Memory{Asked: 2, Right: 2, Guess: 0.25, Rung: 3}, true, true},
		{memory.Memory{Asked: 2, Right: 1, Guess: 0.25, Rung: 1}, true, true},
	} {
		p := planner(history(), Candidate{Item: "a", Drill: "d", Shown: c.shown}, Candidate{Item: "b", Drill: "d"})
		p.known.Memory["a"] = c.m
		if tells := math.Abs(p.alreadyKnown()[1]-0.2) > 1e-9; tells != c.tells {
			t.Errorf("%+v, shown %v: it tells something of its neighbour: %v", c.m, c.shown, tells)
		}
	}
}

// What was answered, or another course, makes all of it be looked at again.
func TestWhatIsKnownIsLookedAtAgain(t *testing.T) {
	p := planner(history(), Candidate{Item: "a", Drill: "d"}, Candidate{Item: "b", Drill: "d"})
	before := p.alreadyKnown()[1]
	p.Answered(answered("a", today, progress.Right))
	after := p.alreadyKnown()[1]
	if after <= before {
		t.Errorf("after a right answer %v, before %v", after, before)
	}
	p.Follow([]Candidate{{Item: "b", Drill: "d"}})
	if len(p.alreadyKnown()) != 1 {
		t.Error("it is of the course before")
	}
}
