package rescue

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/pages"
	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// pageSize is small, so that few answers fill many pages.
const pageSize = 512

var evening = time.Date(2026, 3, 4, 19, 0, 0, 0, time.UTC)

// answer returns an answer with something in every field.
func answer(n int) tables.AnswerRow {
	k := tables.AnswerRow{Day: progress.DayOf(evening), Import: "import/1", Answer: progress.Answer{
		Session: "monday", Item: "spell/major", Drill: "spell", Seed: 1<<63 + uint64(n), At: evening.Add(time.Duration(n) * time.Minute),
		Question: "Spell C.", Given: "C E♭ G", Expected: "C E G", TakenFor: "spell/minor", Result: progress.Wrong,
		Choices: 4, Took: 2500 * time.Millisecond, Replays: 1, Hints: 2, Voice: "soft", Rung: 3, Lesson: "lesson-1", Step: "first", Played: true, Offered: "major|minor|sus4|7", Chosen: 2}}
	copy(k.ID[:], fmt.Sprintf("answer %09d", n))
	return k
}

var (
	monday = tables.SessionRow{Id: "monday", Began: evening.UnixMilli(), Ended: sql.NullInt64{Int64: evening.Add(time.Hour).UnixMilli(), Valid: true}, Minutes: 10, By: "import/1"}
	blues  = progress.Song{ID: "kept-1", Song: "blues", At: evening, Chart: "C7 F7", Tuning: "ukulele", Rich: 2, Shapes: "C7=0001", Sounds: "strum"}
)

// must ends the test at an error.
func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// empty makes an empty progress file in memory, of a version of the schema.
func empty(t *testing.T, version int) *sql.DB {
	t.Helper()
	db := tables.NewConnector("").Open()
	t.Cleanup(func() { db.Close() })
	_, err := db.Exec(fmt.Sprintf("PRAGMA page_size = %d", pageSize))
	must(t, err)
	must(t, tables.Write(db, func(tx *sql.Tx) error { return tables.Migrate(tx, 0, version) }))
	return db
}

// add adds answers to a file and derives nothing from them.
func add(t *testing.T, db *sql.DB, answers ...tables.AnswerRow) {
	t.Helper()
	must(t, tables.Write(db, func(tx *sql.Tx) error {
		for _, k := range answers {
			names, err := tables.NameItems(tx, k.Answer)
			if err != nil {
				return err
			}
			if _, err := tx.Exec(tables.InsertAnswer, k.Row(names)...); err != nil {
				return err
			}
		}
		return nil
	}))
}

func addSession(t *testing.T, db *sql.DB, s tables.SessionRow) {
	t.Helper()
	_, err := db.Exec("INSERT INTO sessions (id, began, ended, minutes, seal, import) VALUES (?, ?, ?, ?, ?, ?)", s.Id, s.Began, s.Ended, s.Minutes, s.Sum(), s.By)
	must(t, err)
}

// practised makes a file with answers, a session, a song and two settings.
func practised(t *testing.T, answers int) *sql.DB {
	t.Helper()
	db := empty(t, len(tables.Migrations))
	addSession(t, db, monday)
	must(t, tables.Write(db, func(tx *sql.Tx) error {
		if err := tables.KeepSong(tx, blues); err != nil {
			return err
		}
		if err := tables.KeepSetting(tx, tables.IdKey, "MINE"); err != nil {
			return err
		}
		return tables.KeepSetting(tx, "voice", "soft")
	}))
	for n := range answers {
		add(t, db, answer(n+1))
	}
	return db
}

// bytesOf returns a file as it would lie on a disk.
func bytesOf(t *testing.T, db *sql.DB) (file []byte) {
	t.Helper()
	c, err := db.Conn(context.Background())
	must(t, err)
	defer c.Close()
	must(t, c.Raw(func(c any) (err error) {
		file, err = c.(interface{ Serialize() ([]byte, error) }).Serialize()
		return err
	}))
	return file
}

func imageOf(file []byte) *pages.Image {
	return &pages.Image{File: bytes.NewReader(file), Size: int64(len(file)), PageSize: pageSize}
}

// pour rescues a file into an empty one that was another student's.
func pour(t *testing.T, m *pages.Image) (got Rescued, into *sql.DB) {
	t.Helper()
	into = empty(t, len(tables.Migrations))
	must(t, tables.Write(into, func(tx *sql.Tx) (err error) {
		if err = tables.KeepSetting(tx, tables.NameKey, "somebody else"); err != nil {
			return err
		}
		got, err = Pour(tx, m)
		return err
	}))
	return got, into
}

