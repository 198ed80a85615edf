package store

import (
	"database/sql"
	"path/filepath"
	"testing"

	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// A file in memory begins as one on the disk does: with the same tables, of the same version, and an id of its own.
func TestAFileInMemoryBeginsAsOneOnTheDisk(t *testing.T) {
	t.Parallel()
	what := func(f *File) (all []string) {
		must(t, f.read(func(tx *sql.Tx) error {
			version, err := tables.Version(tx)
			if version != len(tables.Migrations) {
				t.Errorf("version %d, want %d", version, len(tables.Migrations))
			}
			must(t, err)
			for _, query := range []string{"SELECT name || ' ' || coalesce(sql, '') FROM sqlite_schema ORDER BY name", "SELECT key FROM settings ORDER BY key"} {
				must(t, tables.Each(tx, query, nil, func(row *sql.Rows) error {
					var text string
					err := row.Scan(&text)
					all = append(all, text)
					return err
				}))
			}
			return nil
		}))
		return all
	}
	disk := openAt(t, filepath.Join(t.TempDir(), "progress.db"), evening)
	var ids []string
	for range 2 {
		f, err := InMemory(clockAt(evening))
		must(t, err)
		defer f.Close()
		if diff := cmp.Diff(what(disk), what(f)); diff != "" {
			t.Error(diff)
		}
		whose, err := f.Whose()
		must(t, err)
		ids = append(ids, whose.ID)
		practised(t, f, 0, 1, 5, 1)
		if n := len(answersOf(t, f)); n != 5 {
			t.Errorf("%d answers are kept, want 5", n)
		}
	}
	if ids[0] == "" || ids[0] == ids[1] {
		t.Errorf("two files have the ids %q and %q", ids[0], ids[1])
	}
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}
