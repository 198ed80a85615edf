package session

import (
	"testing"
	"time"

	"sparetone/drills/lesson"
	"sparetone/progress"
)

// Two of two choices are luck in one case of four, and five in one of 32; what is answered freely is done at the second time.
func TestWhenAThingIsDone(t *testing.T) {
	for choices, want := range map[int]int{2: 5, 3: 3, 4: 3, 5: 2, 0: 2} {
		r := run{}
		for n := 1; n <= want; n++ {
			r = r.after(progress.Answer{Result: progress.Right, Choices: choices})
			if r.done() != (n == want) {
				t.Errorf("of %d choices it is done after %d: %v", choices, n, r.done())
			}
		}
		if r = r.after(progress.Answer{Result: progress.Partly, Choices: choices}); r.done() {
			t.Error("it is done after a miss")
		}
	}
}

// The day on which a lesson is due has its year where that is not the one in which it was taken.
func TestLessonsDueInAnotherYear(t *testing.T) {
	day := func(date string) progress.Day {
		at, err := time.Parse(time.DateOnly, date)
		if err != nil {
			t.Fatal(err)
		}
		return progress.DayOf(at.Add(12 * time.Hour))
	}
	for due, want := range map[string]string{
		"2026-12-04": "Lesson x: 0 of 0 things done, due Friday 4 December.",
		"2027-01-08": "Lesson x: 0 of 0 things done, due Friday 8 January 2027.",
		"2020-01-01": "Lesson x: 0 of 0 things done, due Wednesday 1 January 2020.",
	} {
		r := &Running{Taught: lesson.Taught{Lesson: lesson.Lesson{Name: "x", Due: day(due)}}, Since: day("2026-11-28")}
		if got := r.Says().Screen(); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
