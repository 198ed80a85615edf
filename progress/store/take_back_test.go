package store

import (
	"testing"
	"time"

	"sparetone/progress"

	"github.com/google/go-cmp/cmp"
)

// An answer that is taken back leaves nothing: file and memory are as before it, whatever it brought.
func TestAnAnswerIsTakenBack(t *testing.T) {
	for name, change := range map[string]func(a *progress.Answer){
		"met before":             func(a *progress.Answer) {},
		"new":                    func(a *progress.Answer) { a.Item = "d0/new/u" },
		"taken for what is new":  func(a *progress.Answer) { a.TakenFor = "d0/new/u" },
		"the first of a session": func(a *progress.Answer) { a.Session = "other" },
	} {
		f := inMemory(t, later)
		practised(t, f, 0, 3, 8, 1)
		must(t, f.Begin(progress.Session{ID: "s", Began: later, Minutes: time.Minute}))
		must(t, f.Record(progress.Answer{Session: "s", Item: "d0/t1/u", Drill: "d0", At: later, Result: progress.Right}))
		was := contents(t, f)
		a := progress.Answer{Session: "s", Item: "d0/t1/u", Drill: "d0", At: later, Result: progress.Wrong, Took: time.Second, Played: true}
		change(&a)
		if a.Session == "other" {
			must(t, f.Begin(progress.Session{ID: "other", Began: later, Minutes: time.Minute}))
		}
		must(t, f.Record(a))
		sound(t, f, 26)
		risk, _ := f.AtRisk()
		must(t, f.TakeBack())
		if diff := cmp.Diff(was, contents(t, f)); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
		sound(t, f, 25)
		if now, _ := f.AtRisk(); now != risk-1 {
			t.Errorf("%s: %d answers are in memory only, %d before", name, now, risk)
		}
		must(t, f.TakeBack()) // it is gone already
		sound(t, f, 25)
	}
}

// What was fitted to an answer that is gone is gone as well; what was fitted before it stays.
func TestAFitToWhatIsTakenBack(t *testing.T) {
	for answers, stays := range map[int]bool{8: true, 9: false} {
		f := inMemory(t, later)
		practised(t, f, 0, 1, 9, 1)
		if _, err := f.db.Exec("INSERT INTO fit (answers, weights) VALUES (?, '[]')", answers); err != nil {
			t.Fatal(err)
		}
		must(t, f.TakeBack())
		var there bool
		must(t, f.db.QueryRow("SELECT EXISTS (SELECT 1 FROM fit)").Scan(&there))
		if there != stays {
			t.Errorf("fitted to %d of 9 answers, one of which is taken back: it stays: %v", answers, there)
		}
	}
}

// An answer that another machine has taken in before it was taken back is gone there too, and does not come back from a third.
func TestAnAnswerIsTakenBackEverywhere(t *testing.T) {
	desk, lap, away := newMachine(t, "desk"), newMachine(t, "lap"), newMachine(t, "away")
	practised(t, desk.File, 0, 1, 6, 1)
	desk.quietly(t)
	for _, m := range []*machine{lap, away} {
		carry(t, desk, m)
		m.quietly(t)
		sound(t, m.File, 6)
	}
	must(t, desk.TakeBack())
	desk.quietly(t)
	carry(t, desk, lap)
	lap.quietly(t)
	sound(t, lap.File, 5)
	carry(t, away, lap)
	lap.quietly(t)
	sound(t, lap.File, 5)
	carry(t, lap, away)
	away.quietly(t)
	carry(t, away, desk)
	desk.quietly(t)
	for _, m := range []*machine{desk, lap, away} {
		sound(t, m.File, 5)
		if diff := cmp.Diff(alike(t, desk.File), alike(t, m.File)); diff != "" {
			t.Errorf("%s", diff)
		}
	}
}

// What is taken back is counted, each kind for itself, over all sessions: what had counted once, what was only heard each time. Nothing else is.
func TestWhatIsTakenBackIsCounted(t *testing.T) {
	f := inMemory(t, later)
	counts := func(want progress.TakenBack) {
		t.Helper()
		if got, err := f.TakenBack(); err != nil || got != want {
			t.Errorf("%+v, %v, want %+v", got, err, want)
		}
	}
	counts(progress.TakenBack{})
	for _, session := range []string{"a", "b"} {
		must(t, f.Begin(progress.Session{ID: session, Began: later, Minutes: time.Minute}))
		must(t, f.CountHeard(session)) // before there is an answer
		must(t, f.Record(progress.Answer{Session: session, Item: "d0/t1/u", Drill: "d0", At: later, Result: progress.Wrong, Played: true}))
		must(t, f.TakeBack())
		must(t, f.TakeBack()) // it is gone already
	}
	counts(progress.TakenBack{Heard: 2, Counted: 2})
	must(t, f.CountHeard("b"))
	must(t, f.SetSetting("taken-backs", "9 9"))
	counts(progress.TakenBack{Heard: 3, Counted: 2})
	if value, _, err := f.Setting("taken-back/b"); value != "2 1" || err != nil {
		t.Errorf("of the second session %q is kept, %v", value, err)
	}
}