func answersIn(t *testing.T, db *sql.DB) (all []tables.AnswerRow) {
	t.Helper()
	must(t, tables.Answers(db, func(k tables.AnswerRow) error {
		k.N = 0 // its place is the file's own
		all = append(all, k)
		return nil
	}))
	return all
}

// rowsIn lists the rows of a query, each as text.
func rowsIn(t *testing.T, db *sql.DB, query string) (all []string) {
	t.Helper()
	must(t, tables.Each(db, "SELECT concat_ws(' ', "+query, nil, func(row *sql.Rows) error {
		var s string
		err := row.Scan(&s)
		all = append(all, s)
		return err
	}))
	return all
}

// sound checks that a rescued file is one that may be practised with.
func sound(t *testing.T, db *sql.DB) {
	t.Helper()
	must(t, tables.Read(db, func(tx *sql.Tx) error {
		var h tables.Health
		if err := h.Check(tx); err != nil || len(h.Damaged)+len(h.Misfiled) > 0 || h.Stale {
			t.Errorf("%+v, %v", h, err)
		}
		return nil
	}))
}

func TestASoundFileComesOutAsItWas(t *testing.T) {
	from := practised(t, 40)
	right := answer(41)
	right.Result, right.TakenFor = progress.Right, ""
	add(t, from, right)
	got, into := pour(t, imageOf(bytesOf(t, from)))
	if want := (Rescued{Answers: 41, Sessions: 1, Songs: 1}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	if diff := cmp.Diff(answersIn(t, from), answersIn(t, into)); diff != "" {
		t.Error(diff)
	}
	for _, rows := range []string{
		"id, began, ended, minutes, seal, import) FROM sessions ORDER BY id",
		"id, song, at, chart, tuning, rich, shapes, sounds, import, seal) FROM songs ORDER BY id",
		"key, value, seal) FROM settings ORDER BY key", // and not the other student's
	} {
		if diff := cmp.Diff(rowsIn(t, from, rows), rowsIn(t, into, rows)); diff != "" {
			t.Errorf("%s: %s", rows, diff)
		}
	}
	sound(t, into)
}

// Answers come out in the order of their numbers, wherever they lay.
func TestAnswersComeOutInTheirOrder(t *testing.T) {
	s := &salvage{rows: map[string][]pages.Record{"answers": {{N: 5}, {N: 2}, {N: 9}, {N: 2, Values: []any{"later"}}}}}
	want := []pages.Record{{N: 2}, {N: 2, Values: []any{"later"}}, {N: 5}, {N: 9}}
	if diff := cmp.Diff(want, s.answers()); diff != "" {
		t.Error(diff)
	}
}

// What is no longer what was written is left behind, and the rest is taken.
func TestWhatHasChangedIsLeftBehind(t *testing.T) {
	for _, c := range []struct {
		what, harm string
		want       Rescued
		settings   string
	}{
		{"an answer", "UPDATE answers SET given = 'C G' WHERE n = 2", Rescued{Answers: 3, Sessions: 1, Songs: 1, Lost: 1}, "soft"},
		{"an answer that is none", "PRAGMA ignore_check_constraints = ON; UPDATE answers SET result = 7 WHERE n = 2", Rescued{Answers: 3, Sessions: 1, Songs: 1, Lost: 1}, "soft"},
		{"an answer without a seal that cannot be", "UPDATE answers SET seal = NULL, choices = 1 WHERE n = 2", Rescued{Answers: 3, Sessions: 1, Songs: 1, Lost: 1}, "soft"},
		{"a session", "UPDATE sessions SET minutes = 11", Rescued{Answers: 4, Songs: 1}, "soft"},
		{"a song", "UPDATE songs SET chart = 'C7 F7 G7'", Rescued{Answers: 4, Sessions: 1}, "soft"},
		{"a setting", "UPDATE settings SET value = 'loud' WHERE key = 'voice'", Rescued{Answers: 4, Sessions: 1, Songs: 1}, ""},
		{"the drill of an item", "UPDATE items SET drill = 'tell' WHERE id = 'spell/major'", Rescued{Answers: 4, Sessions: 1, Songs: 1}, "soft"}, // the index knows better
		{"an item in both places", "UPDATE items SET id = 'spell/augmented' WHERE id = 'spell/major'", Rescued{Sessions: 1, Songs: 1, Lost: 4}, "soft"},
	} {
		from := practised(t, 4)
		_, err := from.Exec(c.harm)
		must(t, err)
		got, into := pour(t, imageOf(bytesOf(t, from)))
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", c.what, got, c.want)
		}
		if voice, err := tables.Setting(into, "voice"); voice != c.settings || err != nil {
			t.Errorf("%s: the voice is %q, %v", c.what, voice, err)
		}
		if n := len(answersIn(t, into)); n != got.Answers {
			t.Errorf("%s: %d answers, said %d", c.what, n, got.Answers)
		}
		sound(t, into)
	}
}

