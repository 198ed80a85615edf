package store

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/progress/plan"
)

// evening is a Wednesday at half past six, somewhere west of Greenwich.
var evening = time.Date(2026, 3, 4, 18, 30, 0, 0, time.FixedZone("UTC-5", -5*60*60))

func clockAt(t time.Time) func() time.Time { return func() time.Time { return t } }

func openAt(t *testing.T, path string, when time.Time) *File {
	t.Helper()
	f, err := Open(path, clockAt(when))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func TestAnswersOutliveTheProgram(t *testing.T) {
	path := filepath.Join(t.TempDir(), "sparetone", "progress.db")
	f := openAt(t, path, evening)
	if err := f.Record(progress.Answer{Item: "chord-ear/dominant/ukulele", Drill: "chord-ear", At: evening, Result: progress.Wrong, TakenFor: "chord-ear/major/ukulele"}); err != nil {
		t.Fatal(err)
	}
	f.Close()
	for _, p := range []struct {
		path string
		mode os.FileMode
	}{{path, 0o600}, {filepath.Dir(path), 0o700}} {
		about, err := os.Stat(p.path)
		if err != nil {
			t.Fatal(err)
		}
		if about.Mode().Perm() != p.mode {
			t.Errorf("%s: mode %o, want %o", p.path, about.Mode().Perm(), p.mode)
		}
	}
	f = openAt(t, path, evening.AddDate(0, 0, 1))
	due, known, err := f.ComesBack("chord-ear/dominant/ukulele")
	if err != nil || !known {
		t.Fatal(known, err)
	}
	if want := time.Date(2026, 3, 5, 4, 0, 0, 0, evening.Location()); !due.Equal(want) {
		t.Errorf("comes back %v, want %v", due, want)
	}
	if _, known, _ := f.ComesBack("chord-ear/major/ukulele"); known {
		t.Error("what was only named by mistake was never asked")
	}
}

// What is derived answer by answer is what follows from the file, however fine the clock is. A little
// over the usual time is not slow once it is kept.
func TestTimesFinerThanTheFileKeeps(t *testing.T) {
	f := inMemory(t, evening)
	at := evening
	for range 24 {
		const took = 2*time.Second + 999_999*time.Nanosecond
		at = at.Add(took)
		if err := f.Record(progress.Answer{Session: "s", Item: "d/t/u", Drill: "d", At: at, Result: progress.Right, Took: took}); err != nil {
			t.Fatal(err)
		}
	}
	sound(t, f, 24)
}

func TestAQuestionLeftStandingCanBeTakenElsewhere(t *testing.T) {
	f, g := inMemory(t, evening), inMemory(t, evening)
	if err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", At: evening, Result: progress.Right, Took: 1000 * time.Hour}); err != nil {
		t.Fatal(err)
	}
	export, _ := bothExports(t, f)
	if got, err := g.Import(strings.NewReader(export), anything); err != nil || got.Added != 1 {
		t.Error(got, err)
	}
}

// A kill does not show whether an answer has reached the disk; only a power cut would.
func TestEveryCommitIsSynced(t *testing.T) {
	f := openAt(t, filepath.Join(t.TempDir(), "progress.db"), evening)
	for pragma, want := range map[string]string{"synchronous": "2", "journal_mode": "wal", "foreign_keys": "1"} { // 2 is FULL
		var got string
		if err := f.db.QueryRow("PRAGMA " + pragma).Scan(&got); err != nil || got != want {
			t.Errorf("%s is %s, %v, want %s", pragma, got, err, want)
		}
	}
}

// planFor plans a session with what a file holds, and returns what is known of that as well.
func planFor(f *File, course []plan.Candidate, length time.Duration) (*plan.Planner, *memory.Derived, error) {
	known, is, err := f.Known()
	if err != nil {
		return nil, nil, err
	}
	return plan.NewPlanner(known, is, course, length), known, nil
}
