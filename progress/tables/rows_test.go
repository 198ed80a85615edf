package tables

import (
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"sparetone/progress"

	"github.com/google/go-cmp/cmp"
)

var evening = time.Date(2026, 3, 4, 19, 0, 0, 0, time.UTC)

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
	db := NewConnector("").Open()
	t.Cleanup(func() { db.Close() })
	write(t, db, func(tx *sql.Tx) error { return Migrate(tx, 0, version) })
	return db
}

// file makes an empty progress file in memory.
func file(t *testing.T) *sql.DB {
	t.Helper()
	return empty(t, len(Migrations))
}

func write(t *testing.T, db *sql.DB, do func(tx *sql.Tx) error) {
	t.Helper()
	must(t, Write(db, do))
}

func exec(t *testing.T, db *sql.DB, query string, args ...any) {
	t.Helper()
	_, err := db.Exec(query, args...)
	must(t, err)
}

// answer returns an answer with something else in every field, given at a minute of the evening.
func answer(n int) AnswerRow {
	at := evening.Add(time.Duration(n) * time.Minute)
	k := AnswerRow{Day: progress.DayOf(at), Import: "import/1", Answer: progress.Answer{
		Session: "monday", Item: "spell/major", Drill: "spell", Seed: 1<<63 + uint64(n), At: at,
		Question: "Spell C.", Given: "C E♭ G", Expected: "C E G", TakenFor: "spell/minor", Result: progress.Wrong,
		Choices: 4, Took: 2501 * time.Millisecond, Replays: 1, Hints: 2, Voice: "soft", Rung: 3, Lesson: "lesson-1", Step: "first", Played: true, Offered: "major|minor|sus4|7", Chosen: 2}}
	copy(k.ID[:], fmt.Sprintf("answer %09d", n))
	return k
}

func keep(t *testing.T, db *sql.DB, answers ...AnswerRow) {
	t.Helper()
	for _, k := range answers {
		write(t, db, func(tx *sql.Tx) error { return Keep(tx, k) })
	}
}

// listed returns the rows of a query, the columns of each side by side.
func listed(t *testing.T, from Reader, columns, rest string) (all []string) {
	t.Helper()
	must(t, Each(from, "SELECT concat_ws(' ', "+columns+") FROM "+rest, nil, func(row *sql.Rows) error {
		var s string
		err := row.Scan(&s)
		all = append(all, s)
		return err
	}))
	return all
}

func same[T any](t *testing.T, what string, want, got T) {
	t.Helper()
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("%s: %s", what, diff)
	}
}

func TestAnAnswerIsReadAsItWasKept(t *testing.T) {
	db := file(t)
	bare := AnswerRow{ID: [16]byte{2}, Day: -3, Answer: progress.Answer{Item: "tell/sus4", Drill: "tell", Result: progress.Right, At: evening}}
	keep(t, db, answer(1), bare, answer(1)) // what is there is not kept again
	var got []AnswerRow
	must(t, Answers(db, func(k AnswerRow) error { got = append(got, k); return nil }))
	for i, want := range []AnswerRow{answer(1), bare} {
		want.N, want.Under = int64(i+1), sql.NullInt64{Int64: want.seal(), Valid: true}
		if i >= len(got) {
			t.Fatalf("%d answers", len(got))
		}
		same(t, fmt.Sprint("answer ", i+1), want, got[i])
		if fault := got[i].Fault(); fault != "" {
			t.Error(fault)
		}
	}
	if len(got) != 2 {
		t.Errorf("%d answers", len(got))
	}
	same(t, "items", []string{"spell/major spell", "spell/minor ", "tell/sus4 tell"}, listed(t, db, "id, drill", "items ORDER BY id"))
	same(t, "columns", []string{"3 1 4 import/1 lesson-1 first 1 major|minor|sus4|7 2", "0 0 0    0  0"}, listed(t, db, "rung, replays, choices, import, lesson, step, played, offered, chosen", "answers ORDER BY n"))
	for _, result := range []int{0, 4} { // nothing but wrong, partly and right
		if _, err := db.Exec("UPDATE answers SET result = ?", result); err == nil {
			t.Errorf("the result %d was taken", result)
		}
	}
}

