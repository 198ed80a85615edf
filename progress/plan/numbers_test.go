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
	return memory.Memory{Trace: memory.Trace{Stability: 5 / w.Interval(memory.Trace{Stability: 1}, chance), Difficulty: 5}, Day: today - 5, Due: today + 30, Asked: 3, Right: 3, Run: 3}
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

// What a session cannot close with stands before what it can: it is passed over.
func TestWhatClosesIsLookedForToTheEnd(t *testing.T) {
	missed := fadedTo(0.9)
	missed.Run = 0
	p := remembering(map[string]memory.Memory{"a": unmet, "b": missed, "c": fadedTo(0.9)})
	if pick, found := p.closing(today); !found || pick.Item != "c" {
		t.Errorf("it closes with %+v", pick)
	}
}

// A clock that is behind counts on from the day it was behind at first, and never before the day of the last answer.
func TestDaysOfAClockThatIsBehind(t *testing.T) {
	p := remembering(map[string]memory.Memory{"a": unmet})
	p.latest, p.behind = today, 10
	for says, want := range map[progress.Day]progress.Day{today - 9: today + 1, today - 15: today, today + 3: today + 3} {
		if got := p.day(noon(says)); got != want {
			t.Errorf("where the clock says %d it is day %d, want %d", says-today, got-today, want-today)
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

func TestWhatHasFadedALittleIsWorthAsking(t *testing.T) {
	p := remembering(map[string]memory.Memory{"a": fadedTo(0.949), "b": fadedTo(0.951)})
	if !p.Wanted("a", noon(today)) || p.Wanted("b", noon(today)) {
		t.Error("what is known with 0.949 is worth asking, with 0.951 not yet")
	}
}

func TestRoomForSomethingNew(t *testing.T) {
	for _, c := range []struct {
		held string // answers of the session: + right, - wrong
		room bool
	}{
		{"", true}, {"--", true}, {"---", false},
		{"---+++++", false}, {"---++++++", true}, {"----+++++++", false},
		{"----++++++++", true}, {"-----+++++++", false}, {"++++++++----", true}, {"+++++++-----", false},
		{"--------------------" + "----++++++++", true}, // only the latest twelve count
		{"++++++++++++" + "-----+++++++", false},
	} {
		p := remembering(map[string]memory.Memory{"new": unmet})
		for _, h := range c.held {
			p.right = append(p.right, h == '+')
		}
		if room := p.hasRoom(); room != c.room {
			t.Errorf("after %q there is room: %v", c.held, room)
		}
		pick, _ := p.worthiest(today)
		if (pick.Item == "new") != c.room {
			t.Errorf("after %q it is asked: %v", c.held, pick.Item == "new")
		}
	}
}

func TestSixNewThingsAreLookedAt(t *testing.T) {
	all := map[string]memory.Memory{"e": unmet}
	for n := range 6 {
		all[fmt.Sprint("d", n+1)] = unmet
	}
	p := remembering(all)
	if next := p.newOnes(); len(next) != 6 || next[0].Item != "d1" {
		t.Errorf("%v", next)
	}
	p.asked = []Chosen{{Item: "d1", Drill: "d"}}
	if next := p.newOnes(); next[0].Item != "d2" || next[5].Item != "e" {
		t.Errorf("%v", next)
	}
	if pick, _ := p.worthiest(today); pick.Item != "e" {
		t.Errorf("after one of drill d comes %s", pick.Item)
	}
}

// Where six of the latest twelve were wrong only what is right with 0.6 is asked.
func TestWhereItGoesBadlyOnlyWhatIsLikelierIsAsked(t *testing.T) {
	for held, want := range map[string]string{"------++++++": "sure", "-----+++++++": "hard"} {
		p := remembering(map[string]memory.Memory{"hard": dueAt(0.6), "sure": dueAt(0.99)})
		if chance := p.known.Chance(p.known.Memory["hard"], today); chance > 0.6 || chance < 0.5 {
			t.Fatal(chance)
		}
		for _, h := range held {
			p.right = append(p.right, h == '+')
		}
		if pick, _ := p.worthiest(today); pick.Item != want {
			t.Errorf("after %q: %s, want %s", held, pick.Item, want)
		}
	}
	p := remembering(map[string]memory.Memory{"a": dueAt(0.66)}) // right with 0.607
	p.right = make([]bool, 12)
	if _, found := p.worthiest(today); !found {
		t.Error("what is right with more than 0.6 is not asked where it goes badly")
	}
	p = remembering(map[string]memory.Memory{"a": dueAt(0.64)}) // 0.589
	p.right = make([]bool, 12)
	if _, found := p.worthiest(today); found {
		t.Error("what is right with less than 0.6 is asked where it goes badly")
	}
}

func TestTwiceInASessionIsOften(t *testing.T) {
	for tries, want := range map[int]bool{0: true, 1: true, 2: false} {
		p := remembering(map[string]memory.Memory{"a": dueAt(0.8)})
		p.tries["a"] = tries
		if _, found := p.worthiest(today); found != want {
			t.Errorf("asked %d times it is asked before others: %v", tries, found)
		}
	}
}

// A miss takes two and a half times as long as a right answer.
func TestHowLongAQuestionTakes(t *testing.T) {
	p := remembering(map[string]memory.Memory{"d": dueAt(0.8)})
	p.cycles["d"] = 10 * time.Second
	for chance, want := range map[float64]float64{1: 10, 0.8: 13, 0: 25} {
		if got := p.secondsFor("d", chance); got < want-1e-9 || got > want+1e-9 {
			t.Errorf("right with %v it takes %v s, want %v", chance, got, want)
		}
	}
}

func TestAnotherOfTheSameDrillIsWorthFourFifths(t *testing.T) {
	for seconds, want := range map[time.Duration]string{12400 * time.Millisecond: "e", 12600 * time.Millisecond: "d"} {
		p := remembering(map[string]memory.Memory{"d": dueAt(0.8), "e": dueAt(0.8)})
		p.cycles["d"], p.cycles["e"] = 10*time.Second, seconds
		p.asked = []Chosen{{Item: "other", Drill: "d"}}
		if pick, _ := p.worthiest(today); pick.Item != want {
			t.Errorf("where the other drill takes %v and this one 10 s: %s", seconds, pick.Item)
		}
	}
}

// Something new counts double what it adds by itself.
func TestSomethingNewCountsDouble(t *testing.T) {
	p := remembering(map[string]memory.Memory{"new": unmet, "old": dueAt(0.5)})
	w := &p.known.Weights
	worth := 2 * memory.FirstGain(w) / p.secondsFor("n", memory.FirstChance)
	old := p.known.Memory["old"]
	for share, want := range map[float64]string{0.97: "new", 1.03: "old"} {
		p := remembering(map[string]memory.Memory{"new": unmet, "old": dueAt(0.5)})
		p.cycles["n"], p.cycles["o"] = 15*time.Second, time.Duration(float64(15*time.Second)*old.Gain(w, today, p.later())/p.secondsFor("o", p.known.Chance(old, today))/worth/share)
		if pick, _ := p.worthiest(today); pick.Item != want {
			t.Errorf("where old is worth %v of new: %s, want %s", share, pick.Item, want)
		}
	}
}
