package practice

import (
	"fmt"
	"testing"
)

// What is taken back counts for no lesson, and a practice of which all was taken back is none.
func TestTakenBackCountsForNoLesson(t *testing.T) {
	p := newPupil(t)
	p.takes(t, ninths)
	if err := p.Begin(p.Called); err != nil {
		t.Fatal(err)
	}
	if len(p.Session.Lessons()) == 0 {
		t.Fatal("no lesson runs")
	}
	for n := range 6 { // some things are asked again by then
		q, err := p.Next()
		if err != nil || q == nil {
			t.Fatal(q, err)
		}
		before := fmt.Sprint(*p.Session.Lessons()[0])
		if _, err := p.AnswerPlayed(q, q.Expected().Typed); err != nil {
			t.Fatal(err)
		}
		if before == fmt.Sprint(*p.Session.Lessons()[0]) && p.Session.LessonOf(q.Item) != "" {
			t.Fatalf("question %d counts for no lesson at all", n+1)
		}
		if err := p.TakeBack(); err != nil {
			t.Fatal(err)
		}
		if before != fmt.Sprint(*p.Session.Lessons()[0]) {
			t.Errorf("question %d, taken back, counts: %v, before %v", n+1, *p.Session.Lessons()[0], before)
		}
		if len(p.answers) != n || len(p.Session.Done()) != n {
			t.Errorf("%d and %d answers count", len(p.answers), len(p.Session.Done()))
		}
		if sessions, err := p.File().Sessions(); err != nil || len(sessions) != min(n, 1) {
			t.Errorf("%d sessions, %v", len(sessions), err)
		}
		if q, err = p.Next(); err != nil || q == nil {
			t.Fatal(q, err)
		}
		if _, err := p.Answer(q, q.Expected().Typed); err != nil {
			t.Fatal(err)
		}
	}
}
