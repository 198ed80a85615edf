package session

import (
	"errors"
	"maps"
	"slices"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/trial"
	"sparetone/progress"
	"sparetone/progress/store"
)

// sitting is a session with a clock that the test moves.
func sitting(t *testing.T, set Setup) (*Session, *time.Time) { return sittingOn(t, "ukulele", set) }

func sittingOn(t *testing.T, tuning string, set Setup) (*Session, *time.Time) {
	t.Helper()
	now := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
	clock := func() time.Time { return now }
	file, err := store.InMemory(clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	set.File, set.On, set.Length, set.Now = file, trial.Played(t, tuning), 10*time.Minute, clock
	if set.Course == nil {
		set.Course = course.BuiltIn()
	}
	s, err := New(set)
	if err != nil {
		t.Fatal(err)
	}
	return s, &now
}

// A session needs no more than the text of an answer, whatever the form of the question.
func TestSessionRunsOnTextAlone(t *testing.T) {
	for _, d := range catalogue.All() {
		id := d.About().ID
		s, now := sitting(t, Setup{Drills: []string{id}, Seed: 5})
		for n := 0; ; n++ {
			asked, err := s.Next()
			if err != nil {
				t.Fatalf("%s: %v", id, err)
			}
			if asked == nil {
				break
			}
			*now = now.Add(10 * time.Second)
			text := asked.Expected().Typed
			if n%5 == 4 && len(asked.Choices) > 0 {
				text = asked.Choices[0].Typed
			}
			v, err := s.Answer(text)
			if err != nil {
				t.Fatalf("%s: %q: %v", id, text, err)
			}
			if text == asked.Expected().Typed && v.Result != progress.Right {
				t.Errorf("%s: %q is marked %v", id, text, v.Result)
			}
			*now = now.Add(2 * time.Second)
		}
		if n := len(s.Done()); n < 30 {
			t.Errorf("%s: %d questions in ten minutes at twelve seconds each", id, n)
		}
		if err := s.End(); err != nil {
			t.Errorf("%s: %v", id, err)
		}
	}
}

// On a neck on which much cannot be asked, the rest is.
func TestStrangeNecksAskWhatTheyCan(t *testing.T) {
	for _, strings := range []string{"G4 C4", "C4 C4 C4 C4", "E4 A4 D5", "C2 C3 C4 C5 C6", "E2 E2 E2 E2 E2 E2 E2"} {
		s, now := sittingOn(t, strings, Setup{Seed: 1})
		for {
			asked, err := s.Next()
			if err != nil {
				t.Errorf("%s: %v", strings, err)
				break
			}
			if asked == nil {
				break
			}
			*now = now.Add(10 * time.Second)
			if v, err := s.Answer(asked.Expected().Typed); err != nil || v.Result != progress.Right {
				t.Errorf("%s: %s: %v, %v", strings, asked.Text(), v.Result, err)
			}
		}
		if len(s.Done()) < 20 {
			t.Errorf("%s: %d questions", strings, len(s.Done()))
		}
	}
}

// Without sound nothing is asked that needs ears, and enough is left to ask.
func TestSilentSessionsAskTheEye(t *testing.T) {
	s, now := sitting(t, Setup{Silent: true, Seed: 3})
	met := map[string]bool{}
	for {
		asked, err := s.Next()
		if err != nil {
			t.Fatal(err)
		}
		if asked == nil {
			break
		}
		if len(asked.Sounds) > 0 {
			t.Errorf("%s has sounds", asked.Item)
		}
		met[asked.Drill] = true
		*now = now.Add(8 * time.Second)
		if _, err := s.Answer(asked.Expected().Typed); err != nil {
			t.Fatal(err)
		}
	}
	if len(met) < 3 {
		t.Errorf("only %v was asked", met)
	}
}

// Where the sound goes and comes back in the middle, the session goes on as the same one: what it has just
// asked is not asked again at once, and where nothing could be asked without sound it stays as it was.
func TestSoundThatComesAndGoes(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 4})
	last := ""
	for n := range 40 {
		if err := s.SetSilent(n/4%2 == 1); err != nil {
			t.Fatal(err)
		}
		asked, err := s.Next()
		if err != nil || asked == nil {
			t.Fatal(n, asked, err)
		}
		if asked.Text() == last {
			t.Errorf("question %d: %s twice running", n, last)
		}
		if s.Silent() && len(asked.Sounds) > 0 {
			t.Errorf("question %d: %s has sounds", n, asked.Item)
		}
		last = asked.Text()
		*now = now.Add(8 * time.Second)
		if _, err := s.Answer(asked.Expected().Typed); err != nil {
			t.Fatal(err)
		}
	}
	s, _ = sitting(t, Setup{Drills: []string{"chord-ear"}, Seed: 4})
	if err := s.SetSilent(true); !errors.Is(err, drills.ErrNothing) || s.Silent() {
		t.Errorf("%v, silent: %v", err, s.Silent())
	}
	if asked, err := s.Next(); err != nil || len(asked.Sounds) == 0 {
		t.Error(asked, err)
	}
}

// With each answer it is kept how many choices there were: what guessing gives follows from it.
func TestChoicesAreKept(t *testing.T) {
	for _, id := range []string{"chord-ear", "shape-name", "build"} {
		s, _ := sitting(t, Setup{Drills: []string{id}, Seed: 6})
		asked, err := s.Next()
		if err != nil {
			t.Fatal(err)
		}
		if _, err := s.Answer(asked.Expected().Typed); err != nil {
			t.Fatal(err)
		}
		want := 0.0
		if n := len(asked.Choices); n > 0 {
			want = 1 / float64(n)
		}
		all, err := s.set.File.Standings()
		if err != nil || len(all) != 1 || all[0].Latest.Guessed != want {
			t.Errorf("%s with %d choices: %+v, %v", id, len(asked.Choices), all, err)
		}
	}
}

