package session

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"
)

// A program that is looked at twice a second was not suspended; where nobody looked for two seconds or more it was.
func TestSuspensionIsWhereNobodyLooked(t *testing.T) {
	now := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
	s := &Suspension{now: func() time.Time { return now }, looked: now}
	for _, step := range []struct{ unseen, total time.Duration }{
		{lookEvery, 0},
		{1999 * time.Millisecond, 0}, // a machine that is busy
		{2 * time.Second, 1500 * time.Millisecond},
		{lookEvery, 1500 * time.Millisecond},
		{time.Hour, time.Hour + time.Second},
		{0, time.Hour + time.Second},
		{-time.Hour, time.Hour + time.Second},
		{lookEvery, time.Hour + time.Second},
	} {
		now = now.Add(step.unseen)
		if got := s.Total(); got != step.total {
			t.Errorf("after %v unseen %v in all, want %v", step.unseen, got, step.total)
		}
	}
}

// Somebody looks without being asked, until the context ends.
func TestSuspensionIsWatched(t *testing.T) {
	looks := make(chan time.Time)
	s := WatchSuspension(t.Context(), func() time.Time {
		now := time.Now()
		select {
		case looks <- now:
		default:
		}
		return now
	})
	first := <-looks
	if second := <-looks; second.Sub(first) > leastSuspended {
		t.Errorf("it is looked after %v", second.Sub(first))
	}
	if got := s.Total(); got != 0 {
		t.Errorf("%v suspended in none", got)
	}
}

// What the program was suspended is no time of thinking and none of the practice, whether it was suspended over a question,
// between two, or while the clocks stood still; and what was before the session is none of its business.
func TestTimeSuspendedIsNoTimeOfPractice(t *testing.T) {
	suspended := 7 * time.Hour // over another session of this program
	s, now := sitting(t, Setup{Seed: 2, Suspended: func() time.Duration { return suspended }})
	suspend := func(d time.Duration) {
		suspended += d
		*now = now.Add(d)
	}
	next := func() *Asked {
		t.Helper()
		asked, err := s.Next()
		if err != nil || asked == nil {
			t.Fatalf("%v, %v", asked, err)
		}
		return asked
	}
	left := func(want time.Duration) {
		t.Helper()
		if got := s.Left(); got != want {
			t.Errorf("%v are left, want %v", got, want)
		}
	}
	answered := func(asked *Asked, want time.Duration) {
		t.Helper()
		if _, err := s.Answer(asked.Expected().Typed); err != nil {
			t.Fatal(err)
		}
		if got := lastTook(t, s); got != want {
			t.Errorf("an answer took %v, want %v", got, want)
		}
	}
	suspend(time.Hour)
	asked := next()
	left(10 * time.Minute)
	*now = now.Add(4 * time.Second)
	suspend(time.Hour)
	*now = now.Add(3 * time.Second)
	answered(asked, 7*time.Second)
	left(10*time.Minute - 7*time.Second)
	suspend(time.Hour)
	left(10*time.Minute - 7*time.Second)
	asked = next()
	*now = now.Add(time.Second)
	suspend(time.Minute) // before the device went
	s.Pause()
	suspend(time.Hour)
	*now = now.Add(time.Minute)
	s.Resume()
	suspend(time.Minute)
	s.Resume()
	*now = now.Add(time.Second)
	answered(asked, 2*time.Second)
	left(10*time.Minute - 9*time.Second)
	for s.Left() > 0 {
		suspend(time.Hour)
		asked = next()
		*now = now.Add(30 * time.Second)
		answered(asked, 30*time.Second)
	}
	if n := len(s.Done()); n != 2+20 {
		t.Errorf("%d answers in ten minutes, two of them in nine seconds and the others in thirty each, want 22", n)
	}
}

// lastTook is how long the last answer took that is kept.
func lastTook(t *testing.T, s *Session) time.Duration {
	t.Helper()
	var out bytes.Buffer
	if err := s.set.File.ExportJSON(&out); err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSpace(out.String()), "\n")
	var last struct {
		Took int64 `json:"took_ms"`
	}
	if err := json.Unmarshal([]byte(lines[len(lines)-1]), &last); err != nil {
		t.Fatal(err)
	}
	return time.Duration(last.Took) * time.Millisecond
}
