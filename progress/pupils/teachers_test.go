package pupils

import (
	"math"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/progress/plan"
)

// afternoon is when a session begins on a day after the first.
func afternoon(days int) time.Time {
	return (firstDay + progress.Day(days)).Begins(time.UTC).Add(15 * time.Hour)
}

// answer is an answer on such a day.
func answer(days int, r progress.Result) progress.Answer {
	return progress.Answer{At: afternoon(days), Result: r, Choices: 4}
}

// asks are the items that a teacher asks in a session of so many questions, each answered in a minute and alike.
func asks(t Teacher, days, questions int, r progress.Result) (items []int) {
	t.session(firstDay+progress.Day(days), afternoon(days), 10*time.Minute)
	for n := range questions {
		item, _, ok := t.next(afternoon(days).Add(time.Duration(n) * time.Minute))
		if !ok {
			break
		}
		items = append(items, item)
		a := answer(days, r)
		a.Item = chords().Items[item].Item
		t.answered(item, a)
	}
	return items
}

func same(t *testing.T, what string, got []int, want ...int) {
	t.Helper()
	for i := range max(len(got), len(want)) {
		if i >= len(got) || i >= len(want) || got[i] != want[i] {
			t.Errorf("%s: %v, want %v", what, got, want)
			return
		}
	}
}

// The ladder asks what is due, then what is new, then what is due soonest; what is right rests for 1, 2, 4 days, a miss for one.
func TestLadder(t *testing.T) {
	l := newLadder(chords(), dice()).(*ladder)
	same(t, "the first day", asks(l, 0, 4, progress.Right), 0, 1, 2, 3)
	same(t, "the second", asks(l, 1, 6, progress.Right), 0, 1, 2, 3, 4, 5)
	if l.due[0] != firstDay+3 || l.due[4] != firstDay+2 {
		t.Errorf("due on %v", l.due)
	}
	same(t, "the third", asks(l, 2, 4, progress.Right), 4, 5, 6, 0)
	if l.due[4] != firstDay+4 || l.due[0] != firstDay+2+4 {
		t.Errorf("due on %v", l.due)
	}
	l.due[2] = firstDay
	same(t, "the longest overdue", asks(l, 3, 1, progress.Wrong), 2)
	if l.due[2] != firstDay+4 || l.step[2] != 1 {
		t.Errorf("after a miss due on %v", l.due[2])
	}
	l.session(firstDay, afternoon(0), 10*time.Minute)
	for left, want := range map[time.Duration]bool{time.Second: true, 0: false} {
		if _, _, ok := l.next(afternoon(0).Add(10*time.Minute - left)); ok != want {
			t.Errorf("with %v left: %v", left, ok)
		}
	}
}

// Questions of the simpler teachers are set against something near that was met, each alike.
func TestBeside(t *testing.T) {
	u := newUntil(chords(), dice())
	if got := u.beside(0); got != -1 {
		t.Errorf("nothing was met, and it is set against %d", got)
	}
	u.met[1], u.met[2], u.met[4] = true, true, true
	count := map[int]int{}
	for range 1000 {
		count[u.beside(0)]++
	}
	if count[1]+count[2] != 1000 || count[1] < 420 || count[2] < 420 {
		t.Errorf("set against %v", count)
	}
}

// Who asks only what is due asks what is right with 0.8 or less, the least likely first, then new things, then what has faded most.
func TestDueOnly(t *testing.T) {
	d := newDueOnly(chords(), dice()).(*dueOnly)
	same(t, "the first day: new, and then what has faded most", asks(d, 0, 8, progress.Right), 0, 1, 2, 3, 4, 5, 6, 0)
	w := memory.DefaultWeights
	days := func(chance float64) progress.Day {
		return progress.Day(math.Round(w.Interval(d.known.Memory["ear/minor/u"].Trace, chance)))
	}
	at := d.known.Memory["ear/minor/u"].Day
	for _, c := range []struct {
		after progress.Day
		due   bool
	}{{days(0.8) - 1, false}, {days(0.8) + 1, true}} {
		one := newDueOnly(chords(), dice()).(*dueOnly)
		one.known.Memory["ear/minor/u"] = d.known.Memory["ear/minor/u"]
		one.met[1] = true
		one.day = at + c.after
		if item, _, _ := one.next(afternoon(0)); (item == 1) != c.due {
			t.Errorf("after %d days, known with %.3f, %d is asked", c.after, one.known.Memory["ear/minor/u"].Knows(&w, one.day), item)
		}
	}
}

// Who asks anything asks each alike.
func TestAnything(t *testing.T) {
	a := newAnything(chords(), dice()).(*anything)
	count := map[int]int{}
	for range 7000 {
		item, _, _ := a.next(afternoon(0))
		count[item]++
	}
	for i := range 7 {
		if n := count[i]; n < 880 || n > 1120 {
			t.Errorf("item %d is asked %d times of 7000", i, n)
		}
	}
	a.answered(3, answer(0, progress.Right))
	if !a.met[3] {
		t.Error("what was asked was not met")
	}
}

// The planner is asked as the program asks it: it learns of each answer, foretells of what was met, and is fitted when it is time.
func TestPlanned(t *testing.T) {
	c := chords()
	p := NewPlanned(c)
	p.session(firstDay, afternoon(0), 10*time.Minute)
	item, against, ok := p.next(afternoon(0))
	if item != 0 || against != -1 || !ok {
		t.Errorf("first %d against %d", item, against)
	}
	if _, known := p.foretold(0, firstDay); known {
		t.Error("something is foretold of what was not met")
	}
	a := answer(0, progress.Right)
	a.Item, a.Drill, a.Voice = c.Items[0].Item, c.Items[0].Drill, "nylon"
	p.answered(0, a)
	m := p.known.Memory[a.Item]
	if chance, known := p.foretold(0, firstDay+1); !known || chance != p.known.Chance(m, firstDay+1) || !m.Ear {
		t.Errorf("foretold %v", chance)
	}
	if !p.last.Known || p.last.Day != firstDay || !p.last.At.Equal(a.At) || len(p.answers) != 1 {
		t.Errorf("the latest answer: %+v", p.last)
	}
	before := p.known.Memory[a.Item].Stability
	w := memory.StartWeights
	w[2] *= 2
	p.reweigh(w)
	if p.known.Weights != w || p.known.Memory[a.Item].Stability == before {
		t.Error("what is remembered is not worked out anew")
	}
	var _ plan.Today = p.Today(afternoon(0))
	names := ""
	for _, k := range Teachers {
		names += k.Name + " "
		k.Make(newPupil(c, newHalving(7, dice()), newHalving(7, dice()), dice()), dice()).session(firstDay, afternoon(0), time.Minute)
	}
	if names != "planner ladder due-only random in order gentle greedy " {
		t.Errorf("teachers %s", names)
	}
}
