package store

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/tables"
	"sparetone/progress/whole"
)

func TestOneCopyADay(t *testing.T) {
	path := filepath.Join(t.TempDir(), "my [*] progress.db") // nothing a pattern could trip over
	for day := range 10 {
		for range 2 {
			f, err := Open(path, clockAt(evening.AddDate(0, 0, day)))
			if err != nil {
				t.Fatal(err)
			}
			f.aside.Wait() // for the day's backup
			if err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", At: f.now(), Result: progress.Right}); err != nil {
				t.Fatal(err)
			}
			if err := f.Close(); err != nil {
				t.Fatal(err)
			}
		}
	}
	folder := filepath.Join(filepath.Dir(path), copyFolder)
	var want []string // of the days before the seven, the last of each week and of each month
	for _, day := range []int{9, 8, 7, 6, 5, 4, 3} {
		want = append(want, filepath.Join(folder, "my [*] progress-"+evening.AddDate(0, 0, day).Format(time.DateOnly)+".db"))
	}
	var got []string
	for _, c := range CopiesOf(path) {
		got = append(got, c.Path)
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	oldest := openAt(t, want[6], evening)
	sound(t, oldest, 2*3) // what there was when day 3 began
	about, err := os.Stat(want[6])
	if err != nil || about.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", about.Mode(), err)
	}
}

// copied is a list of copies by their names alone.
func copied(names ...string) (all []Copy) {
	for _, name := range names {
		name, byHand := strings.CutPrefix(name, "hand ")
		m := copyName.FindStringSubmatch("-" + name)
		at, err := time.Parse(time.DateOnly, m[1])
		if m[2] != "" {
			at, err = time.Parse(momentForm, m[1]+m[2])
		}
		if err != nil {
			panic(err)
		}
		all = append(all, Copy{name, at, byHand, m[3]})
	}
	return all
}

func TestWhichCopiesGo(t *testing.T) {
	for what, c := range map[string]struct{ copies, gone []string }{
		"seven days of practice in a row": {
			copies: []string{"2026-03-10", "2026-03-09", "2026-03-08", "2026-03-07", "2026-03-06", "2026-03-05", "2026-03-04"},
		},
		// 8 March and 1 March are Sundays; 28 February is the last of its month, 31 January of its.
		"six weeks, each day": {
			copies: daysDown("2026-03-10", 42),
			gone: []string{"2026-03-03", "2026-03-02", "2026-02-27", "2026-02-26", "2026-02-25", "2026-02-24", "2026-02-23", "2026-02-21", "2026-02-20", "2026-02-19", "2026-02-18",
				"2026-02-17", "2026-02-16", "2026-02-15", "2026-02-14", "2026-02-13", "2026-02-12", "2026-02-11", "2026-02-10", "2026-02-09", "2026-02-08", "2026-02-07",
				"2026-02-06", "2026-02-05", "2026-02-04", "2026-02-03", "2026-02-02", "2026-02-01", "2026-01-30", "2026-01-29", "2026-01-28"},
		},
		"once a month, fourteen months": {
			copies: []string{"2026-03-10", "2026-02-10", "2026-01-10", "2025-12-10", "2025-11-10", "2025-10-10", "2025-09-10", "2025-08-10", "2025-07-10", "2025-06-10", "2025-05-10", "2025-04-10", "2025-03-10", "2025-02-10"},
			gone:   []string{"2025-03-10", "2025-02-10"},
		},
		"made by hand, as many as there may be": {
			copies: []string{"hand 2026-03-10-101010", "hand 2026-03-10-101009", "hand 2026-03-10-101008", "hand 2026-03-10-101007", "hand 2026-03-10-101006", "hand 2026-03-10-101005", "hand 2026-03-10-101004", "hand 2026-03-10-101003", "2026-03-10", "2020-01-01"},
		},
		"before imports": {
			copies: []string{"2026-03-10-000011-before-import", "2026-03-10-000010-before-import", "2026-03-10-000009-before-import", "2026-03-10-000008-before-import", "2026-03-10-000007-before-import", "2026-03-10-000006-before-import",
				"2026-03-10-000005-before-import", "2026-03-10-000004-before-import", "2026-03-10-000003-before-import", "2026-03-10-000002-before-schema-2", "2026-03-10-000001-before-import", "2026-03-10"},
			gone: []string{"2026-03-10-000001-before-import"},
		},
	} {
		var gone []string
		for _, old := range tooOld(copied(c.copies...)) {
			gone = append(gone, old.Path)
		}
		if !slices.Equal(gone, c.gone) {
			t.Errorf("%s: gone are %q, want %q", what, gone, c.gone)
		}
	}
}

// daysDown lists dates, one a day, from a latest one down.
func daysDown(latest string, n int) (dates []string) {
	at, _ := time.Parse(time.DateOnly, latest)
	for i := range n {
		dates = append(dates, at.AddDate(0, 0, -i).Format(time.DateOnly))
	}
	return dates
}

func TestCopiesMadeByHandLieApartAndStay(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 0, 1, 1, 1)
	if err := f.daily(); err != nil {
		t.Fatal(err)
	}
	f.aside.Wait()
	for second := range 20 {
		f.now = clockAt(evening.Add(time.Duration(second) * time.Second))
		if _, err := f.Backup(); err != nil {
			t.Fatal(err)
		}
	}
	hand, daily := 0, 0
	for _, c := range CopiesOf(path) {
		if c.ByHand {
			hand++
		} else if c.daily() {
			daily++
		}
	}
	if hand != 20 || daily != 1 {
		t.Errorf("%d copies made by hand and %d by itself, want 20 and 1", hand, daily)
	}
}