// Answers are read in the order of their numbers, whatever their times, on a condition or not; an error of the reader ends it.
func TestAnswersAreReadInTheirOrder(t *testing.T) {
	db := file(t)
	keep(t, db, answer(3), answer(1), answer(2))
	read := func(where string, args ...any) (ids []string) {
		must(t, AnswersWhere(db, where, args, func(k AnswerRow) error { ids = append(ids, strings.TrimLeft(string(k.ID[7:]), "0")); return nil }))
		return ids
	}
	same(t, "all", []string{"3", "1", "2"}, read(""))
	same(t, "some", []string{"3", "2"}, read("WHERE at > ?", evening.Add(time.Minute).UnixMilli()))
	stop, met := errors.New("stop"), 0
	if err := Answers(db, func(AnswerRow) error { met++; return stop }); err != stop || met != 1 {
		t.Errorf("%v after %d", err, met)
	}
	exec(t, db, "UPDATE answers SET id = X'0102' WHERE n = 2")
	if err := Answers(db, func(AnswerRow) error { return nil }); !errors.Is(err, progress.ErrDamaged) || !strings.Contains(err.Error(), "0102") {
		t.Errorf("an id of two bytes: %v", err)
	}
}

// Whatever of an answer changes, its seal does; and its number, which an import changes, is not under it.
func TestEveryFieldOfAnAnswerIsSealed(t *testing.T) {
	seals := map[int64]string{answer(1).seal(): "nothing"}
	for what, change := range map[string]func(k *AnswerRow){
		"id": func(k *AnswerRow) { k.ID[15]++ }, "session": func(k *AnswerRow) { k.Session = "x" }, "item": func(k *AnswerRow) { k.Item = "x" },
		"drill": func(k *AnswerRow) { k.Drill = "x" }, "seed": func(k *AnswerRow) { k.Seed++ }, "at": func(k *AnswerRow) { k.At = k.At.Add(time.Millisecond) },
		"day": func(k *AnswerRow) { k.Day++ }, "question": func(k *AnswerRow) { k.Question = "x" }, "given": func(k *AnswerRow) { k.Given = "x" },
		"expected": func(k *AnswerRow) { k.Expected = "x" }, "taken for": func(k *AnswerRow) { k.TakenFor = "x" }, "result": func(k *AnswerRow) { k.Result++ },
		"took": func(k *AnswerRow) { k.Took += time.Millisecond }, "replays": func(k *AnswerRow) { k.Replays++ }, "hints": func(k *AnswerRow) { k.Hints++ },
		"voice": func(k *AnswerRow) { k.Voice = "x" }, "choices": func(k *AnswerRow) { k.Choices++ }, "import": func(k *AnswerRow) { k.Import = "x" },
		"rung": func(k *AnswerRow) { k.Rung++ }, "lesson": func(k *AnswerRow) { k.Lesson = "x" }, "step": func(k *AnswerRow) { k.Step = "x" },
		"played": func(k *AnswerRow) { k.Played = false }, "offered": func(k *AnswerRow) { k.Offered = "major|minor" }, "chosen": func(k *AnswerRow) { k.Chosen = 1 },
	} {
		k := answer(1)
		change(&k)
		if other, met := seals[k.seal()]; met {
			t.Errorf("another %s has the seal of another %s", what, other)
		}
		seals[k.seal()] = what
		k.Under = sql.NullInt64{Int64: answer(1).seal(), Valid: true}
		if got := k.Fault(); got != "an answer of 2026-03-04 is not what was written" {
			t.Errorf("another %s: %q", what, got)
		}
	}
	k := answer(1)
	k.N = 77
	if k.seal() != answer(1).seal() {
		t.Error("the number is under seal")
	}
	if k.Choices = 1; !strings.HasPrefix(k.Fault(), "choices is 1") { // no seal, and it cannot be
		t.Errorf("%q", k.Fault())
	}
	if k.Choices = 2; k.Fault() != "" {
		t.Errorf("%q", k.Fault())
	}
}