// What a file knows of other machines is of that file alone, and its settings in words come out as ids.
func TestSettingsThatAreNotTakenAsTheyAre(t *testing.T) {
	from := practised(t, 1)
	must(t, tables.Write(from, func(tx *sql.Tx) error {
		if err := tables.KeepSetting(tx, tables.AlikeKey, "{}"); err != nil {
			return err
		}
		return tables.KeepSetting(tx, "hand", "left-handed")
	}))
	_, into := pour(t, imageOf(bytesOf(t, from)))
	if diff := cmp.Diff([]string{"hand left", "voice soft", "whose/id MINE"}, rowsIn(t, into, "key, value) FROM settings ORDER BY key")); diff != "" {
		t.Error(diff)
	}
}

// A file from before there were seals, imports, rungs, lessons, songs, playing and what was offered is rescued as one of today, under seal.
func TestAnOldFileIsRescuedAsOneOfToday(t *testing.T) {
	from := empty(t, 1)
	_, err := from.Exec(`INSERT INTO items VALUES (1, 'spell/major', 'spell'), (2, 'spell/minor', '');
		INSERT INTO answers VALUES (1, CAST('sixteen bytes  1' AS BLOB), 'monday', 1, 7, 1772650800000, 20516, 'Spell C.', 'C E♭ G', 'C E G', 2, 1, 2500, 1, 2, 'soft');
		INSERT INTO sessions VALUES ('monday', 1772650800000, NULL, 10.5); INSERT INTO settings VALUES ('voice', 'soft')`)
	must(t, err)
	got, into := pour(t, imageOf(bytesOf(t, from)))
	if want := (Rescued{Answers: 1, Sessions: 1}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	for _, table := range []string{"answers", "sessions", "settings"} {
		if bare := rowsIn(t, into, "'a row') FROM "+table+" WHERE seal IS NULL"); bare != nil {
			t.Errorf("%d %s without a seal", len(bare), table)
		}
	}
	all := answersIn(t, into)
	if len(all) != 1 || all[0].Given != "C E♭ G" || all[0].TakenFor != "spell/minor" || all[0].Voice != "soft" || all[0].Rung != 0 || all[0].Played || all[0].Offered != "" || all[0].Chosen != 0 || all[0].Import != "" {
		t.Errorf("%+v", all)
	}
	if id, err := tables.Setting(into, tables.IdKey); id != tables.IdFrom([]byte("sixteen bytes  1")) || err != nil {
		t.Errorf("the file is %q, %v", id, err)
	}
	sound(t, into)
}

// leaves returns the pages of a table, by the row that stands first in each.
func leaves(file []byte, name string) (all []uint32) {
	m := imageOf(file)
	for no := uint32(2); no <= m.Count(); no++ {
		if p, ok := m.Tree(no); ok && len(p.Records) > 0 && LooksLike(p.Kind, p.Records[0].Values) == name {
			all = append(all, no)
		}
	}
	return all
}

// page returns a page of a file, to be written to.
func page(file []byte, no uint32) []byte { return file[(no-1)*pageSize : no*pageSize] }

// answersOn counts the answers of a page.
func answersOn(file []byte, no uint32) int {
	p, _ := imageOf(file).Tree(no)
	return len(p.Records)
}

// root returns the page at which a table begins.
func root(t *testing.T, db *sql.DB, table string) (no uint32) {
	t.Helper()
	must(t, db.QueryRow("SELECT rootpage FROM sqlite_schema WHERE name = ?", table).Scan(&no))
	return no
}

// What is lost is what stood on the damaged page; it is counted by whatever still knows of it.
func TestWhatADamagedPageCosts(t *testing.T) {
	from := practised(t, 40)
	file := bytesOf(t, from)
	middle := leaves(file, "answers")[5]
	lost := answersOn(file, middle)
	last := slices.Max(leaves(file, "answers"))
	index := leaves(file, AnswerIDs)
	for _, c := range []struct {
		what string
		harm func(file []byte)
		want Rescued
	}{
		{"a page of answers", func(f []byte) { clear(page(f, middle)) }, Rescued{Answers: 40 - lost, Sessions: 1, Songs: 1, Lost: lost}},
		{"the head of a page of answers", func(f []byte) { clear(page(f, middle)[:8]) }, Rescued{Answers: 40, Sessions: 1, Songs: 1}},
		{"the list of cells of a page of answers", func(f []byte) { clear(page(f, middle)[8:10]) }, Rescued{Answers: 40, Sessions: 1, Songs: 1}},
		{"the root of the answers", func(f []byte) { clear(page(f, root(t, from, "answers"))) }, Rescued{Answers: 40, Sessions: 1, Songs: 1}},
		{"the root of the index", func(f []byte) { clear(page(f, root(t, from, AnswerIDs))) }, Rescued{Answers: 40, Sessions: 1, Songs: 1}},
		{"the roots of both", func(f []byte) { clear(page(f, root(t, from, "answers"))); clear(page(f, root(t, from, AnswerIDs))) }, Rescued{Answers: 40, Sessions: 1, Songs: 1, AtLeast: true}},
		{"the first page", func(f []byte) { clear(page(f, 1)) }, Rescued{Answers: 40, Sessions: 1, Songs: 1, AtLeast: true}},
		{"the first page, the last answers and what their index knew of them", func(f []byte) {
			for _, no := range append(index[:len(index):len(index)], 1, last) {
				if no != root(t, from, AnswerIDs) { // which knows a few
					clear(page(f, no))
				}
			}
		}, Rescued{Answers: 40 - answersOn(file, last), Sessions: 1, Songs: 1, AtLeast: true}},
		{"the sessions", func(f []byte) { clear(page(f, root(t, from, "sessions"))) }, Rescued{Answers: 40, Songs: 1}},
		{"the songs", func(f []byte) { clear(page(f, root(t, from, "songs"))) }, Rescued{Answers: 40, Sessions: 1}},
		{"the items", func(f []byte) { clear(page(f, root(t, from, "items"))) }, Rescued{Answers: 40, Sessions: 1, Songs: 1}}, // their index knows them
		{"the index of items", func(f []byte) { clear(page(f, root(t, from, ItemIDs))) }, Rescued{Answers: 40, Sessions: 1, Songs: 1}},
		{"the answers' root in the place of a page of answers", func(f []byte) { copy(page(f, middle), page(f, root(t, from, "answers"))) }, Rescued{Answers: 40 - lost, Sessions: 1, Songs: 1, Lost: lost}},
		{"the sessions in the place of a page of answers", func(f []byte) { copy(page(f, middle), page(f, root(t, from, "sessions"))) }, Rescued{Answers: 40 - lost, Sessions: 1, Songs: 1, Lost: lost}},
	} {
		bad := bytes.Clone(file)
		c.harm(bad)
		got, into := pour(t, imageOf(bad))
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", c.what, got, c.want)
		}
		whole := map[[16]byte]tables.AnswerRow{}
		for _, k := range answersIn(t, from) {
			whole[k.ID] = k
		}
		for _, k := range answersIn(t, into) {
			if diff := cmp.Diff(whole[k.ID], k); diff != "" {
				t.Errorf("%s: made up or changed: %s", c.what, diff)
			}
		}
		sound(t, into)
	}
}

