package session

import (
	"testing"
	"time"
)

// A session's time runs while something is met, so it ends when it is to end: no question comes after that, however much was met.
// The time of an answer begins after what was met before it.
func TestMeetingsAreOfASessionsTime(t *testing.T) {
	const meeting, answer = 20 * time.Second, 6 * time.Second
	const halfAQuestion = 7500 * time.Millisecond // that the planner ends a session early at the most, before it knows the pace
	s, now := sitting(t, Setup{Seed: 5})
	began, meetings, answers := *now, 0, 0
	var last time.Duration // from the start to the last question
	for {
		last = now.Sub(began)
		q, err := s.Next()
		if err != nil {
			t.Fatal(err)
		}
		if q == nil {
			break
		}
		if last >= s.Length() {
			t.Fatalf("a question comes %v after the start", last)
		}
		for m := s.Meet(); m != nil; m = s.Meet() {
			left := s.Left()
			*now = now.Add(meeting)
			if want := max(0, left-meeting); s.Left() != want {
				t.Errorf("after a meeting %v is left, not %v", s.Left(), want)
			}
			shownNow(t, s, m)
			meetings++
		}
		*now = now.Add(answer)
		if took := s.clock().Sub(s.since); took != answer {
			t.Errorf("an answer after %v is kept as one after %v", answer, took)
		}
		if _, err := s.Answer(q.Expected().Typed); err != nil {
			t.Fatal(err)
		}
		answers++
	}
	if took := time.Duration(meetings)*meeting + time.Duration(answers)*answer; meetings < 5 || took < s.Length()-halfAQuestion || took > s.Length()+2*meeting+answer {
		t.Errorf("%d meetings and %d answers take %v, for a session of %v", meetings, answers, took, s.Length())
	}
	t.Logf("%d meetings and %d answers", meetings, answers)
}
