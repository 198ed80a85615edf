package plan

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
)

// Every number that the memory and the planner go by has an example here, or beside its own code, that is no longer
// true once the number is a twentieth, or one, more or less.

// fadedTo is what is remembered of something that was right five days ago and is right today with a chance; it is
// not due.
func fadedTo(chance float64) memory.Memory {
	w := memory.DefaultWeights
	return memory.Memory{Trace: memory.Trace{Stability: 5 / w.Interval(memory.Trace{Stability: 1}, chance), Difficulty: 5}, Day: today - 5, Due: today + 30, Asked: 3, Held: 3, Run: 3}
}

// dueAt is the same, and has come back.
func dueAt(chance float64) memory.Memory {
	m := fadedTo(chance)
	m.Due = today
	return m
}

// remembering is a planner of some things in the order of their names, each of the drill its name begins with.
func remembering(memory map[string]memory.Memory) *Planner {
	var course []Candidate
	var names []string
	for name := range memory {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		course = append(course, Candidate{Item: name, Drill: name[:1]})
	}
	p := planner(history(), course...)
	for name, m := range memory {
		if m.Asked > 0 {
			p.known.Memory[name] = m
		}
	}
	return p
}

// unmet is something that was never asked.
var unmet = memory.Memory{}

func TestAQuestionTakesFifteenSecondsUntilThePaceIsKnown(t *testing.T) {
	// A question is asked as long as at least half of it falls into the session's time: 7.5 s.
	for at, want := range map[time.Duration]bool{9*time.Minute + 52400*time.Millisecond: true, 9*time.Minute + 52600*time.Millisecond: false} {
		p := remembering(map[string]memory.Memory{"a": fadedTo(0.9), "b": fadedTo(0.9)})
		p.Next(noon(today))
		if _, ok := p.Next(noon(today).Add(at)); ok != want {
			t.Errorf("after %v a question: %v", at, ok)
		}
	}
	// What closes the session is asked when there is time for one and a half: 22.5 s.
	for at, want := range map[time.Duration]Reason{9*time.Minute + 37400*time.Millisecond: Ahead, 9*time.Minute + 37600*time.Millisecond: Closing} {
		p := remembering(map[string]memory.Memory{"a": fadedTo(0.9), "b": fadedTo(0.9), "c": fadedTo(0.89)})
		p.Next(noon(today))
		if pick, _ := p.Next(noon(today).Add(at)); pick.Why.Reason != want {
			t.Errorf("after %v it is %v, not %v", at, pick.Why.Reason, want)
		}
	}
}

func TestWhatWasMissedComesOnceMoreThreeQuestionsLater(t *testing.T) {
	known := history(answered("b", today, progress.Right), answered("c", today, progress.Right), answered("d", today, progress.Right), answered("e", today, progress.Right))
	p := planner(known, Candidate{Item: "a", Drill: "d"}, Candidate{Item: "b", Drill: "d"}, Candidate{Item: "c", Drill: "d"}, Candidate{Item: "d", Drill: "d"}, Candidate{Item: "e", Drill: "d"})
	var asked []string
	for range 6 {
		pick, _ := p.Next(noon(today))
		asked = append(asked, pick.Item+" "+pick.Why.Reason.String())
		r := progress.Right
		if pick.Item == "a" {
			r = progress.Wrong
		}
		p.Answered(answered(pick.Item, today, r))
	}
	want := []string{"a new", "b ahead", "c ahead", "d ahead", "a missed", "e ahead"} // and not a second time once more
	if !slices.Equal(asked, want) {
		t.Errorf("asked %v, want %v", asked, want)
	}
}

func TestWhatHasFadedALittleIsWorthAsking(t *testing.T) {
	p := remembering(map[string]memory.Memory{"a": fadedTo(0.949), "b": fadedTo(0.951)})
	if !p.Wanted("a", noon(today)) || p.Wanted("b", noon(today)) {
		t.Error("what is right with 0.949 is worth asking, with 0.951 not yet")
	}
	for chance, want := range map[float64]bool{0.949: true, 0.951: false} {
		p := remembering(map[string]memory.Memory{"a": fadedTo(chance)})
		if _, found := p.faded(today); found != want {
			t.Errorf("%v has faded enough: %v", chance, found)
		}
		// The other of a mistaken pair as well.
		p = remembering(map[string]memory.Memory{"a": fadedTo(chance), "b": dueAt(0.8)})
		p.Next(noon(today))
		p.Answered(takenFor("b", "a", today))
		if got := len(p.contrast) == 1; got != want {
			t.Errorf("%v is set against what was taken for it: %v", chance, got)
		}
	}
}

func TestWhatIsRightOneTimeInTwoIsLost(t *testing.T) {
	for chance, want := range map[float64]string{0.501: "a", 0.499: "b"} {
		p := remembering(map[string]memory.Memory{"a": dueAt(chance), "b": unmet})
		if pick, _ := p.Next(noon(today)); pick.Item != want {
			t.Errorf("where a is right with %v, %s comes first", chance, pick.Item)
		}
	}
}