// The sums themselves stay what they are: files that are kept rest on them.
func TestSealsStayWhatTheyAre(t *testing.T) {
	// CRC-32C, reckoned bit by bit outside of this program, over each field's place, length and bytes: 00 05 voice 01 04 soft, and
	// 00 08 (-5 as 64 bits) 01 08 (0.25 as 64 bits) 02 02 é.
	for want, got := range map[int64]int64{0: SealOf(), 1115261909: SealOf("voice", "soft"), 1933840278: SealOf(int64(-5), 0.25, "é")} {
		if got != want {
			t.Errorf("%d, want %d", got, want)
		}
	}
	defer func() {
		if recover() == nil {
			t.Error("an int was sealed")
		}
	}()
	SealOf(5)
}

func TestBrokenSeals(t *testing.T) {
	for _, c := range []struct {
		seal sql.NullInt64
		want bool
	}{{sql.NullInt64{}, false}, {sql.NullInt64{Int64: 5, Valid: true}, false}, {sql.NullInt64{Int64: 6, Valid: true}, true}} {
		if Broken(c.seal, 5) != c.want {
			t.Errorf("%+v", c)
		}
	}
}

// An item keeps the drill it was first asked for; one that was only named by mistake has none until then.
func TestItemsKeepTheirDrill(t *testing.T) {
	db := file(t)
	write(t, db, func(tx *sql.Tx) error {
		for _, c := range []struct {
			asked   progress.Answer
			numbers int
			refused string
		}{
			{progress.Answer{Item: "spell/major", Drill: "spell", TakenFor: "spell/minor"}, 2, ""},
			{progress.Answer{Item: "spell/major", Drill: "spell"}, 1, ""},
			{progress.Answer{Item: "spell/major", Drill: "tell"}, 0, "spell/major belongs to the drill spell, not to tell"},
			{progress.Answer{Item: "spell/minor", Drill: "spell"}, 1, ""},
			{progress.Answer{Item: "spell/minor", Drill: "tell"}, 0, "spell/minor belongs to the drill spell, not to tell"},
			{progress.Answer{Item: "tell/sus4", Drill: "tell", TakenFor: "spell/minor"}, 2, ""},
		} {
			numbers, err := NameItems(tx, c.asked)
			if no := (Refused{}); len(numbers) != c.numbers || errors.As(err, &no) != (c.refused != "") || err != nil && err.Error() != c.refused {
				t.Errorf("%+v: %v, %v", c.asked, numbers, err)
			}
		}
		return nil
	})
	same(t, "items", []string{"spell/major spell", "spell/minor spell", "tell/sus4 tell"}, listed(t, db, "id, drill", "items ORDER BY id"))
}

// An item under a drill that is not its own is filed rightly, its answers are sealed as they now are, and no others.
func TestItemsAreFiledRightly(t *testing.T) {
	db := file(t)
	wrong, right := answer(1), answer(2)
	wrong.Drill, right.Item, right.TakenFor = "tell", "spell/sus4", ""
	keep(t, db, wrong, right)
	exec(t, db, "UPDATE answers SET seal = seal + 1 WHERE n = 2")
	var h Health
	exec(t, db, "UPDATE answers SET seal = seal - 1 WHERE n = 2")
	write(t, db, h.Check)
	same(t, "misfiled", []string{"spell/major"}, h.Misfiled)
	exec(t, db, "UPDATE answers SET seal = 17 WHERE n = 2")
	write(t, db, RefileItems)
	same(t, "items", []string{"spell/major spell", "spell/minor ", "spell/sus4 spell"}, listed(t, db, "id, drill", "items ORDER BY id"))
	faults := []string{}
	must(t, Answers(db, func(k AnswerRow) error { faults = append(faults, k.Drill+" "+k.Fault()); return nil }))
	same(t, "faults", []string{"spell ", "spell an answer of 2026-03-04 is not what was written"}, faults)
}