// A log that is broken off may have held more.
func TestALogThatIsTornMayHaveHeldMore(t *testing.T) {
	m := imageOf(bytesOf(t, practised(t, 2)))
	m.Log.Torn = true
	if got, _ := pour(t, m); got != (Rescued{Answers: 2, Sessions: 1, Songs: 1, AtLeast: true}) {
		t.Errorf("%+v", got)
	}
}

// What was taken away on purpose does not come back when the rest is rescued.
func TestWhatWasTakenAwayStaysAway(t *testing.T) {
	from := practised(t, 60)
	_, err := from.Exec("DELETE FROM answers WHERE n BETWEEN 10 AND 50")
	must(t, err)
	file := bytesOf(t, from)
	free := binary.BigEndian.Uint32(file[36:]) // SQLite file format, section 1.3: pages that are not in use
	if free < 10 {
		t.Fatalf("%d free pages", free)
	}
	clear(page(file, root(t, from, "sessions"))) // so that the pages that were not met are looked at
	s := salvaged(imageOf(file))
	if len(s.free) != int(free) {
		t.Errorf("%d free pages are known, want %d", len(s.free), free)
	}
	got, _ := pour(t, imageOf(file))
	if got != (Rescued{Answers: 19, Songs: 1}) {
		t.Errorf("%+v", got)
	}
}

