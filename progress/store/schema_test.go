package store

import (
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"sparetone/progress/tables"
)

// tampered returns a progress file in which somebody else has done something.
func tampered(t *testing.T, harm string) (path string, bytes []byte) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "progress.db")
	if err := os.WriteFile(path, soundBytes(t), 0o600); err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	if _, err := db.Exec("PRAGMA writable_schema = ON; " + harm + "; PRAGMA wal_checkpoint(TRUNCATE); PRAGMA journal_mode = DELETE"); err != nil {
		t.Fatalf("%s: %v", harm, err)
	}
	bytes, err = os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return path, bytes
}

// What this program did not put into a file is refused by name, before anything is read through it.
func TestForeignObjectsAreRefusedByName(t *testing.T) {
	t.Parallel()
	for harm, says := range map[string]string{
		"CREATE TRIGGER swallow BEFORE INSERT ON answers BEGIN SELECT raise(IGNORE); END":              "trigger swallow of answers",
		"CREATE TRIGGER \"a\x1b[2Jb\" AFTER INSERT ON answers BEGIN DELETE FROM answers; END":          "trigger a[2Jb of answers",
		"CREATE VIEW v AS WITH RECURSIVE r(n) AS (SELECT 1 UNION ALL SELECT n FROM r) SELECT n FROM r": "view v",
		"CREATE TABLE letters (text)":                                               "table letters",
		"CREATE INDEX mine ON answers (at)":                                         "index mine of answers",
		"CREATE VIRTUAL TABLE search USING fts5(text)":                              "table search",
		"ALTER TABLE answers ADD COLUMN mood TEXT DEFAULT 'x'":                      "the table answers is not as",
		"ALTER TABLE memory RENAME TO was; CREATE VIEW memory AS SELECT * FROM was": "this program did not put there",
		"DROP TABLE settings; CREATE VIEW settings(key, value, seal) AS WITH RECURSIVE r(n) AS (VALUES (1) UNION ALL SELECT n FROM r) SELECT n, n, n FROM r": "view settings",
		"DROP TABLE pace": "the table pace is missing",
		"UPDATE sqlite_schema SET sql = replace(sql, 'CHECK (result IN (1, 2, 3))', '') WHERE name = 'answers'": "the table answers is not as",
		"PRAGMA user_version = 0": "this program did not put there",
		"ANALYZE":                 "table sqlite_stat1",
	} {
		path, was := tampered(t, harm)
		done := make(chan error, 1)
		go func() {
			f, err := Open(path, clockAt(evening))
			if err == nil {
				f.Close()
			}
			done <- err
		}()
		select {
		case err := <-done:
			if err == nil || !strings.Contains(err.Error(), says) || strings.ContainsAny(err.Error(), "\n\x1b") {
				t.Errorf("%s: %v, want one line with %q", harm, err, says)
			}
		case <-time.After(20 * time.Second):
			t.Fatalf("%s: it hangs", harm)
		}
		leftAlone(t, harm, path, was)
	}
}

// Junk where what is derived lies is made again when the file is opened, and in the midst of practice.
func TestJunkInWhatIsDerivedIsMadeAgain(t *testing.T) {
	t.Parallel()
	for _, harm := range []string{
		"UPDATE pace SET took = '[1, 2'",
		"UPDATE pace SET cycle = 'null, and void'",
		"UPDATE pace SET took = '{}', cycle = '17'",
		"UPDATE memory SET day = 9000000000000, due = 9000000000000",
		"UPDATE memory SET stability = 9e999",
		"DELETE FROM memory; DELETE FROM pace",
		"UPDATE weeks SET asked = -1",
	} {
		path, _ := tampered(t, harm)
		f := openAt(t, path, evening.AddDate(0, 0, 5))
		sound(t, f, 120)
		f.Close()
		if !strings.Contains(harm, "pace SET") {
			continue
		}
		f = openAt(t, path, evening.AddDate(0, 0, 5))
		if _, err := f.db.Exec(harm); err != nil {
			t.Fatal(err)
		}
		if _, err := f.Standings(); err != nil {
			t.Errorf("%s: %v", harm, err)
		}
		if _, err := f.db.Exec(harm); err != nil {
			t.Fatal(err)
		}
		practised(t, f, 6, 1, 3, 2)
		sound(t, f, 123)
	}
}

// undoing has what takes a file back by a step of the schema, by the step's number: from version 13 to 12 and so on. Seals stay as they are.
var undoing = map[int]string{
	4: "ALTER TABLE answers DROP COLUMN import; ALTER TABLE sessions DROP COLUMN import",
	5: "DROP TABLE doubts",
	6: "", // settings as ids: no table changed
	7: "DROP TABLE foretold; ALTER TABLE memory DROP COLUMN guess; ALTER TABLE memory DROP COLUMN ear; " +
		"ALTER TABLE memory DROP COLUMN kept; ALTER TABLE memory DROP COLUMN added; ALTER TABLE memory DROP COLUMN unsure; ALTER TABLE memory DROP COLUMN favour",
	8:  "ALTER TABLE answers DROP COLUMN rung; ALTER TABLE memory DROP COLUMN rung; ALTER TABLE memory DROP COLUMN told",
	9:  "ALTER TABLE answers DROP COLUMN lesson; ALTER TABLE answers DROP COLUMN step",
	10: "DROP TABLE songs",
	11: "DROP TABLE foretold; " + regexp.MustCompile(`(?s)CREATE TABLE foretold \(.*?\) STRICT`).FindString(tables.Migrations[6]),
	12: "ALTER TABLE answers DROP COLUMN played",
	13: "ALTER TABLE answers DROP COLUMN offered; ALTER TABLE answers DROP COLUMN chosen",
}

// backTo makes of a file of the present schema one of an earlier version, 3 at the earliest.
func backTo(version int) string {
	all := ""
	for v := len(tables.Migrations); v > version; v-- {
		all += undoing[v] + "; "
	}
	return all + fmt.Sprintf("PRAGMA user_version = %d", version)
}

// A file can be taken back to what each version made of it, so that tests have files of all of them. A new step has its row in undoing.
func TestEveryStepCanBeUndone(t *testing.T) {
	t.Parallel()
	for version := 3; version < len(tables.Migrations); version++ {
		if _, ok := undoing[version+1]; !ok {
			t.Errorf("step %d cannot be undone", version+1)
			continue
		}
		db := tables.NewConnector("").Open()
		err := tables.Write(db, func(tx *sql.Tx) error { return tables.Migrate(tx, 0, len(tables.Migrations)) })
		if err != nil {
			t.Fatal(err)
		}
		if _, err := db.Exec(backTo(version)); err != nil {
			t.Errorf("back to version %d: %v", version, err)
		}
		if is, err := tables.Version(db); is != version || err != nil {
			t.Errorf("back to version %d: %d, %v", version, is, err)
		}
		db.Close()
	}
}
