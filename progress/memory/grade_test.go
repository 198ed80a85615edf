package memory

import (
	"slices"
	"testing"
	"time"

	"sparetone/progress"
)

func TestHowAnAnswerBecomesAGrade(t *testing.T) {
	const usual = 4 * time.Second
	for _, c := range []struct {
		what  string
		a     progress.Answer
		usual time.Duration
		first bool
		want  Grade
	}{
		{"right at once", progress.Answer{Result: progress.Right, Took: 3 * time.Second}, usual, false, Fluent},
		{"right but slow", progress.Answer{Result: progress.Right, Took: 5 * time.Second}, usual, false, Firm},
		{"right after hearing it again", progress.Answer{Result: progress.Right, Took: 3 * time.Second, Replays: 1}, usual, false, Shaky},
		{"right after a hint", progress.Answer{Result: progress.Right, Took: 3 * time.Second, Hints: 1}, usual, false, Shaky},
		{"partly right", progress.Answer{Result: progress.Partly, Took: 3 * time.Second}, usual, false, Shaky},
		{"wrong", progress.Answer{Result: progress.Wrong, Took: 3 * time.Second}, usual, false, Missed},
		{"right at first sight", progress.Answer{Result: progress.Right, Took: time.Second}, usual, true, Firm},
		{"right, no usual time known", progress.Answer{Result: progress.Right, Took: time.Second}, 0, false, Firm},
	} {
		if got := gradeOf(c.a, c.usual, c.first); got != c.want {
			t.Errorf("%s: %d, want %d", c.what, got, c.want)
		}
	}
}

func TestUsualTimeIsTheMedianOfTheDrillsLatestRightAnswers(t *testing.T) {
	d := NewDerived(DefaultWeights)
	add := func(drill string, r progress.Result, took time.Duration) {
		d.Add(progress.Answer{Item: drill + "/t/u", Drill: drill, At: evening, Result: r, Took: took}, progress.DayOf(evening))
	}
	for range paceEnough - 1 {
		add("slow", progress.Right, 9*time.Second)
	}
	if got := d.Pace["slow"].usualTook(); got != 0 {
		t.Errorf("%v is claimed after %d answers", got, paceEnough-1)
	}
	add("slow", progress.Right, 9*time.Second)
	add("slow", progress.Wrong, time.Second)
	add("slow", progress.Right, time.Hour) // called away
	for range 2 * paceKept {
		add("quick", progress.Right, 2*time.Second)
	}
	for drill, want := range map[string]time.Duration{"slow": 9 * time.Second, "quick": 2 * time.Second} {
		if got := d.Pace[drill].usualTook(); got != want {
			t.Errorf("%s: %v, want %v", drill, got, want)
		}
	}
	if n := len(d.Pace["quick"].Took); n != paceKept {
		t.Errorf("%d times are kept, want %d", n, paceKept)
	}
}

func TestPaceIsFromAnswerToAnswerWithinASession(t *testing.T) {
	d := NewDerived(DefaultWeights)
	at := evening
	add := func(session string, wait time.Duration) {
		at = at.Add(wait)
		d.Add(progress.Answer{Session: session, Item: "d/t/u", Drill: "d", At: at, Result: progress.Right, Took: 4 * time.Second}, progress.DayOf(at))
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
	if got := d.Pace["d"].UsualCycle(); got != 11*time.Second {
		t.Errorf("%v from answer to answer, want 11 s", got)
	}
	if got := slices.Max(d.Pace["d"].Cycle); got != 11_000 {
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
		for _, day := range []progress.Day{101, 103, 130} {
			last := progress.Day(0)
			for g := Missed; g <= Fluent; g++ {
				due := m.after(&w, g, progress.Right, 0, day, true).Due
				if due < last {
					t.Errorf("%+v on day %d: grade %d comes back on day %d, the one below on %d", m, day, g, due, last)
				}
				last = due
			}
		}
	}
}
