package store

import (
	"database/sql"
	"fmt"
	"strings"
	"testing"

	"sparetone/progress"
)

func TestWhatBelongsTogether(t *testing.T) {
	for _, c := range []struct{ item, drill, takenFor, says string }{
		{"spell/major/ukulele", "spell", "", ""},
		{"spell/major/ukulele", "spell", "spell/minor/ukulele", ""},
		{"spell/major/ukulele", "chord-ear", "", `drill is "chord-ear", but the item spell/major/ukulele belongs to the drill spell`},
		{"spell/major/ukulele", "spell/major", "", `drill is "spell/major", but the item`},
		{"spell/major/ukulele", "spell", "chord-ear/minor/ukulele", "taken_for is chord-ear/minor/ukulele, but an item is taken for another of its own drill, spell/…"},
	} {
		err := progress.Answer{Item: c.item, Drill: c.drill, TakenFor: c.takenFor}.Belongs()
		if c.says == "" && err != nil || c.says != "" && (err == nil || !strings.HasPrefix(err.Error(), c.says)) {
			t.Errorf("%+v: %v", c, err)
		}
	}
}

// An answer under another drill than its item's is refused by an import, by line and field, and blocks nothing.
func TestImportRefusesAnotherDrill(t *testing.T) {
	f := inMemory(t, evening)
	practised(t, f, 0, 1, 20, 5)
	export, _ := bothExports(t, f)
	line := strings.Count(export[:strings.Index(export, `"drill":"d1"`)], "\n") + 1
	wrong := strings.Replace(export, `"drill":"d1"`, `"drill":"d7"`, 1)
	g := inMemory(t, evening)
	if _, err := g.Import(strings.NewReader(wrong), anything); err == nil || !strings.HasPrefix(err.Error(), fmt.Sprintf("line %d: drill is \"d7\"", line)) {
		t.Errorf("%v, want line %d", err, line)
	}
	sound(t, g, 0)
	if got, err := g.Import(strings.NewReader(export), anything); err != nil || got.Added != 20 {
		t.Error(got, err)
	}
}

// A file into which an earlier version took such an answer is put right when it is opened, so that the item is kept
// again; until then a check says it.
func TestAnItemUnderAnotherDrillIsPutRight(t *testing.T) {
	path, _ := tampered(t, "UPDATE items SET drill = 'elsewhere' WHERE id = 'd1/t1/u'; UPDATE answers SET seal = NULL; DELETE FROM pace")
	r, err := OpenToRead(path, clockAt(later))
	if err != nil {
		t.Fatal(err)
	}
	if h, err := r.Check(); err != nil || len(h.Misfiled) != 1 || h.Misfiled[0] != "d1/t1/u" || len(h.Damaged) > 0 {
		t.Errorf("%+v, %v", h, err)
	}
	standings, err := r.Standings()
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range standings {
		if s.Drill != progress.DrillOf(s.Item) {
			t.Errorf("%s is read under the drill %s", s.Item, s.Drill)
		}
	}
	r.Close()
	f := openAt(t, path, later)
	if err := f.Record(progress.Answer{Item: "d1/t1/u", Drill: "d1", At: later, Result: progress.Right}); err != nil {
		t.Error(err)
	}
	sound(t, f, 121)
	if h, err := f.Check(); err != nil || len(h.Misfiled) > 0 {
		t.Errorf("%+v, %v", h, err)
	}
	unsealed := 0
	if err := f.db.QueryRow("SELECT count(*) FROM answers JOIN items ON items.n = item WHERE seal IS NULL AND items.id = 'd1/t1/u'").Scan(&unsealed); err != nil || unsealed > 0 {
		t.Errorf("%d of its answers are not sealed, %v", unsealed, err)
	}
	var drill string
	if err := f.db.QueryRow("SELECT drill FROM items WHERE id = 'd1/t1/u'").Scan(&drill); err != nil && err != sql.ErrNoRows || drill != "d1" {
		t.Errorf("%s, %v", drill, err)
	}
}
