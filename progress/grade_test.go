package progress

import (
	"slices"
	"testing"
	"time"
)

func TestHowAnAnswerBecomesAGrade(t *testing.T) {
	const usual = 4 * time.Second
	for _, c := range []struct {
		what  string
		a     Answer
		usual time.Duration
		first bool
		want  Grade
	}{
		{"right at once", Answer{Result: Right, Took: 3 * time.Second}, usual, false, Fluent},
		{"right but slow", Answer{Result: Right, Took: 5 * time.Second}, usual, false, Firm},
		{"right after hearing it again", Answer{Result: Right, Took: 3 * time.Second, Replays: 1}, usual, false, Shaky},
		{"right after a hint", Answer{Result: Right, Took: 3 * time.Second, Hints: 1}, usual, false, Shaky},
		{"partly right", Answer{Result: Partly, Took: 3 * time.Second}, usual, false, Shaky},
		{"wrong", Answer{Result: Wrong, Took: 3 * time.Second}, usual, false, Missed},
		{"right at first sight", Answer{Result: Right, Took: time.Second}, usual, true, Firm},
		{"right, no usual time known", Answer{Result: Right, Took: time.Second}, 0, false, Firm},
	} {
		if got := gradeOf(c.a, c.usual, c.first); got != c.want {
			t.Errorf("%s: %d, want %d", c.what, got, c.want)
		}
	}
}

func TestUsualTimeIsTheMedianOfTheDrillsLatestRightAnswers(t *testing.T) {
	d := newDerived(DefaultWeights)
	add := func(drill string, r Result, took time.Duration) {
		d.add(Answer{Item: drill + "/t/u", Drill: drill, At: evening, Result: r, Took: took}, DayOf(evening))
	}
	for range paceEnough - 1 {
		add("slow", Right, 9*time.Second)
	}
	if got := d.pace["slow"].usual(); got != 0 {
		t.Errorf("%v is claimed after %d answers", got, paceEnough-1)
	}
	add("slow", Right, 9*time.Second)
	add("slow", Wrong, time.Second)
	add("slow", Right, time.Hour) // called away
	for range 2 * paceKept {
		add("quick", Right, 2*time.Second)
	}
	for drill, want := range map[string]time.Duration{"slow": 9 * time.Second, "quick": 2 * time.Second} {
		if got := d.pace[drill].usual(); got != want {
			t.Errorf("%s: %v, want %v", drill, got, want)
		}
	}
	if n := len(d.pace["quick"].Took); n != paceKept {
		t.Errorf("%d times are kept, want %d", n, paceKept)
	}
}

func TestPaceIsFromAnswerToAnswerWithinASession(t *testing.T) {
	d := newDerived(DefaultWeights)
	at := evening
	add := func(session string, wait time.Duration) {
		at = at.Add(wait)
		d.add(Answer{Session: session, Item: "d/t/u", Drill: "d", At: at, Result: Right, Took: 4 * time.Second}, DayOf(at))
	}
	for i := range 20 {
		add("one", 11*time.Second)
		switch i % 4 {
		case 0:
			add("two", time.Minute) // another session
			add("one", time.Minute)
		case 1:
			add("one", time.Hour) // called away
		case 2:
			add("one", time.Second) // sooner than the answer took: a clock set back
		}
	}
	if got := d.pace["d"].cycle(); got != 11*time.Second {
		t.Errorf("%v from answer to answer, want 11 s", got)
	}
	if got := slices.Max(d.pace["d"].Cycle); got != 11_000 {
		t.Errorf("%d ms were counted", got)
	}
}

// A better answer never brings an item back sooner.
func TestBetterAnswersRestLonger(t *testing.T) {
	w := DefaultWeights
	for _, m := range []Memory{
		{Trace: w.First(Missed), Day: 100, Asked: 1},
		{Trace: w.First(Firm), Day: 100, Asked: 1},
		{Trace: Trace{Stability: 40, Difficulty: 7}, Day: 60, Asked: 9},
	} {
		for _, day := range []Day{101, 103, 130} {
			last := Day(0)
			for g := Missed; g <= Fluent; g++ {
				due := m.after(&w, g, Right, 0, day, true).Due
				if due < last {
					t.Errorf("%+v on day %d: grade %d comes back on day %d, the one below on %d", m, day, g, due, last)
				}
				last = due
			}
		}
	}
}
