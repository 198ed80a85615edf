package progress

import (
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

func TestOneBackupADayAndTheLastSevenAreKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "my [*] progress.db") // nothing a pattern could trip over
	for day := range 10 {
		for range 2 {
			f, err := Open(path, clockAt(evening.AddDate(0, 0, day)))
			if err != nil {
				t.Fatal(err)
			}
			f.aside.Wait() // for the day's backup
			if err := f.Record(Answer{Item: "d/t/u", Drill: "d", At: f.now(), Result: Right}); err != nil {
				t.Fatal(err)
			}
			if err := f.Close(); err != nil {
				t.Fatal(err)
			}
		}
	}
	f := openAt(t, path, evening.AddDate(0, 0, 9))
	folder, _, _ := f.backupName()
	var want []string
	for day := 3; day < 10; day++ {
		want = append(want, "my [*] progress-"+evening.AddDate(0, 0, day).Format(dateForm)+".db")
	}
	if got := f.backups(); !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	oldest := openAt(t, filepath.Join(folder, want[0]), evening)
	sound(t, oldest, 2*3) // what there was when day 3 began
	about, err := os.Stat(filepath.Join(folder, want[0]))
	if err != nil || about.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", about.Mode(), err)
	}
}

func TestCopiesThatWereNeverFinishedAreSweptAway(t *testing.T) {
	f := openAt(t, filepath.Join(t.TempDir(), "progress.db"), evening)
	practised(t, f, 0, 1, 1, 1)
	folder, _, _ := f.backupName()
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	for name, age := range map[string]time.Duration{unfinished + "old": 25 * time.Hour, unfinished + "young": time.Hour, "letter": 1000 * time.Hour} {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		then := time.Now().Add(-age) // the file system's clock, not the student's
		if err := os.Chtimes(path, then, then); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := f.Backup(); err != nil {
		t.Fatal(err)
	}
	left, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, entry := range left {
		names = append(names, entry.Name())
	}
	if want := []string{unfinished + "young", "letter", "progress-2026-03-04-183000.db"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
}

func TestANewerSchemaKeepsTheAnswersAndABackup(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 0, 2, 10, 1)
	f.Close()
	before := migrations
	t.Cleanup(func() { migrations = before })
	migrations = append(slices.Clone(before), "ALTER TABLE answers ADD COLUMN mood TEXT NOT NULL DEFAULT ''")
	f = openAt(t, path, evening.AddDate(0, 0, 1))
	if got := f.backups(); len(got) != 1 || got[0] != "progress-2026-03-05-183000-schema-1.db" {
		t.Errorf("backups: %q", got)
	}
	var mood string
	if err := f.db.QueryRow("SELECT mood FROM answers WHERE n = 20").Scan(&mood); err != nil {
		t.Error(err)
	}
	f.Close()

	migrations = append(migrations, "ALTER TABLE answers ADD COLUMN hat TEXT; DROP TABLE no_such_table")
	if _, err := Open(path, clockAt(evening)); err == nil {
		t.Error("a step that fails was taken")
	}
	migrations = migrations[:2]
	f = openAt(t, path, evening)
	if err := f.db.QueryRow("SELECT hat FROM answers").Scan(&mood); err == nil {
		t.Error("half a step was taken")
	}
	sound(t, f, 20)
}