func TestASessionIsReadAsItWasKept(t *testing.T) {
	db := file(t)
	began := evening.UnixMilli()
	rows := []SessionRow{
		{Id: "b", Began: began, Ended: sql.NullInt64{Int64: began + 90_000, Valid: true}, Minutes: 10.5, By: "import/1"},
		{Id: "a", Began: began, Minutes: 5},
		{Id: "c", Began: began - 1000, Minutes: 0.25},
	}
	for _, s := range rows {
		exec(t, db, "INSERT INTO sessions (id, began, ended, minutes, import) VALUES (?, ?, ?, ?, ?)", s.Id, s.Began, s.Ended, s.Minutes, s.By)
	}
	write(t, db, func(tx *sql.Tx) error { return SealSessions(tx, "WHERE id <> ?", "c") })
	var got []SessionRow
	must(t, SessionRows(db, "ORDER BY id DESC", nil, func(s SessionRow) error { got = append(got, s); return nil }))
	for i := range rows[:2] {
		rows[i].Seal = sql.NullInt64{Int64: rows[i].Sum(), Valid: true}
	}
	same(t, "rows", []SessionRow{rows[2], rows[0], rows[1]}, got)
	all, err := Sessions(db) // of equal beginnings the lesser id is first
	must(t, err)
	same(t, "sessions", []progress.Session{
		{ID: "c", Began: evening.Add(-time.Second), Minutes: 15 * time.Second},
		{ID: "a", Began: evening, Minutes: 5 * time.Minute},
		{ID: "b", Began: evening, Ended: evening.Add(90 * time.Second), Minutes: 10*time.Minute + 30*time.Second},
	}, all)
	sum := rows[0].Sum()
	for what, change := range map[string]func(s *SessionRow){"id": func(s *SessionRow) { s.Id = "x" }, "began": func(s *SessionRow) { s.Began++ },
		"ended": func(s *SessionRow) { s.Ended.Int64++ }, "minutes": func(s *SessionRow) { s.Minutes++ }, "import": func(s *SessionRow) { s.By = "x" }} {
		s := rows[0]
		if change(&s); s.Sum() == sum {
			t.Errorf("%s is not under seal", what)
		}
	}
}

// blues is a song with something else in every field.
var blues = progress.Song{ID: "kept-1", Song: "blues", At: evening, Chart: "C7 F7", Tuning: "ukulele", Rich: 2, Shapes: "C7=0001", Sounds: "strum"}

func addSong(t *testing.T, db *sql.DB, s SongRow) (added bool) {
	t.Helper()
	write(t, db, func(tx *sql.Tx) (err error) { added, err = s.Add(tx); return err })
	return added
}

func TestASongIsReadAsItWasKept(t *testing.T) {
	db := file(t)
	row := NewSongRow(blues, "import/1")
	if !addSong(t, db, row) || addSong(t, db, row) {
		t.Error("a song is added once")
	}
	same(t, "columns", []string{"kept-1 blues 1772650800000 C7 F7 ukulele 2 C7=0001 strum import/1"},
		listed(t, db, "id, song, at, chart, tuning, rich, shapes, sounds, import", "songs"))
	got, there, err := LatestSong(db, "blues")
	if must(t, err); !there || !got.Whole() {
		t.Errorf("there %v, whole %v", there, got.Whole())
	}
	same(t, "written when", row.At, got.At)
	same(t, "song", blues, got.Kept())
	if _, there, err := LatestSong(db, "waltz"); there || err != nil {
		t.Errorf("%v, %v", there, err)
	}
	for what, change := range map[string]func(s *SongRow){"id": func(s *SongRow) { s.ID = "x" }, "song": func(s *SongRow) { s.Song.Song = "x" }, "at": func(s *SongRow) { s.At++ },
		"chart": func(s *SongRow) { s.Chart = "x" }, "tuning": func(s *SongRow) { s.Tuning = "x" }, "rich": func(s *SongRow) { s.Rich++ }, "shapes": func(s *SongRow) { s.Shapes = "x" },
		"sounds": func(s *SongRow) { s.Sounds = "x" }, "import": func(s *SongRow) { s.By = "x" }, "seal": func(s *SongRow) { s.Seal++ }} {
		s := row
		if change(&s); s.Whole() {
			t.Errorf("%s is not under seal", what)
		}
	}
}

