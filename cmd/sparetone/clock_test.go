package main

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/records"
	"sparetone/progress"
	"sparetone/progress/store"
)

// clockWas writes a progress file with a session of two answers at each of these times, in their order.
func clockWas(t *testing.T, times ...time.Time) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "progress.db")
	clock := times[0]
	f, err := store.Open(path, func() time.Time { return clock })
	if err != nil {
		t.Fatal(err)
	}
	for i, at := range times {
		clock = at
		id := fmt.Sprint("s", i)
		if err := f.Begin(progress.Session{ID: id, Began: at, Minutes: 10 * time.Minute}); err != nil {
			t.Fatal(err)
		}
		for range 2 {
			a := progress.Answer{Session: id, Item: "chord-ear/major/ukulele", Drill: "chord-ear", At: at, Result: progress.Right, Choices: 5, Took: 3 * time.Second}
			if err := f.Record(a); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}

// ago is a moment before now, in days; later ones lie below nothing.
func ago(days int) time.Time { return time.Now().AddDate(0, 0, -days) }

// Where the clock lies years before the answers, every command that reads them says so in one line and goes on.
func TestAClockThatIsBehindIsSaid(t *testing.T) {
	inOneDay()
	var times []time.Time
	for day := range 70 { // so many that not the clock is believed
		times = append(times, ago(-631-day))
	}
	path := clockWas(t, times...)
	want := "The clock of this machine says " + time.Now().Format("2 January 2006") + ", and the last answer was given on " +
		ago(-700).Format("2 January 2006") + ". Until it is set right, answers are kept but do not count."
	for _, args := range [][]string{{"progress"}, {"progress", "--json"}, {"progress", "weak"}, {"progress", "check"}, {"progress", "export"}} {
		out, errs, ended := called(t, "", append(args, "--progress", path)...)
		if ended != command.Done || errs != "sparetone: "+want+"\n" {
			t.Errorf("%v: %d, %q, want %q", args, ended, errs, want)
		}
		if strings.Contains(out, "clock") {
			t.Errorf("%v: %s", args, out)
		}
	}
	out, _, _ := called(t, "", "progress", "--progress", path)
	if !strings.Contains(out, "70 sessions since "+ago(-631).Format("2 January 2006")+". 0 things need practice now, 0 weak.") {
		t.Error(out)
	}
	out, errs, ended := called(t, "leave\n", "practice", "--plain", "--silent", "--tuning", "ukulele", "--drill", "shape-name", "--progress", path)
	if ended != command.Done || !strings.HasPrefix(out, want+"\n") || errs != "" {
		t.Errorf("%d, %q, %q", ended, errs, out)
	}
	// It is what the screen shows first too.
	f, says, err := command.OpenJudged(path)
	if err != nil || says != want {
		t.Errorf("%q, %v", says, err)
	}
	f.Close()
}

// Nothing is said of a clock that is right; what was answered while it was wrong is counted.
func TestAnswersOfAWrongClockAreCounted(t *testing.T) {
	inOneDay()
	for _, c := range []struct {
		times   []time.Time
		doubted int
		since   int // sessions began so many days ago
	}{
		{[]time.Time{ago(3), ago(2), ago(1)}, 0, 3},
		{[]time.Time{ago(3), ago(-3650), ago(1)}, 2, 3},
		{[]time.Time{ago(3), ago(2), ago(-3650)}, 2, 3},
		{[]time.Time{time.Unix(60, 0), ago(2), ago(1)}, 2, 2},
		{[]time.Time{ago(-800), ago(-801), ago(1)}, 4, 1},
	} {
		path := clockWas(t, c.times...)
		line := fmt.Sprintf("%d answers were given while the clock was wrong: they are kept, but do not count.", c.doubted)
		for _, args := range [][]string{{"progress"}, {"progress", "check"}} {
			out, errs, ended := called(t, "", append(args, "--progress", path)...)
			if ended != command.Done || errs != "" && !strings.Contains(errs, "by a clock that was wrong") || strings.Contains(out, line) != (c.doubted > 0) || strings.Contains(out, "while the clock") != (c.doubted > 0) {
				t.Errorf("%v, %v: %d, %q, %s", c.times, args, ended, errs, out)
			}
			if since := "3 sessions since " + ago(c.since).Format("2 January 2006") + ". "; args[len(args)-1] == "progress" && !strings.Contains(out, since) {
				t.Errorf("%v: no %q in %s", c.times, since, out)
			}
			if args[len(args)-1] == "check" && !strings.Contains(out, "Sound: 6 answers") {
				t.Error(out)
			}
		}
		out, _, _ := called(t, "", "progress", "check", "--json", "--progress", path)
		if rows := objects[records.CheckRow](t, out); len(rows) != 1 || rows[0].Doubted != c.doubted || rows[0].Answers != 6 {
			t.Error(out)
		}
		// One's own export comes back in, into a file of its own.
		export := filepath.Join(t.TempDir(), "all.jsonl")
		if _, errs, ended := called(t, "", "progress", "export", export, "--progress", path); ended != command.Done {
			t.Error(errs)
		}
		if out, errs, ended := called(t, "", "progress", "import", export, "--progress", filepath.Join(t.TempDir(), "new.db")); ended != command.Done || !strings.Contains(out, "6 answers added") {
			t.Error(ended, out, errs)
		}
	}
	// Where nothing else was answered, that is all there is to say.
	out, errs, ended := called(t, "", "progress", "--progress", clockWas(t, time.Unix(60, 0)))
	if want := "1 session. 2 answers were given while the clock was wrong: they are kept, but do not count.\n"; ended != command.Done || out != want || errs != "" {
		t.Errorf("%d, %q, %q", ended, out, errs)
	}
	if got := records.SayDoubted(1); got != "1 answer was given while the clock was wrong: it is kept, but does not count." {
		t.Error(got)
	}
}

// A clock that is back from years ahead, and nothing was answered since: which of the two is believed is said.
func TestAClockThatWasAheadIsSaid(t *testing.T) {
	inOneDay()
	path := clockWas(t, ago(3), ago(-800))
	_, errs, ended := called(t, "", "progress", "--progress", path)
	want := "The clock of this machine says " + time.Now().Format("2 January 2006") + ", and the last answer was given on " +
		ago(-800).Format("2 January 2006") + ", by a clock that was wrong: such answers are kept but do not count. If it is wrong now, set it right."
	if ended != command.Done || errs != "sparetone: "+want+"\n" {
		t.Error(ended, errs)
	}
}

// A clock that is more than a year ahead of the last answer may be right, and is asked after where something would be
// recorded by it.
func TestAClockThatMayBeAheadIsSaid(t *testing.T) {
	inOneDay()
	path := clockWas(t, ago(801), ago(800))
	if _, errs, ended := called(t, "", "progress", "--progress", path); ended != command.Done || errs != "" {
		t.Error(ended, errs)
	}
	f, says, err := command.OpenJudged(path)
	if want := ". If that is not so, set the clock right."; err != nil || !strings.HasSuffix(says, want) {
		t.Errorf("%q, %v", says, err)
	}
	f.Close()
}
