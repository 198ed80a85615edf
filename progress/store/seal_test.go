package store

import (
	"database/sql"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/progress/tables"
)

// A file from before there were seals is sealed when it is opened, and noticed to change from then on.
func TestAnOlderFileIsSealed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	before := tables.Migrations
	t.Cleanup(func() { tables.Migrations = before })
	f := openAt(t, path, evening)
	practised(t, f, 0, 2, 10, 1)
	if err := f.SetSetting("voice", "soft"); err != nil {
		t.Fatal(err)
	}
	want, _ := bothExports(t, f)
	for _, table := range []string{"answers", "sessions", "settings"} {
		if _, err := f.db.Exec("UPDATE " + table + " SET seal = NULL"); err != nil {
			t.Fatal(err)
		}
	}
	sound(t, f, 20) // what has no seal is taken as it is
	tables.Migrations = append(before[:len(before):len(before)], "CREATE INDEX newer ON sessions (began)")
	f.Close()
	f = openAt(t, path, evening)
	if got, _ := bothExports(t, f); got != want {
		t.Error("the answers have changed")
	}
	for _, table := range []string{"answers", "sessions", "settings"} {
		var bare int
		if err := f.db.QueryRow("SELECT count(*) FROM " + table + " WHERE seal IS NULL").Scan(&bare); err != nil || bare != 0 {
			t.Errorf("%d %s without a seal, %v", bare, table, err)
		}
	}
	sound(t, f, 20)
}

// Whatever of a row that cannot be made again is written over, and SQLite finds nothing amiss: it is noticed.
func TestEveryFieldIsUnderSeal(t *testing.T) {
	f := inMemory(t, evening)
	practised(t, f, 0, 2, 10, 1)
	if err := f.SetSetting("voice", "soft"); err != nil {
		t.Fatal(err)
	}
	harms := []string{
		"UPDATE items SET id = id || 'x' WHERE n = (SELECT item FROM answers WHERE n = 3)",
		"UPDATE items SET drill = drill || 'x' WHERE n = (SELECT item FROM answers WHERE n = 3)",
		"UPDATE items SET id = id || 'x' WHERE n = (SELECT max(taken_for) FROM answers)",
	}
	for _, table := range []string{"answers", "sessions", "settings"} {
		err := tables.Each(f.db, "SELECT name, type FROM pragma_table_info(?) WHERE name <> 'n'", []any{table}, func(row *sql.Rows) error {
			var name, kind string
			err := row.Scan(&name, &kind)
			change := map[string]string{"INTEGER": "iif(NAME = 1, 2, NAME - 1)", "REAL": "NAME + 1", "TEXT": "NAME || 'x'", "BLOB": "CAST(iif(hex(substr(NAME, 1, 1)) = '01', X'02', X'01') || substr(NAME, 2) AS BLOB)"}[kind]
			harms = append(harms, fmt.Sprintf("UPDATE %s SET %s = %s WHERE rowid IN (SELECT rowid FROM %[1]s WHERE %[2]s IS NOT NULL LIMIT 1)", table, name, strings.ReplaceAll(change, "NAME", name)))
			if table != "answers" { // these have no rowid
				harms[len(harms)-1] = fmt.Sprintf("UPDATE %s SET %s = %s", table, name, strings.ReplaceAll(change, "NAME", name))
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, harm := range harms {
		back := errors.New("back")
		err := tables.Write(f.db, func(tx *sql.Tx) error {
			done, err := tx.Exec(harm)
			if err != nil {
				t.Errorf("%s: %v", harm, err)
				return back
			}
			if n, _ := done.RowsAffected(); n == 0 {
				t.Errorf("%s: changed nothing", harm)
			}
			var h tables.Health
			if err := h.Check(tx); err != nil || len(h.Damaged) == 0 {
				t.Errorf("%s: not noticed: %v", harm, err)
			}
			return back
		})
		if err != back {
			t.Fatal(err)
		}
	}
	if len(harms) < 20 {
		t.Errorf("only %d ways to change a row", len(harms))
	}
	sound(t, f, 20)
}