// Of what was kept of a song the latest holds; of equal times, the one with the greater id.
func TestTheLatestOfASongHolds(t *testing.T) {
	db := file(t)
	for _, k := range []struct {
		id, song, chart string
		after           time.Duration
	}{{"b", "blues", "C7", 0}, {"a", "blues", "C", 0}, {"d", "waltz", "G", -2}, {"c", "waltz", "", -1}, {"e", "air", "D", time.Second}, {"f", "blues", "F", -time.Second}} {
		s := blues
		s.ID, s.Song, s.Chart, s.At = k.id, k.song, k.chart, evening.Add(k.after)
		if k.after > -time.Second {
			s.At = evening.Add(k.after * time.Millisecond)
		}
		addSong(t, db, NewSongRow(s, ""))
	}
	var order string
	must(t, SongRows(db, "", nil, func(s SongRow) error { order += s.ID; return nil }))
	same(t, "order", "fdcabe", order)
	latest, err := LatestSongs(db)
	must(t, err)
	order = ""
	for _, s := range latest {
		order += s.ID
	}
	same(t, "latest", "cbe", order)
	one, _, err := LatestSong(db, "blues")
	must(t, err)
	same(t, "blues", "b", one.ID)
	var count int
	must(t, SongsKept(db, &count))
	same(t, "songs that were not taken away", 2, count)
}

// A song that is kept here holds from then on, whatever the clocks say, and what was kept of it before is done with.
func TestASongThatIsKeptHereHolds(t *testing.T) {
	db := file(t)
	other := blues
	other.ID, other.Song = "other", "waltz"
	for _, k := range []struct {
		id   string
		at   time.Time
		want time.Time
	}{{"1", evening, evening}, {"2", evening.Add(-time.Hour), evening.Add(time.Millisecond)}, {"3", evening.Add(time.Millisecond), evening.Add(2 * time.Millisecond)},
		{"4", evening.Add(time.Hour), evening.Add(time.Hour)}, {"4", evening.Add(2 * time.Hour), evening.Add(time.Hour)}} {
		s := blues
		s.ID, s.At = k.id, k.at
		write(t, db, func(tx *sql.Tx) error { return errors.Join(KeepSong(tx, s), KeepSong(tx, other)) })
		got, _, err := LatestSong(db, "blues")
		must(t, err)
		if got.ID != k.id || !got.Kept().At.Equal(k.want) || !got.Whole() || got.By != "" {
			t.Errorf("%s: %+v", k.id, got)
		}
		same(t, "songs", []string{k.id, "other"}, listed(t, db, "id", "songs ORDER BY id"))
	}
}

func TestWhichFilesHaveSongs(t *testing.T) {
	for version, want := range map[int]bool{9: false, 10: true} {
		if has, err := HasSongs(empty(t, version)); has != want || err != nil {
			t.Errorf("version %d: %v, %v", version, has, err)
		}
	}
}