// However soon a copy is made after another, it is one of its own and has what was practised between them.
func TestCopiesOfOneSecond(t *testing.T) {
	f := openAt(t, filepath.Join(t.TempDir(), "progress.db"), evening)
	var made []string
	for answers := 1; answers <= 3; answers++ {
		if err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", At: f.now(), Result: progress.Right}); err != nil {
			t.Fatal(err)
		}
		path, err := f.Backup()
		if err != nil {
			t.Fatal(err)
		}
		made = append(made, path)
		sound(t, openAt(t, path, evening), answers)
	}
	var names []string
	for _, c := range CopiesOf(f.Path()) {
		if !c.ByHand {
			t.Errorf("%s does not count as made by hand", c.Path)
		}
		names = append(names, filepath.Base(c.Path))
	}
	want := []string{"progress-2026-03-04-183000.3.db", "progress-2026-03-04-183000.2.db", "progress-2026-03-04-183000.db"}
	if !slices.Equal(names, want) {
		t.Errorf("the copies are %q, want %q, the latest first", names, want)
	}
	slices.Reverse(made)
	for i, path := range made {
		if filepath.Base(path) != want[i] {
			t.Errorf("the copy is said to lie in %s, want %s", path, want[i])
		}
	}
}

// A copy that cannot be proven is not kept, is told of, and no older one goes for it.
func TestNoCopyGoesForOneThatIsDamaged(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 0, 1, 10, 1)
	for day := range 9 {
		if _, err := f.copyAs(copyFolder, evening.AddDate(0, 0, -day-1).Format(time.DateOnly)); err != nil {
			t.Fatal(err)
		}
	}
	before := CopiesOf(path)
	for _, harm := range []string{
		"UPDATE answers SET given = given || '!' WHERE n = 5",
		"UPDATE sessions SET began = began + 1",
		"CREATE TRIGGER swallow BEFORE INSERT ON answers BEGIN SELECT raise(IGNORE); END",
	} {
		if _, err := f.db.Exec(harm); err != nil {
			t.Fatal(err)
		}
		f.now = clockAt(f.now().AddDate(0, 0, 1))
		if err := f.daily(); err != nil {
			t.Fatal(err)
		}
		f.aside.Wait()
		if err := f.Follow(); err == nil || !strings.Contains(err.Error(), "no copy of the progress file could be made") {
			t.Errorf("%s: told %v", harm, err)
		}
		if now := CopiesOf(path); !slices.Equal(now, before) {
			t.Errorf("%s: the copies were %v and are %v", harm, before, now)
		}
	}
	if err := f.Close(); err == nil {
		t.Error("it is not told at the end")
	}
}

func TestCopiesThatWereNeverFinishedAreSweptAway(t *testing.T) {
	f := openAt(t, filepath.Join(t.TempDir(), "progress.db"), evening)
	practised(t, f, 0, 1, 1, 1)
	folder := filepath.Join(filepath.Dir(f.Path()), copyFolder)
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	for name, age := range map[string]time.Duration{whole.Unfinished + "old": 25 * time.Hour, whole.Unfinished + "young": time.Hour, "letter": 1000 * time.Hour} {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		then := time.Now().Add(-age) // the file system's clock, not the student's
		if err := os.Chtimes(path, then, then); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := f.copyBefore("import"); err != nil {
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
	if want := []string{whole.Unfinished + "young", "letter", "progress-2026-03-04-183000-before-import.db"}; !slices.Equal(names, want) {
		t.Errorf("%q, want %q", names, want)
	}
}

func TestANewerSchemaKeepsTheAnswersAndABackup(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 0, 2, 10, 1)
	f.Close()
	before := tables.Migrations
	t.Cleanup(func() { tables.Migrations = before })
	tables.Migrations = append(slices.Clone(before), "ALTER TABLE answers ADD COLUMN mood TEXT NOT NULL DEFAULT ''")
	f = openAt(t, path, evening.AddDate(0, 0, 1))
	f.aside.Wait()
	if got := CopiesOf(path); len(got) != 2 || filepath.Base(got[0].Path) != fmt.Sprintf("progress-2026-03-05-183000-before-schema-%d.db", len(tables.Migrations)) {
		t.Errorf("copies: %v", got)
	}
	var mood string
	if err := f.db.QueryRow("SELECT mood FROM answers WHERE n = 20").Scan(&mood); err != nil {
		t.Error(err)
	}
	f.Close()

	tables.Migrations = append(tables.Migrations, "ALTER TABLE answers ADD COLUMN hat TEXT; DROP TABLE no_such_table")
	if _, err := Open(path, clockAt(evening)); err == nil {
		t.Error("a step that fails was taken")
	}
	tables.Migrations = tables.Migrations[:len(before)+1]
	f = openAt(t, path, evening)
	if err := f.db.QueryRow("SELECT hat FROM answers").Scan(&mood); err == nil {
		t.Error("half a step was taken")
	}
	sound(t, f, 20)
}