// While nothing can be heard the clocks stand still: neither the session nor the question it waits with gets longer by
// that, and the time before and after it counts.
func TestClocksStandStill(t *testing.T) {
	s, now := sitting(t, Setup{Drills: []string{"chord-ear"}, Seed: 2})
	pass := func(d time.Duration) { *now = now.Add(d) }
	left := func(want time.Duration) {
		t.Helper()
		if got := s.Left(); got != want {
			t.Errorf("%v are left, not %v", got, want)
		}
	}
	ask := func() *Asked {
		t.Helper()
		asked, err := s.Next()
		if err != nil || asked == nil {
			t.Fatal(asked, err)
		}
		return asked
	}
	took := func(asked *Asked, want time.Duration) {
		t.Helper()
		if _, err := s.Answer(asked.Expected().Typed); err != nil {
			t.Fatal(err)
		}
		if got := lastTook(t, s); got != want {
			t.Errorf("it took %v, not %v", got, want)
		}
	}
	s.Pause() // before the first question no time runs
	pass(time.Hour)
	left(10 * time.Minute)
	asked := ask()
	pass(3 * time.Second)
	s.Pause()
	pass(time.Hour)
	s.Pause() // it is lost once more: still the same pause
	left(10*time.Minute - 3*time.Second)
	pass(time.Hour)
	left(10*time.Minute - 3*time.Second)
	s.Resume()
	pass(4 * time.Second)
	s.Resume() // the clocks run already
	left(10*time.Minute - 7*time.Second)
	took(asked, 7*time.Second)

	asked = ask()
	pass(time.Second)
	s.Pause()
	pass(-time.Minute) // a clock that was set back
	s.Resume()
	pass(time.Minute + 2*time.Second)
	took(asked, 3*time.Second)

	ask()
	pass(5 * time.Second)
	s.Pause()
	pass(20 * time.Minute)
	asked = ask() // it was put aside
	left(10*time.Minute - 15*time.Second)
	pass(time.Second)
	s.Pause()
	pass(time.Minute)
	took(asked, time.Second)
	s.Resume()

	// The planner has as much time as the session: it still asks.
	for range 9 {
		pass(time.Minute)
		ask()
	}
	pass(24 * time.Second)
	left(20 * time.Second)
	ask()
}

// answered lets a student answer so many questions of a session, each in twelve seconds, and returns the drills that were asked.
func answered(t *testing.T, s *Session, now *time.Time, questions int, knows func(drill string) bool) (asked []string) {
	t.Helper()
	for range questions {
		q, err := s.Next()
		if err != nil {
			t.Fatal(err)
		}
		if q == nil {
			break
		}
		*now = now.Add(12 * time.Second)
		text := drills.Unknown
		if knows(q.Drill) {
			text = q.Expected().Typed
		}
		if _, err := s.Answer(text); err != nil {
			t.Fatal(err)
		}
		asked = append(asked, q.Drill)
	}
	return asked
}

// Where drills are asked for together none is starved, whoever answers, though what was missed is shown and gives away what comes
// after it: of k drills each is asked in any 4k questions running. The last question closes the session, and is any drill's.
func TestNoDrillThatWasAskedForIsStarved(t *testing.T) {
	together := [][]string{
		{"chord-ear", "spell"}, {"spell", "resolve"}, {"chord-ear", "spell", "shape-name", "doubled"},
		{"shape-tones", "added-ear"}, {"interval-ear", "resolve"}, {"swap", "chord-ear", "key-add"}, {"progression-ear", "build"},
	}
	all := catalogue.All()
	if trial.Whole() {
		for i := range all {
			for j := range i {
				together = append(together, []string{all[j].About().ID, all[i].About().ID})
			}
		}
	}
	for n, ids := range together {
		students := map[string]func(string) bool{
			"misses all":           func(string) bool { return false },
			"knows all":            func(string) bool { return true },
			"is weak in " + ids[0]: func(drill string) bool { return drill != ids[0] },
			"knows only " + ids[0]: func(drill string) bool { return drill == ids[0] },
		}
		names := slices.Sorted(maps.Keys(students))
		if !trial.Whole() {
			names = []string{"misses all", names[n%len(names)]}
		}
		for _, student := range names {
			s, now := sitting(t, Setup{Drills: ids, ByName: true, Seed: uint64(n), AtOnce: n%2 == 0})
			asked := answered(t, s, now, 45, students[student])
			for _, id := range ids {
				wait := 0
				for i, drill := range asked {
					if wait++; drill == id {
						wait = 0
					}
					if wait >= 4*len(ids) && i < len(asked)-1 {
						t.Errorf("of %v who %s is not asked %s in %d questions: %v", ids, student, id, wait, asked)
						break
					}
				}
			}
		}
	}
}

// Drills of the ear that could not be asked for a time come soon when the sound is there.
func TestDrillsOfTheEarComeWithTheSound(t *testing.T) {
	s, now := sitting(t, Setup{Drills: []string{"chord-ear", "spell"}, ByName: true, Seed: 5, AtOnce: true, Silent: true})
	misses := func(string) bool { return false }
	answered(t, s, now, 14, misses)
	if err := s.SetSilent(false); err != nil {
		t.Fatal(err)
	}
	asked := answered(t, s, now, 20, misses)
	n := 0
	for _, drill := range asked {
		if drill == "chord-ear" {
			n++
		}
	}
	if first := slices.Index(asked, "chord-ear"); first < 0 || first > 3 || n < 5 {
		t.Errorf("after the sound came: %v", asked)
	}
}