func TestSettings(t *testing.T) {
	db := file(t)
	for _, value := range []string{"soft", "bright", "", ""} {
		write(t, db, func(tx *sql.Tx) error { return SetOrClear(tx, "voice", value) })
		if got, err := Setting(db, "voice"); got != value || err != nil {
			t.Errorf("%q, %v, want %q", got, err, value)
		}
		if rows := listed(t, db, "key, value, seal", "settings"); value != "" {
			same(t, "rows", []string{fmt.Sprint("voice ", value, " ", SealOf("voice", value))}, rows)
		} else if rows != nil {
			t.Error(rows)
		}
	}
	exec(t, db, "DROP TABLE settings")
	if _, err := Setting(db, "voice"); err == nil {
		t.Error("no error")
	}
}

// Settings that were kept in words are kept as ids, each once.
func TestIDsOfSettingsInWords(t *testing.T) {
	for _, c := range [][3]string{
		{"hand", "right-handed", "right"}, {"hand", "left-handed", "left"}, {"hand", "left", "left"}, {"answer", "one key", "choose"}, {"answer", "typing", "type"},
		{"voice", "another each time", "any"}, {"voice", "left-handed", "left-handed"}, {"key", "C major", "C"}, {"key", "Bb minor", "Bbm"}, {"key", "any", "any"}, {"name", "A minor", "A minor"},
		{"level", "from the beginning", "ear=,eye="}, {"level", "major, minor and plain shapes are known", "ear=thirds,eye=thirds"},
		{"level", "sevenths and ninths are known", "ear=soft-sevenths,eye=soft-sevenths"}, {"level", "suspended and added notes are known", "ear=added-heard,eye=added-heard"},
		{"level", "by ear from the beginning, by eye from thirds", "ear=,eye=thirds"}, {"level", "by ear from thirds, by eye from the beginning", "ear=thirds,eye="},
		{"level", "by ear from thirds", "by ear from thirds"}, {"level", "x, by eye from thirds", "x, by eye from thirds"},
	} {
		if got := IdOfWords(c[0], c[1]); got != c[2] {
			t.Errorf("%s, %s: %s, want %s", c[0], c[1], got, c[2])
		}
	}
	db := file(t)
	write(t, db, func(tx *sql.Tx) error {
		return errors.Join(KeepSetting(tx, "hand", "left-handed"), KeepSetting(tx, "voice", "soft"), KeepSetting(tx, "answer", "typing"), KeepSetting(tx, "key", "C major"))
	})
	exec(t, db, "UPDATE settings SET seal = 5 WHERE key = 'answer'")
	exec(t, db, "UPDATE settings SET seal = NULL WHERE key = 'key'")
	write(t, db, SettingsToIDs)
	same(t, "settings", []string{
		"answer typing 5", // is not what was written, and stays, so that it is told
		fmt.Sprint("hand left ", SealOf("hand", "left")), fmt.Sprint("key C ", SealOf("key", "C")), fmt.Sprint("voice soft ", SealOf("voice", "soft")),
	}, listed(t, db, "key, value, seal", "settings ORDER BY key"))
}

// A file has one id: its own from the start, or the one that follows from its first answer.
func TestWhoseAFileIs(t *testing.T) {
	give := func(db *sql.DB) (id string) {
		write(t, db, GiveID)
		id, err := Setting(db, IdKey)
		must(t, err)
		return id
	}
	a, b, old := file(t), file(t), file(t)
	keep(t, old, answer(5), answer(1))
	idA, first := give(a), answer(5).ID
	if idA == "" || len(idA) != 26 || idA == give(b) || idA != give(a) {
		t.Errorf("%q", idA)
	}
	if got := give(old); got != IdFrom(first[:]) || len(got) != 26 {
		t.Errorf("%q, want %q", got, IdFrom(first[:]))
	}
	// Copies of older files know each other by it: SHA-256 in base 32, reckoned outside of this program.
	same(t, "id", "XMAQMW35VBQ5ZCQXXEZNEUDEG7", IdFrom([]byte("sixteen bytes  1")))
	write(t, a, func(tx *sql.Tx) error {
		return errors.Join(KeepSetting(tx, NameKey, "Ana"), KeepSetting(tx, MineKey+"OTHER", "1"))
	})
	w, err := WhoseIs(a)
	must(t, err)
	same(t, "whose", progress.Whose{ID: idA, Name: "Ana"}, w)
	for id, want := range map[string]bool{idA: true, "OTHER": true, "THIRD": false} {
		if mine, err := IsMine(a, id); mine != want || err != nil {
			t.Errorf("%s: %v, %v", id, mine, err)
		}
	}
}