func TestRoomForSomethingNew(t *testing.T) {
	for _, c := range []struct {
		held string // answers of the session: + right, - wrong
		room bool
	}{
		{"", true}, {"--", true}, {"---", false},
		{"---++++", false}, {"---+++++", true}, {"----++++", false},
		{"-----+++++++", true}, {"------++++++", false}, {"+++++++-----", true}, {"++++++------", false},
		{"--------------------" + "-----+++++++", true}, // only the latest twelve count
		{"++++++++++++" + "------++++++", false},
	} {
		p := remembering(map[string]memory.Memory{"new": unmet})
		for _, h := range c.held {
			p.held = append(p.held, h == '+')
		}
		if _, room := p.fresh(today); room != c.room {
			t.Errorf("after %q there is room: %v", c.held, room)
		}
	}
}

func TestOfSixNewThingsOneOfAnotherDrillComes(t *testing.T) {
	for others, want := range map[int]string{5: "e", 6: "d1"} {
		memory := map[string]memory.Memory{"e": unmet}
		for n := range others {
			memory[fmt.Sprint("d", n+1)] = unmet
		}
		p := remembering(memory)
		p.asked = []Pick{{Item: "d0", Drill: "d"}}
		if pick, _ := p.begin(); pick.Item != want {
			t.Errorf("after %d of the same drill: %s", others, pick.Item)
		}
	}
}

func TestNothingIsAskedAheadMoreThanThreeTimes(t *testing.T) {
	for tries, want := range map[int]bool{0: true, 2: true, 3: false} {
		p := remembering(map[string]memory.Memory{"a": fadedTo(0.99)})
		p.tries["a"] = tries
		if _, found := p.ahead(today); found != want {
			t.Errorf("asked %d times it comes ahead: %v", tries, found)
		}
	}
}

func TestASessionClosesWithWhatIsRightNineTimesInTen(t *testing.T) {
	for _, c := range []struct {
		a, b   float64
		triesA int
		want   string
	}{
		{0.891, 0.907, 0, "b"}, {0.893, 0.909, 0, "a"}, // the one that lies nearer
		{0.9, 0.909, 1, "b"}, {0.9, 0.911, 1, "a"}, // to have been asked counts as a hundredth
		{0.701, 0, 0, "a"}, {0.699, 0, 0, ""}, {1, 0, 0, "a"}, // no further than a fifth away
	} {
		memory := map[string]memory.Memory{"a": fadedTo(c.a)}
		if c.b > 0 {
			memory["b"] = fadedTo(c.b)
		}
		p := remembering(memory)
		p.tries["a"] = c.triesA
		pick, found := p.closing(today)
		if !found {
			pick.Item = ""
		}
		if pick.Item != c.want {
			t.Errorf("of %v, asked %d times, and %v: %q", c.a, c.triesA, c.b, pick.Item)
		}
	}
}

func TestWhatItWasTakenForHasThreeTurns(t *testing.T) {
	c := Candidate{Item: "major", Drill: "d", Near: []string{"minor"}}
	known := history(answered("minor", today-9, progress.Right), answered("sus4", today-9, progress.Right))
	for range 5 {
		known.Add(takenFor("major", "sus4", today-1), today-1)
	}
	p := planner(known, c, Candidate{Item: "minor", Drill: "d"}, Candidate{Item: "sus4", Drill: "d"})
	met := map[string]int{}
	for range 20 {
		known.Add(answered("major", today-1, progress.Right), today-1)
		met[p.company(c, today)]++
	}
	if met["minor"] != 5 || met["sus4"] != 15 {
		t.Errorf("set against %v", met)
	}
}

func TestAnotherOfTheSameDrillIsWorthFourFifths(t *testing.T) {
	for seconds, want := range map[time.Duration]string{12400 * time.Millisecond: "e", 12600 * time.Millisecond: "d"} {
		p := remembering(map[string]memory.Memory{"d": dueAt(0.8), "e": dueAt(0.8)})
		p.cycles["d"], p.cycles["e"] = 10*time.Second, seconds
		p.asked = []Pick{{Item: "other", Drill: "d"}}
		if pick, _ := p.due(today); pick.Item != want {
			t.Errorf("where the other drill takes %v and this one 10 s: %s", seconds, pick.Item)
		}
	}
}

// Only the first miss of a session brings something back in it.
func TestOnceMoreIsOnce(t *testing.T) {
	p := remembering(map[string]memory.Memory{"a": dueAt(0.8), "b": dueAt(0.8)})
	for tries, want := range []int{0, 1, 1} {
		p.tries["a"] = tries
		p.Answered(answered("a", today, progress.Wrong))
		if len(p.missed) != want {
			t.Errorf("asked %d times and missed: %d come once more", tries, len(p.missed))
		}
	}
	// What was to come once more and was not asked waits for the question after the next.
	p.asked = []Pick{{Item: "b"}, {Item: "a", Why: Why{Reason: OnceMore}}}
	p.missed = nil
	p.takeBack()
	if want := (missedItem{"a", "", 2}); len(p.missed) != 1 || p.missed[0] != want || len(p.asked) != 1 {
		t.Errorf("%+v, want %+v", p.missed, want)
	}
}
