package progress

import (
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"testing"
)

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
		err := each(f.db, "SELECT name, type FROM pragma_table_info(?) WHERE name <> 'n'", []any{table}, func(row *sql.Rows) error {
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
		err := writing(f.db, func(tx *sql.Tx) error {
			done, err := tx.Exec(harm)
			if err != nil {
				t.Errorf("%s: %v", harm, err)
				return back
			}
			if n, _ := done.RowsAffected(); n == 0 {
				t.Errorf("%s: changed nothing", harm)
			}
			var h Health
			if err := h.check(tx); err != nil || len(h.Damaged) == 0 {
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

// Two rows whose fields are the same when they are put in one line have two seals.
func TestSealsTellFieldsApart(t *testing.T) {
	seals := map[int64]string{}
	for _, fields := range [][]any{{"ab", "c"}, {"a", "bc"}, {"abc"}, {"", "abc"}, {int64(1), "x"}, {int64(0), int64(1), "x"}, {"x", int64(1)}, {float64(1), "x"}} {
		name := fmt.Sprintf("%#v", fields)
		if other, met := seals[sealOf(fields...)]; met {
			t.Errorf("%s has the seal of %s", name, other)
		}
		seals[sealOf(fields...)] = name
	}
	if sealOf("a", "") != sealOf("a") || sealOf("a", int64(0)) != sealOf("a") {
		t.Error("a field that is added later breaks the seals of rows without it")
	}
}
