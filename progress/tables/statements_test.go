package tables

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"fmt"
	"io"
	"strings"
	"testing"
)

// statementsOf returns a database of three numbers, and the one connection of it.
func statementsOf(t testing.TB) (*sql.DB, *statements) {
	t.Helper()
	db := NewConnector("").Open()
	t.Cleanup(func() { db.Close() })
	if _, err := db.Exec("CREATE TABLE numbers (n INTEGER PRIMARY KEY) STRICT; INSERT INTO numbers VALUES (1), (2), (3)"); err != nil {
		t.Fatal(err)
	}
	c, err := db.Conn(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	var s *statements
	if err := c.Raw(func(conn any) error { s = conn.(*statements); return nil }); err != nil {
		t.Fatal(err)
	}
	if err := s.forget(); err != nil {
		t.Fatal(err)
	}
	return db, s
}

// What was asked once is kept, whatever it is asked with, and one that failed is not.
func TestStatementsAreKept(t *testing.T) {
	db, s := statementsOf(t)
	for n := range 4 {
		var is bool
		if err := db.QueryRow("SELECT EXISTS (SELECT 1 FROM numbers WHERE n = ?)", n).Scan(&is); err != nil || is != (n > 0) {
			t.Errorf("%d: %t, %v", n, is, err)
		}
	}
	if _, err := db.Exec("INSERT INTO numbers VALUES (?)", 4); err != nil {
		t.Error(err)
	}
	if len(s.kept) != 2 {
		t.Errorf("%d statements are kept, want 2", len(s.kept))
	}
	if _, err := db.Exec("INSERT INTO numbers VALUES (?)", 4); err == nil {
		t.Error("4 is there twice")
	}
	if _, err := db.Exec("INSERT INTO numbers VALUES (?)", 5); err != nil {
		t.Errorf("after one that failed: %v", err)
	}
	if _, err := db.Query("SELECT missing FROM numbers"); err == nil || len(s.kept) != 2 {
		t.Errorf("%d are kept after one that cannot be read, %v", len(s.kept), err)
	}
}

// While one reads, the same may be asked again inside.
func TestStatementsInsideThemselves(t *testing.T) {
	db, s := statementsOf(t)
	tx, err := db.Begin()
	if err != nil {
		t.Fatal(err)
	}
	defer tx.Rollback()
	const query = "SELECT n FROM numbers WHERE n >= ? ORDER BY n"
	var got []string
	outer := func(outer *sql.Rows) error {
		var n int
		if err := outer.Scan(&n); err != nil {
			return err
		}
		return Each(tx, query, []any{n}, func(inner *sql.Rows) error {
			var m int
			err := inner.Scan(&m)
			got = append(got, fmt.Sprint(n, m))
			return err
		})
	}
	if err := Each(tx, query, []any{1}, outer); err != nil {
		t.Fatal(err)
	}
	if want := "1 1,1 2,1 3,2 2,2 3,3 3"; strings.Join(got, ",") != want {
		t.Errorf("%v, want %s", got, want)
	}
	if len(s.kept) != 1 {
		t.Errorf("%d statements are kept, want one", len(s.kept))
	}
}

// A table that was changed meanwhile is read as it is.
func TestStatementsOfAChangedTable(t *testing.T) {
	db, _ := statementsOf(t)
	columns := func() int {
		rows, err := db.Query("SELECT * FROM numbers")
		if err != nil {
			t.Fatal(err)
		}
		defer rows.Close()
		names, err := rows.Columns()
		if err != nil {
			t.Fatal(err)
		}
		return len(names)
	}
	if n := columns(); n != 1 {
		t.Errorf("%d columns, want one", n)
	}
	if _, err := db.Exec("ALTER TABLE numbers ADD COLUMN name TEXT"); err != nil {
		t.Fatal(err)
	}
	if n := columns(); n != 2 {
		t.Errorf("%d columns after one was added, want 2", n)
	}
}

// However many are made up, few are kept.
func TestStatementsAreForgotten(t *testing.T) {
	db, s := statementsOf(t)
	most := 0
	for n := range 2*mostStatements + 1 {
		var got int
		if err := db.QueryRow(fmt.Sprintf("SELECT %d", n)).Scan(&got); err != nil || got != n {
			t.Fatalf("%d: %d, %v", n, got, err)
		}
		most = max(most, len(s.kept))
	}
	if most != mostStatements {
		t.Errorf("%d were kept at once, want %d", most, mostStatements)
	}
	if err := db.Close(); err != nil || len(s.kept) != 0 {
		t.Errorf("closed: %d are kept, %v", len(s.kept), err)
	}
}

// The same small statement, kept and read anew each time.
// Rows that are closed twice give their statement back once.
func TestRowsAreClosedOnce(t *testing.T) {
	closed, given := 0, 0
	rows := &statementRows{Rows: closing{func() { closed++ }}, put: func() error { given++; return nil }}
	must(t, rows.Close())
	must(t, rows.Close())
	if closed != 1 || given != 1 {
		t.Errorf("closed %d times, given back %d times", closed, given)
	}
}

// closing is rows of nothing that say when they are closed.
type closing struct{ done func() }

func (c closing) Columns() []string         { return nil }
func (c closing) Next([]driver.Value) error { return io.EOF }
func (c closing) Close() error              { c.done(); return nil }

func BenchmarkStatements(b *testing.B) {
	const query = "SELECT EXISTS (SELECT 1 FROM numbers WHERE n = ?)"
	for _, anew := range []bool{false, true} {
		b.Run(map[bool]string{false: "kept", true: "anew"}[anew], func(b *testing.B) {
			db, s := statementsOf(b)
			b.ReportAllocs()
			for b.Loop() {
				var is bool
				if err := db.QueryRow(query, 2).Scan(&is); err != nil {
					b.Fatal(err)
				}
				if anew {
					s.forget()
				}
			}
		})
	}
}
