package store

import (
	"bytes"
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// evergreen is a song of which every field says something.
var evergreen = progress.Song{Chart: "title: Evergreen\ntempo: 96\n\n| C | Am |\tF | G7 |", Tuning: "ukulele", Rich: 7, Shapes: "C=0003>0203 G7=0212", Sounds: "by-bars"}

func kept(t *testing.T, f *File, s progress.Song) progress.Song {
	t.Helper()
	out, err := f.KeepSong(s)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func songs(t *testing.T, f *File) []progress.Song {
	t.Helper()
	all, err := f.Songs()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// Every field of a song comes back as it was kept, after the file was closed as well; a song that is kept again is one song.
func TestSongsAreKept(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	first := kept(t, f, evergreen)
	want := evergreen
	want.ID, want.Song, want.At = first.ID, first.ID, evening.UTC()
	f.Close()
	f = openAt(t, path, evening.Add(time.Hour))
	if diff := cmp.Diff([]progress.Song{want}, songs(t, f)); diff != "" || first.ID == "" {
		t.Fatal(diff)
	}
	changed := want
	changed.Chart, changed.Rich, changed.Shapes, changed.Sounds, changed.Tuning = "| D |\r\n| A\a |", 0, "", "plain", "guitar"
	again := kept(t, f, changed)
	if again.Song != first.Song || again.ID == first.ID {
		t.Errorf("%+v", again)
	}
	changed.ID, changed.At, changed.Chart = again.ID, evening.Add(time.Hour).UTC(), "| D |\n| A |"
	other := kept(t, f, progress.Song{Chart: "| E |"})
	if got := songs(t, f); len(got) != 2 || !cmp.Equal(got[0], changed) && !cmp.Equal(got[1], changed) {
		t.Errorf("%+v", got)
	}
	var rows int
	if err := f.db.QueryRow("SELECT count(*) FROM songs").Scan(&rows); err != nil || rows != 2 {
		t.Errorf("%d rows, %v", rows, err)
	}
	other.Chart = ""
	kept(t, f, other)
	if got := songs(t, f); len(got) != 1 || got[0].Song != first.Song {
		t.Errorf("%+v", got)
	}
	sound(t, f, 0)
	if h, err := f.Check(); err != nil || h.Songs != 1 {
		t.Errorf("%+v, %v", h, err)
	}
}

// What was kept later holds even where the clock was put back, and not what was kept longest.
func TestTheLatestSongHolds(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening.AddDate(1, 0, 0))
	s := kept(t, f, evergreen)
	f.Close()
	f = openAt(t, path, evening)
	s.Rich = 2
	kept(t, f, s)
	if got := songs(t, f); len(got) != 1 || got[0].Rich != 2 {
		t.Errorf("%+v", got)
	}
}

func TestSongsThatAreNotKept(t *testing.T) {
	f := inMemory(t, evening)
	for says, s := range map[string]progress.Song{
		"the chart has 24577 bytes, and 24576 are kept": {Chart: strings.Repeat("C", progress.LongestChart+1)},
		"rich is 11; it is 0 to 10":                     {Chart: "C", Rich: 11},
		"rich is -1":                                    {Chart: "C", Rich: -1},
		"tuning is a line of 0 to 1000 bytes":           {Chart: "C", Tuning: "a\nb"},
		"shapes is a line of 0 to 1000 bytes":           {Chart: "C", Shapes: strings.Repeat("C", 1001)},
		"sounds is a line":                              {Chart: "C", Sounds: "\x1b"},
		"song is a line of 1 to 1000 bytes":             {Chart: "C", Song: "\a"},
	} {
		if _, err := f.KeepSong(s); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%v, want %q", err, says)
		}
	}
	if got := songs(t, f); got != nil {
		t.Errorf("%+v", got)
	}
	kept(t, f, progress.Song{Chart: strings.Repeat(`"`, progress.LongestChart)})
	var b bytes.Buffer
	if err := f.ExportJSON(&b); err != nil {
		t.Fatal(err)
	}
	takeIn(t, inMemory(t, later), "the longest", b.String())
}

// A file of the version before songs is brought up to date, with all that is in it.
func TestFilesFromBeforeSongs(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 3, 1, 2, 2)
	version := 0
	for n, step := range tables.Migrations {
		if strings.Contains(step, "CREATE TABLE songs") {
			version = n
		}
	}
	err := f.change(func(tx *sql.Tx) error {
		_, err := tx.Exec(backTo(version))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	f.Close()
	f = openAt(t, path, later)
	sound(t, f, 2)
	if got := songs(t, f); got != nil {
		t.Errorf("%+v", got)
	}
	kept(t, f, evergreen)
	f.Close()
	f = openAt(t, path, later)
	if got := songs(t, f); len(got) != 1 {
		t.Errorf("%+v", got)
	}
	if copies := CopiesOf(path); len(copies) == 0 {
		t.Error("no copy was made before")
	}
}

// Two machines that take in each other's exports have the same songs, the latest of each; undo gives back what was there.
func TestSongsGoToAnotherMachine(t *testing.T) {
	exported := func(f *File) string {
		var b bytes.Buffer
		if err := f.ExportJSON(&b); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	here, there := inMemory(t, evening), inMemory(t, later)
	s := kept(t, here, evergreen)
	if got := takeIn(t, there, "here", exported(here)); got.Songs != 1 {
		t.Fatalf("%+v", got)
	}
	if diff := cmp.Diff(songs(t, here), songs(t, there)); diff != "" {
		t.Fatal(diff)
	}
	if got := takeIn(t, there, "here again", exported(here)); got.Songs != 0 || got.ID != "" {
		t.Errorf("%+v", got)
	}
	s.Rich = 3
	kept(t, there, s)
	if got := takeIn(t, there, "what is older", exported(here)); got.Songs != 0 {
		t.Errorf("%+v", got)
	}
	takeIn(t, here, "there", exported(there))
	if diff := cmp.Diff(songs(t, there), songs(t, here)); diff != "" || songs(t, here)[0].Rich != 3 {
		t.Fatal(diff)
	}
	sound(t, here, 0)
	if undone := takeBack(t, here); undone.Songs != 1 {
		t.Errorf("%+v", undone)
	}
	if got := songs(t, here); len(got) != 1 || got[0].Rich != evergreen.Rich {
		t.Errorf("%+v", got)
	}
	sound(t, here, 0)
}

// A line of an export says what is wrong with a song, and nothing is taken in.
func TestSongsOfExportsAreRefusedByTheirField(t *testing.T) {
	good := `{"kind":"song","id":"a","song":"b","at":"2026-03-04T18:30:00.000Z","chart":"| C |","tuning":"ukulele","rich":5,"shapes":"","sounds":"path"}`
	f := inMemory(t, later)
	if got := takeIn(t, f, "good", good); got.Songs != 1 {
		t.Fatalf("%+v", got)
	}
	for _, row := range [][3]string{
		{`"id":"a",`, ``, "id is missing"}, {`"song":"b",`, ``, "song is missing"}, {`"chart":"| C |",`, ``, "chart is missing"},
		{`"tuning":"ukulele",`, ``, "tuning is missing"}, {`"shapes":"",`, ``, "shapes is missing"}, {`"rich":5,`, ``, "rich is missing"},
		{`"at":"2026-03-04T18:30:00.000Z",`, ``, "at is missing"}, {`,"sounds":"path"`, ``, "sounds is missing"},
		{`"rich":5`, `"rich":"5"`, "rich is a whole number"}, {`"rich":5`, `"rich":11`, "rich is 11; it is 0 to 10"},
		{`"at":"2026`, `"at":"X026`, "at is a time"}, {`"song":"b"`, `"song":""`, "song is a line"}, {`| C |`, `| D |`, "another than the song which is kept under the id a"},
		{`"song":"b"`, `"song":"c"`, "the id a is that of another song"},
	} {
		bad := strings.Replace(good, row[0], row[1], 1)
		if _, err := f.Import(strings.NewReader(bad), exchange.Taking{Means: func(string) bool { return true }, Other: true}); err == nil || !strings.Contains(err.Error(), row[2]) {
			t.Errorf("%s: %v, want %q", bad, err, row[2])
		}
	}
}

// A song that is no longer what was written is found, and the others are rescued.
func TestDamagedSongs(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 3, 1, 2, 2)
	long := evergreen
	long.Chart += strings.Repeat("\n| C | F |", 1000) // longer than a page
	kept(t, f, long)
	bad := kept(t, f, progress.Song{Chart: "| B |"})
	f.Close()
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	for _, field := range []string{"song = 'x'", "at = 5", "chart = 'x'", "tuning = 'x'", "rich = 9", "shapes = 'x'", "sounds = 'x'", "import = 'x'", "seal = 5"} {
		if _, err := db.Exec("SAVEPOINT s; UPDATE songs SET "+field+" WHERE id = ?", bad.ID); err != nil {
			t.Fatal(err)
		}
		says, err := tables.BrokenRows(db)
		if err != nil || len(says) != 1 || says[0] != "a song is not what was written" {
			t.Errorf("%s: %q, %v", field, says, err)
		}
		if field == "seal = 5" {
			break
		}
		if _, err := db.Exec("ROLLBACK TO s; RELEASE s"); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := db.Exec("RELEASE s; PRAGMA wal_checkpoint(TRUNCATE)"); err != nil {
		t.Fatal(err)
	}
	db.Close()
	got, err := Rescue(path, path+".new", clockAt(later))
	if err != nil || got.Songs != 1 || got.Answers != 2 {
		t.Errorf("%+v, %v", got, err)
	}
	f = openAt(t, path+".new", later)
	if all := songs(t, f); len(all) != 1 || all[0].Chart != long.Chart {
		t.Errorf("%d songs", len(all))
	}
	if err := os.WriteFile(path+".whole", whole, 0o600); err != nil {
		t.Fatal(err)
	}
	if got, err := Rescue(path+".whole", path+".again", clockAt(later)); err != nil || got.Songs != 2 {
		t.Errorf("%+v, %v", got, err)
	}
}

// A file that is gone back to an earlier copy keeps the songs of both.
func TestRestoringKeepsSongs(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, evening)
	practised(t, f, 3, 1, 2, 2)
	s := kept(t, f, evergreen)
	if _, err := f.Backup(); err != nil {
		t.Fatal(err)
	}
	s.Rich = 1
	kept(t, f, s)
	kept(t, f, progress.Song{Chart: "| B |"})
	f.Close()
	if _, err := Restore(path, "", clockAt(later)); err != nil {
		t.Fatal(err)
	}
	f = openAt(t, path, later)
	got := songs(t, f)
	if len(got) != 2 || got[0].Rich+got[1].Rich != 1 {
		t.Errorf("%+v", got)
	}
}
