package session

import (
	"testing"
	"time"
)

// Whoever leaves a question, what follows an answer or a page of something new for long finds the practice as it was two minutes later,
// and no answer took longer than that.
func TestTimeAwayIsNoTimeOfPractice(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 2})
	left := func(want time.Duration) {
		t.Helper()
		if got := s.Left(); got != want {
			t.Errorf("%v are left, want %v", got, want)
		}
	}
	ask := func() *Asked {
		t.Helper()
		asked, err := s.Next()
		if err != nil || asked == nil {
			t.Fatalf("%v, %v", asked, err)
		}
		return asked
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
	*now = now.Add(time.Hour) // before the first question no time runs
	left(10 * time.Minute)

	asked := ask()
	*now = now.Add(mostIdle)
	left(8 * time.Minute)
	*now = now.Add(time.Hour)
	left(8 * time.Minute) // it shows before anything is done
	answered(asked, mostIdle)
	left(8 * time.Minute)
	*now = now.Add(time.Hour) // over the answer
	left(6 * time.Minute)

	asked = ask()
	left(6 * time.Minute)
	*now = now.Add(90 * time.Second)
	s.Heard()
	*now = now.Add(90 * time.Second)
	s.Hinted()
	*now = now.Add(30 * time.Second)
	answered(asked, 3*time.Minute+30*time.Second) // something was done in every two minutes
	left(2*time.Minute + 30*time.Second)

	asked = ask()
	*now = now.Add(mostIdle - time.Second)
	s.Pause() // what stands still is not counted once more
	*now = now.Add(time.Hour)
	s.Resume()
	*now = now.Add(time.Second)
	answered(asked, mostIdle)
	left(30 * time.Second)

	*now = now.Add(time.Minute)
	if asked, err := s.Next(); asked != nil || err != nil {
		t.Errorf("asked after the time was up: %v, %v", asked, err)
	}
}

// A page of something new may be looked at for two minutes as well.
func TestTimeAwayFromAMeetingIsNoTimeOfPractice(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 2})
	if _, err := s.Next(); err != nil {
		t.Fatal(err)
	}
	for pages := 1; ; pages++ {
		m := s.Meet()
		if m == nil {
			if pages == 1 {
				t.Fatal("nothing new was shown")
			}
			return
		}
		*now = now.Add(mostIdle + time.Minute)
		if err := s.Met(m); err != nil {
			t.Fatal(err)
		}
		if got, want := s.Left(), 10*time.Minute-time.Duration(pages)*mostIdle; got != want {
			t.Errorf("%v are left after %d pages, want %v", got, pages, want)
		}
	}
}