// Each row without a seal gets one, and one that has a seal keeps it, be it broken.
func TestRowsWithoutASealAreSealed(t *testing.T) {
	db := file(t)
	keep(t, db, answer(1), answer(2))
	exec(t, db, "INSERT INTO sessions (id, began, minutes) VALUES ('a', 1, 1), ('b', 2, 1)")
	exec(t, db, "INSERT INTO settings (key, value) VALUES ('a', '1'), ('b', '2'), ('c', '3')")
	for _, harm := range []string{"UPDATE answers SET seal = NULL WHERE n = 1", "UPDATE answers SET seal = 5 WHERE n = 2", "UPDATE sessions SET seal = 5 WHERE id = 'b'", "UPDATE settings SET seal = 5 WHERE key = 'b'"} {
		exec(t, db, harm)
	}
	for range 2 {
		write(t, db, AddSeals)
		same(t, "answers", []string{fmt.Sprint(answer(1).seal()), "5"}, listed(t, db, "seal", "answers ORDER BY n"))
		same(t, "sessions", []string{fmt.Sprint(SessionRow{Id: "a", Began: 1, Minutes: 1}.Sum()), "5"}, listed(t, db, "seal", "sessions ORDER BY id"))
		same(t, "settings", []string{fmt.Sprint(SealOf("a", "1")), "5", fmt.Sprint(SealOf("c", "3"))}, listed(t, db, "seal", "settings ORDER BY key"))
	}
	row := NewSongRow(blues, "")
	row.Seal++
	addSong(t, db, row)
	says, err := BrokenRows(db)
	must(t, err)
	same(t, "broken", []string{"a session is not what was written", "a song is not what was written", "a setting is not what was written"}, says)
}

// An error ends Each, and what was written before an error is not kept.
func TestAnErrorEndsReadingAndWriting(t *testing.T) {
	db := file(t)
	exec(t, db, "INSERT INTO settings (key, value) VALUES ('a', '1'), ('b', '2')")
	stop, met := errors.New("stop"), 0
	if err := Each(db, "SELECT key FROM settings WHERE value > ?", []any{"0"}, func(*sql.Rows) error { met++; return stop }); err != stop || met != 1 {
		t.Errorf("%v after %d", err, met)
	}
	if err := Each(db, "SELECT mood FROM settings", nil, func(*sql.Rows) error { return nil }); err == nil {
		t.Error("no error of a query that is none")
	}
	if err := Write(db, func(tx *sql.Tx) error { return errors.Join(KeepSetting(tx, "c", "3"), stop) }); !errors.Is(err, stop) {
		t.Error(err)
	}
	must(t, Read(db, func(tx *sql.Tx) error {
		if c, err := Setting(tx, "c"); c != "" || err != nil {
			t.Errorf("%q, %v", c, err)
		}
		return nil
	}))
	if err := Read(db, func(*sql.Tx) error { return stop }); err != stop {
		t.Error(err)
	}
	write(t, db, func(tx *sql.Tx) error { return KeepSetting(tx, "c", "3") })
	same(t, "settings", []string{"a", "b", "c"}, listed(t, db, "key", "settings ORDER BY key"))
	db.Close()
	if Read(db, func(*sql.Tx) error { return nil }) == nil || Write(db, func(*sql.Tx) error { return nil }) == nil {
		t.Error("a closed file was read and written")
	}
}