// A row that strayed into another table's tree is passed over, and those behind it are taken.
func TestRowsThatStrayedIntoAnotherTable(t *testing.T) {
	stray := pages.Record{N: 1, Values: []any{[]byte("stray")}}
	s := salvaged(imageOf(bytesOf(t, practised(t, 3))))
	for name, rows := range s.rows {
		s.rows[name] = append([]pages.Record{stray}, rows...)
	}
	into := empty(t, len(tables.Migrations))
	must(t, tables.Write(into, func(tx *sql.Tx) error { return errors.Join(s.pourSessions(tx), s.pourSongs(tx)) }))
	for table, want := range map[string]int{"sessions": 1, "songs": 1, "settings": 2} {
		if rows := rowsIn(t, into, "'a row') FROM "+table); len(rows) != want {
			t.Errorf("%d %s, want %d", len(rows), table, want)
		}
	}
	names, others := s.items()
	if len(names) != 2 || len(others) != 2 {
		t.Errorf("%d and %d names of items", len(names), len(others))
	}
	if answers, least := s.total(); answers != 3 || least {
		t.Errorf("%d answers, at least %v", answers, least)
	}
}

// A row whose seal is broken is taken away, and those behind it stay.
func TestOnlyBrokenRowsAreTakenAway(t *testing.T) {
	from := practised(t, 1)
	for _, id := range []string{"a", "z"} { // around the one that is broken
		s, song := monday, blues
		s.Id, song.ID, song.Song = id, "kept-"+id, id
		addSession(t, from, s)
		must(t, tables.Write(from, func(tx *sql.Tx) error { return errors.Join(tables.KeepSong(tx, song), tables.KeepSetting(tx, id, "x")) }))
	}
	for _, harm := range []string{"UPDATE sessions SET minutes = 3 WHERE id = 'monday'", "UPDATE songs SET chart = 'G' WHERE song = 'blues'", "UPDATE settings SET value = 'y' WHERE key = 'voice'"} {
		_, err := from.Exec(harm)
		must(t, err)
	}
	got, into := pour(t, imageOf(bytesOf(t, from)))
	if want := (Rescued{Answers: 1, Sessions: 2, Songs: 2}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	if diff := cmp.Diff([]string{"a", "whose/id", "z"}, rowsIn(t, into, "key) FROM settings ORDER BY key")); diff != "" {
		t.Error(diff)
	}
}

// A file that rows cannot be written to, for want of a table, is an error.
func TestRescueWhereNothingCanBeWritten(t *testing.T) {
	m := imageOf(bytesOf(t, practised(t, 2)))
	for _, table := range []string{"settings", "items", "memory", "songs"} {
		into := empty(t, len(tables.Migrations))
		_, err := into.Exec("PRAGMA foreign_keys = OFF; DROP TABLE " + table)
		must(t, err)
		if err := tables.Write(into, func(tx *sql.Tx) error {
			_, err := Pour(tx, m)
			return err
		}); err == nil {
			t.Errorf("without %s: no error", table)
		}
	}
}

// A broken row that cannot be taken away again is an error, so that it is not kept as if it were whole.
func TestRescueWhereNothingCanBeTakenAway(t *testing.T) {
	from := practised(t, 1)
	for table, harm := range map[string]string{
		"sessions": "UPDATE sessions SET minutes = 3",
		"songs":    "UPDATE songs SET chart = 'G'",
		"settings": "UPDATE settings SET value = 'y' WHERE key = 'voice'",
	} {
		_, err := from.Exec(harm)
		must(t, err)
		into := empty(t, len(tables.Migrations))
		_, err = into.Exec("CREATE TRIGGER held BEFORE DELETE ON " + table + " BEGIN SELECT RAISE(ABORT, 'held'); END")
		must(t, err)
		if err := tables.Write(into, func(tx *sql.Tx) error {
			_, err := Pour(tx, imageOf(bytesOf(t, from)))
			return err
		}); err == nil || !strings.Contains(err.Error(), "held") {
			t.Errorf("%s: %v", table, err)
		}
	}
}
