package progress

import (
	"path/filepath"
	"testing"
)

// A file from before there were seals is sealed when it is opened, and noticed to change from then on.
func TestAnOlderFileIsSealed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	before := migrations
	t.Cleanup(func() { migrations = before })
	f := openAt(t, path, evening)
	practised(t, f, 0, 2, 10, 1)
	if err := f.SetSetting("voice", "soft"); err != nil {
		t.Fatal(err)
	}
	want, _ := exported(t, f)
	for _, table := range []string{"answers", "sessions", "settings"} {
		if _, err := f.db.Exec("UPDATE " + table + " SET seal = NULL"); err != nil {
			t.Fatal(err)
		}
	}
	sound(t, f, 20) // what has no seal is taken as it is
	migrations = append(before[:len(before):len(before)], "CREATE INDEX newer ON sessions (began)")
	f.Close()
	f = openAt(t, path, evening)
	if got, _ := exported(t, f); got != want {
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
