package store

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"

	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/tables"
)

// carried is which settings go to other machines in these tests.
func carried(key string) progress.Carry {
	switch {
	case strings.HasPrefix(key, "met/") || strings.HasPrefix(key, "opened/"):
		return progress.Once
	case key == "tuning" || key == "hand":
		return progress.Newest
	}
	return progress.Stays
}

// machine is a machine of a student, with its own copy of the folder.
type machine struct {
	*File
	folder string
	host   string
	clock  *time.Time
	name   string // of its own file, as it was synced last
}

func newMachine(t testing.TB, host string) *machine {
	t.Helper()
	at := later
	f, err := InMemory(func() time.Time { return at })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	folder := t.TempDir()
	return &machine{f, folder, host, &at, ""}
}

// synced keeps a machine alike with what lies in its folder.
func (m *machine) synced(t testing.TB, other bool) Synced {
	t.Helper()
	done, err := m.sync(m.folder, SyncHow{Host: m.host, Carry: carried, Other: other})
	if err != nil {
		t.Fatalf("%s: %v", m.host, err)
	}
	m.name = done.Name
	return done
}

// quietly is synced where nothing is to be told.
func (m *machine) quietly(t testing.TB) Synced {
	t.Helper()
	done := m.synced(t, false)
	for _, f := range done.Files {
		if f.Err != nil || f.Copy || f.Stale {
			t.Errorf("%s: %+v", m.host, f)
		}
	}
	for _, u := range done.Unread {
		t.Errorf("%s: %+v", m.host, u)
	}
	return done
}

// carry copies a machine's own file to the others' folders, as a service does that is done.
func carry(t testing.TB, from *machine, to ...*machine) {
	t.Helper()
	bytes, err := os.ReadFile(filepath.Join(from.folder, from.name))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range to {
		if err := os.WriteFile(filepath.Join(m.folder, from.name), bytes, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}

// alike returns all that has to be the same on machines that are alike, a line each.
func alike(t testing.TB, f *File) (lines []string) {
	t.Helper()
	for _, query := range []string{
		"SELECT 'setting', key, value, '' FROM settings WHERE key IN ('tuning', 'hand', 'whose/name') OR key LIKE 'met/%' OR key LIKE 'opened/%' OR key LIKE 'undone/%' ORDER BY key",
		"SELECT DISTINCT 'mine', iif(key = 'whose/id', 'mine/' || value, key) AS whose, '', '' FROM settings WHERE key LIKE 'mine/%' OR key = 'whose/id' ORDER BY whose",
		"SELECT 'import', key, '', '' FROM settings WHERE key LIKE 'import/%' ORDER BY key",
		"SELECT 'song', id || ' ' || song, at || ' ' || chart, tuning || ' ' || rich || ' ' || shapes || ' ' || sounds FROM songs AS s WHERE NOT EXISTS (SELECT 1 FROM songs AS t WHERE t.song = s.song AND (t.at, t.id) > (s.at, s.id)) ORDER BY id", // what holds
		"SELECT 'session', id, began || ' ' || coalesce(ended, ''), minutes FROM sessions ORDER BY id",
	} {
		rows, err := f.db.Query(query)
		if err != nil {
			t.Fatal(err)
		}
		for rows.Next() {
			var a, b, c, d string
			if err := rows.Scan(&a, &b, &c, &d); err != nil {
				t.Fatal(err)
			}
			lines = append(lines, strings.TrimSpace(a+" "+b+" "+c+" "+d))
		}
	}
	err := tables.Answers(f.db, func(k tables.AnswerRow) error {
		k.N, k.Import, k.Under.Int64 = 0, "", 0
		lines = append(lines, fmt.Sprintf("answer %+v", k))
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return lines
}

// One machine practises, another goes on from it, both practise, and hold the same; whatever an answer and a session have
// arrives.
func TestTwoMachinesAreKeptAlike(t *testing.T) {
	desk, lap := newMachine(t, "desk"), newMachine(t, "lap")
	if done := desk.quietly(t); done.Wrote || done.Own != nil {
		t.Error("there is nothing to tell, and it was told")
	}
	practised(t, desk.File, 0, 2, 6, 1)
	if err := errors.Join(desk.SetName("Ann"), desk.SetSetting("tuning", "guitar"), desk.SetSetting("volume", "3"), desk.SetSetting("met/d/x/u", "yes")); err != nil {
		t.Fatal(err)
	}
	if done := desk.quietly(t); !done.Wrote || len(done.Files) != 0 || done.Name != exchange.MachineName(strings.TrimSuffix(strings.TrimPrefix(done.Name, "sparetone-"), ".jsonl.gz")) {
		t.Errorf("%+v", done)
	}
	carry(t, desk, lap)
	if done := lap.quietly(t); !done.WentOn || done.Whose != whose(t, desk.File) || done.Files[0].Answers != 12 || done.Files[0].Sessions != 2 {
		t.Errorf("%+v", done)
	}
	if w := whose(t, lap.File); w != whose(t, desk.File) || w.Name != "Ann" {
		t.Errorf("%+v", w)
	}
	if _, set, _ := lap.Setting("volume"); set {
		t.Error("what belongs to a machine was carried")
	}
	practised(t, lap.File, 3, 2, 5, 2)
	practised(t, desk.File, 2, 2, 4, 3) // between and beside those
	for range 2 {
		lap.quietly(t)
		desk.quietly(t)
		carry(t, lap, desk)
		carry(t, desk, lap)
	}
	if diff := cmp.Diff(alike(t, desk.File), alike(t, lap.File)); diff != "" {
		t.Error(diff)
	}
	for _, m := range []*machine{desk, lap} {
		sound(t, m.File, 30)
		if done := m.quietly(t); done.Wrote || len(done.Files) != 2 || done.Files[0].Answers+done.Files[1].Answers > 0 {
			t.Errorf("nothing is new, and %+v", done)
		}
	}
	names, _ := filepath.Glob(filepath.Join(desk.folder, "*"))
	if len(names) != 2 {
		t.Errorf("%v: want a file for each machine", names)
	}
}

// Each field of an answer and of a session is carried as it is.
func TestEveryFieldIsCarried(t *testing.T) {
	desk, lap := newMachine(t, "desk"), newMachine(t, "lap")
	began := time.Date(2026, 3, 4, 23, 30, 0, 123e6, time.UTC)
	base := progress.Answer{Session: "s", Item: "d/t/u", Drill: "d", At: began, Result: progress.Right}
	for _, change := range []func(*progress.Answer){
		func(*progress.Answer) {},
		func(a *progress.Answer) { a.Session = "" },
		func(a *progress.Answer) { a.Item, a.Drill = "e/t/u", "e" },
		func(a *progress.Answer) { a.Seed = 1<<64 - 1 },
		func(a *progress.Answer) { a.At = began.Add(time.Millisecond) },
		func(a *progress.Answer) { a.Question = "<q> & \u2028\"'" },
		func(a *progress.Answer) { a.Given = "=given" },
		func(a *progress.Answer) { a.Expected = "expected" },
		func(a *progress.Answer) { a.Result, a.TakenFor = progress.Partly, "d/other/u" },
		func(a *progress.Answer) { a.Result = progress.Wrong },
		func(a *progress.Answer) { a.Choices = 7 },
		func(a *progress.Answer) { a.Took = 1234 * time.Millisecond },
		func(a *progress.Answer) { a.Replays, a.Voice = 3, "soft" },
		func(a *progress.Answer) { a.Hints = 4 },
		func(a *progress.Answer) { a.Voice = "steel" },
		func(a *progress.Answer) { a.Rung = 5 },
		func(a *progress.Answer) { a.Lesson, a.Step = "monday", "2" },
		func(a *progress.Answer) { a.Played = true },
		func(a *progress.Answer) { a.Choices, a.Offered, a.Chosen = 2, "major|minor", 2 },
	} {
		a := base
		change(&a)
		if err := desk.Record(a); err != nil {
			t.Fatal(err)
		}
	}
	for _, s := range []progress.Session{{ID: "s", Began: began, Minutes: 150 * time.Second}, {ID: "open", Began: began.Add(time.Hour), Minutes: time.Hour}} {
		if err := desk.Begin(s); err != nil {
			t.Fatal(err)
		}
	}
	if err := desk.End("s", began.Add(time.Minute)); err != nil {
		t.Fatal(err)
	}
	song, err := desk.KeepSong(progress.Song{Chart: "title: \"Wet\" <socks>\n| C |\tF |", Tuning: "guitar", Rich: 7, Shapes: "C=5433", Sounds: "plain"})
	if err != nil {
		t.Fatal(err)
	}
	desk.quietly(t)
	carry(t, desk, lap)
	lap.quietly(t)
	want := alike(t, desk.File)
	if diff := cmp.Diff(want, alike(t, lap.File)); diff != "" || len(want) != 23 {
		t.Errorf("%d lines: %s", len(want), diff)
	}
	sound(t, lap.File, 19)
	// A session that ended since has ended everywhere; a song that was changed since is changed, and what it was is done with.
	if err := desk.End("open", began.Add(2*time.Hour)); err != nil {
		t.Fatal(err)
	}
	song.Chart = "| G |"
	if _, err := desk.KeepSong(song); err != nil {
		t.Fatal(err)
	}
	desk.quietly(t)
	carry(t, desk, lap)
	lap.quietly(t)
	if diff := cmp.Diff(alike(t, desk.File), alike(t, lap.File)); diff != "" {
		t.Error(diff)
	}
	if songs, err := lap.Songs(); err != nil || len(songs) != 1 || songs[0].Chart != "| G |" {
		t.Errorf("%+v, %v", songs, err)
	}
	sound(t, lap.File, 19)
}

// A setting that was chosen last holds, wherever that was, and whatever the clocks say once it is known; what a machine that
// joins has set gives way.
func TestTheLastChoiceHolds(t *testing.T) {
	desk, lap := newMachine(t, "desk"), newMachine(t, "lap")
	set := func(m *machine, key, value string) {
		t.Helper()
		if err := m.SetSetting(key, value); err != nil {
			t.Fatal(err)
		}
	}
	have := func(m *machine, key, want string) {
		t.Helper()
		if is, _, err := m.Setting(key); is != want || err != nil {
			t.Errorf("%s of %s is %q, %v, want %q", key, m.host, is, err, want)
		}
	}
	over := func(from, to *machine) {
		from.quietly(t)
		carry(t, from, to)
		to.quietly(t)
	}
	practised(t, desk.File, 0, 1, 1, 1)
	set(desk, "tuning", "guitar")
	set(lap, "tuning", "banjo")
	set(lap, "hand", "left")
	set(lap, "opened/third", "yes")
	*lap.clock = later.AddDate(10, 0, 0)
	over(desk, lap)
	have(lap, "tuning", "guitar")
	have(lap, "hand", "left")
	over(lap, desk)
	have(desk, "tuning", "guitar")
	have(desk, "hand", "left")
	have(desk, "opened/third", "yes")
	// The laptop's clock is ten years ahead; what is chosen later, knowing that, holds all the same.
	set(lap, "tuning", "baritone")
	over(lap, desk)
	have(desk, "tuning", "baritone")
	set(desk, "tuning", "guitar")
	over(desk, lap)
	have(lap, "tuning", "guitar")
	over(lap, desk)
	have(desk, "tuning", "guitar")
	// Of two that do not know of each other the later holds on both.
	*lap.clock = later.Add(time.Minute)
	set(desk, "hand", "right")
	set(lap, "hand", "both")
	desk.quietly(t)
	lap.quietly(t)
	carry(t, desk, lap)
	carry(t, lap, desk)
	desk.quietly(t)
	lap.quietly(t)
	have(desk, "hand", "both")
	have(lap, "hand", "both")
	// A name that is taken away is gone everywhere.
	if err := desk.SetName("Ann"); err != nil {
		t.Fatal(err)
	}
	over(desk, lap)
	if err := lap.SetName(""); err != nil {
		t.Fatal(err)
	}
	over(lap, desk)
	if w := whose(t, desk.File); w.Name != "" {
		t.Errorf("%+v", w)
	}
}

// What is torn, put together of two writings, or empty is said and taken when it is whole; a renamed copy is taken in; one that
// is older than what was taken in before is said.
func TestWhatIsNotWholeWaits(t *testing.T) {
	desk, lap := newMachine(t, "desk"), newMachine(t, "lap")
	practised(t, desk.File, 0, 1, 30, 1)
	name := desk.quietly(t).Name
	old := readWhole(t, filepath.Join(desk.folder, name))
	practised(t, desk.File, 1, 1, 30, 2)
	desk.quietly(t)
	whole := readWhole(t, filepath.Join(desk.folder, name))
	at := filepath.Join(lap.folder, name)
	for what, bytes := range map[string][]byte{
		"empty": {}, "cut short": whole[:len(whole)/2], "without its last byte": whole[:len(whole)-1], "noughts": make([]byte, len(whole)),
		"half new and half old":     slices.Concat(whole[:len(old)/2], old[len(old)/2:]),
		"half old and half new":     slices.Concat(old[:len(old)/2], whole[len(old)/2:]),
		"new over a longer one":     slices.Concat(old, whole[len(old):]),
		"twice":                     slices.Concat(whole, whole),
		"with noughts at its end":   slices.Concat(whole, make([]byte, 512)),
		"another byte in the midst": changedByte(whole, len(whole)/2),
	} {
		write(t, at, bytes)
		done := lap.synced(t, false)
		if len(done.Files) != 0 || len(done.Unread) != 1 || done.Unread[0].Name != name || !errors.Is(done.Unread[0].Err, exchange.ErrTorn) {
			t.Errorf("%s: %+v", what, done)
		}
	}
	write(t, at, whole)
	if done := lap.synced(t, false); done.Files[0].Answers != 60 || done.Files[0].Copy || done.Files[0].Stale {
		t.Errorf("%+v", done.Files[0])
	}
	write(t, at, old)
	copyName := strings.TrimSuffix(name, ".jsonl.gz") + " (conflicted copy 2026-03-04).jsonl.gz"
	practised(t, desk.File, 2, 1, 5, 3)
	desk.quietly(t)
	write(t, filepath.Join(lap.folder, copyName), readWhole(t, filepath.Join(desk.folder, name)))
	done := lap.synced(t, false)
	if len(done.Files) != 3 {
		t.Fatalf("%+v", done)
	}
	for _, f := range done.Files {
		switch {
		case f.Own:
		case f.File.Name == copyName && f.Copy && !f.Stale && f.Answers == 5:
		case f.File.Name == name && !f.Copy && f.Stale && f.Answers == 0:
		default:
			t.Errorf("%+v", f)
		}
	}
	sound(t, lap.File, 65)
	// Foreign files are told apart from torn ones; what is called otherwise, and what is hidden, is not looked at.
	for file, text := range map[string]string{"sparetone-notes.txt": "buy strings", "sparetone-x.jsonl.gz": "{}", "holiday.jsonl.gz": "x", "." + name: "x"} {
		write(t, filepath.Join(lap.folder, file), []byte(text))
	}
	done = lap.synced(t, false)
	if len(done.Unread) != 2 || !errors.Is(done.Unread[0].Err, exchange.ErrNoMachine) || !errors.Is(done.Unread[1].Err, exchange.ErrNoMachine) {
		t.Errorf("%+v", done.Unread)
	}
}

// changedByte returns bytes of which one is another.
func changedByte(all []byte, at int) []byte {
	all = slices.Clone(all)
	all[at] ^= 0x10
	return all
}

// Another student's file is refused by name; with the student's say it is taken in, and undo takes that back on every machine.
func TestAnotherStudentsFileIsRefused(t *testing.T) {
	ann, ben, third := newMachine(t, "ann"), newMachine(t, "ben"), newMachine(t, "third")
	practised(t, ann.File, 0, 1, 7, 1)
	practised(t, ben.File, 1, 1, 5, 2)
	if err := errors.Join(ann.SetName("Ann"), ben.SetName("Ben")); err != nil {
		t.Fatal(err)
	}
	ann.quietly(t)
	ben.quietly(t)
	carry(t, ben, ann)
	done := ann.synced(t, false)
	var refused []error
	for _, f := range done.Files {
		if !f.Own {
			refused = append(refused, f.Err)
		}
	}
	another := (*exchange.AnothersFile)(nil)
	if len(refused) != 1 || !errors.As(refused[0], &another) || another.Error() != "this is the practice of Ben and not yours, 5 answers; nothing of it was taken in" {
		t.Errorf("%v", refused)
	}
	sound(t, ann.File, 7)
	// An empty file cannot know which of them it is of, until it has a name.
	carry(t, ann, third)
	carry(t, ben, third)
	if _, err := third.sync(third.folder, SyncHow{Host: "third", Carry: carried}); !errors.Is(err, exchange.ErrSeveral) || !strings.Contains(err.Error(), "Ann, Ben") {
		t.Errorf("%v", err)
	}
	if err := third.SetName("Ann"); err != nil {
		t.Fatal(err)
	}
	third.synced(t, false)
	sound(t, third.File, 7)
	// As hers.
	if done := ann.synced(t, true); !slices.ContainsFunc(done.Files, func(f exchange.FileTaken) bool { return f.Joined && f.Answers == 5 }) {
		t.Errorf("%+v", done)
	}
	practised(t, ben.File, 2, 1, 3, 3)
	ben.synced(t, false)
	carry(t, ben, ann, third)
	ann.synced(t, false)
	sound(t, ann.File, 15)
	carry(t, ann, third)
	third.synced(t, false)
	sound(t, third.File, 15)
	if undone := takeBack(t, third.File); undone.Answers != 8 {
		t.Errorf("%+v", undone)
	}
	sound(t, third.File, 7)
	third.synced(t, false) // beside the file of another that still has it
	var back int
	if err := third.db.QueryRow("SELECT count(*) FROM sessions WHERE import <> '' AND import NOT IN (SELECT key FROM settings)").Scan(&back); err != nil || back != 0 {
		t.Errorf("%d sessions came back, %v", back, err)
	}
	carry(t, third, ann)
	if done := ann.synced(t, false); done.TakenBack != 1 {
		t.Errorf("%+v", done)
	}
	sound(t, ann.File, 7)
	if is, err := tables.IsMine(ann.db, whose(t, ben.File).ID); is || err != nil {
		t.Error("Ben's practice is still hers")
	}
}

// A song that was changed on one machine takes the place of what another had of it; nothing older stays there.
func TestAnOlderSongGoes(t *testing.T) {
	desk, lap := newMachine(t, "desk"), newMachine(t, "lap")
	practised(t, desk.File, 0, 1, 1, 1)
	song := kept(t, desk.File, evergreen)
	for _, chart := range []string{song.Chart, "| C | F |\n", "| C | G7 |\n"} {
		song.ID, song.Chart = "", chart
		*desk.clock = desk.clock.Add(time.Hour)
		kept(t, desk.File, song)
		desk.quietly(t)
		carry(t, desk, lap)
		lap.quietly(t)
		var rows int
		if err := lap.db.QueryRow("SELECT count(*) FROM songs").Scan(&rows); err != nil || rows != 1 {
			t.Errorf("%d rows, %v", rows, err)
		}
		if all := songs(t, lap.File); len(all) != 1 || all[0].Chart != chart {
			t.Errorf("%+v, want %q", all, chart)
		}
	}
}

// A copy of a progress file on another machine becomes a machine of its own: the two never write one file, be the other seen by
// where it lies or by what it wrote.
func TestACopyIsAnotherMachine(t *testing.T) {
	desk := newMachine(t, "desk")
	practised(t, desk.File, 0, 1, 5, 1)
	first := desk.quietly(t).Name
	copyOf := func(host string) *machine {
		path := filepath.Join(t.TempDir(), "copy.db")
		if err := desk.SaveAs(path); err != nil {
			t.Fatal(err)
		}
		m := newMachine(t, host)
		m.File = openAt(t, path, later)
		return m
	}
	elsewhere := copyOf("lap")
	carry(t, desk, elsewhere)
	if done := elsewhere.quietly(t); done.Name == first || !done.Wrote {
		t.Errorf("%+v", done)
	}
	// The same host and place, as where both are called so: a copy in memory of the same machine.
	twin := newMachine(t, "desk")
	state, _, err := desk.Setting(tables.AlikeKey)
	if err != nil {
		t.Fatal(err)
	}
	carry(t, desk, twin)
	twin.quietly(t)
	if err := twin.SetSetting(tables.AlikeKey, state); err != nil {
		t.Fatal(err)
	}
	practised(t, desk.File, 1, 1, 5, 2)
	desk.quietly(t)
	carry(t, desk, twin)
	if done := twin.quietly(t); done.Name == first || done.Files[0].Own {
		t.Errorf("%+v", done)
	}
	sound(t, twin.File, 10)
	if !bytes.Equal(readWhole(t, filepath.Join(twin.folder, first)), readWhole(t, filepath.Join(desk.folder, first))) {
		t.Error("another machine's file was written")
	}
	// An older version of one's own, as a service may bring back, is written over.
	old := readWhole(t, filepath.Join(desk.folder, first))
	practised(t, desk.File, 2, 1, 5, 3)
	desk.quietly(t)
	write(t, filepath.Join(desk.folder, first), old)
	if done := desk.synced(t, false); done.Name != first || !done.Wrote || !done.Files[0].Own || !done.Files[0].Stale {
		t.Errorf("%+v", done)
	}
	// So is one's own that was taken away.
	if err := os.Remove(filepath.Join(desk.folder, first)); err != nil {
		t.Fatal(err)
	}
	if done := desk.quietly(t); done.Name != first || !done.Wrote {
		t.Errorf("%+v", done)
	}
}

// What the interleavings are made of.
var ways = []string{"practise", "practise", "import", "import", "undo", "undo", "set", "meet", "name", "song", "sync", "sync", "sync", "carry", "carry", "tear", "splice", "conflict", "stale", "remove"}

// However two or three machines practise, import, take back, choose and are carried to each other, whole, torn, spliced, renamed,
// stale or not at all: in the end all hold the same answers, none twice and none lost.
//
//	SPARETONE_STUDY=1 go test -run Interleav -rapid.checks 500 -v ./progress/store
func TestInterleavedMachinesEndAlike(t *testing.T) {
	t.Parallel()
	if os.Getenv("SPARETONE_STUDY") == "" {
		was := flag.Lookup("rapid.checks").Value.String()
		defer flag.Set("rapid.checks", was)
		flag.Set("rapid.checks", "6")
	}
	var foreign []string
	for seed := range uint64(2) {
		f := named(t, fmt.Sprint("student ", seed), 0, 10+seed)
		export, _ := bothExports(t, f)
		foreign = append(foreign, export)
	}
	both := inMemory(t, later) // what is in one of these is in another as well
	takeIn(t, both, "0", foreign[0])
	takeIn(t, both, "1", foreign[1])
	foreign = append(foreign, allOf(t, both))
	runs, ops := 0, map[string]int{}
	rapid.Check(t, func(rt *rapid.T) {
		runs++
		interleave(t, rt, foreign, ops)
	})
	t.Logf("%d interleavings: %v", runs, ops)
	for _, way := range ways {
		if runs >= 100 && ops[way] == 0 {
			t.Errorf("no interleaving had %s in it", way)
		}
	}
}

// interleaved is a random course of events, and what has to come of it.
type interleaved struct {
	rt       *rapid.T
	machines []*machine
	at       time.Time
	own      map[string]bool            // answers that were given, by their seeds
	came     map[string]map[string]bool // answers that came by imports
	dead     map[string]bool            // imports that were taken back
	met      map[string]bool
	old      map[string][][]byte // earlier versions of files, by name
	other    bool
}

func interleave(t *testing.T, rt *rapid.T, foreign []string, ops map[string]int) {
	n := rapid.IntRange(2, 3).Draw(rt, "machines")
	w := &interleaved{rt: rt, at: later, own: map[string]bool{}, came: map[string]map[string]bool{}, dead: map[string]bool{}, met: map[string]bool{}, old: map[string][][]byte{}}
	w.other = rapid.Bool().Draw(rt, "practised before they were joined")
	for i := range n {
		w.machines = append(w.machines, newMachine(t, fmt.Sprint("machine", i)))
	}
	defer func() {
		for _, m := range w.machines {
			m.Close()
			os.RemoveAll(m.folder)
		}
	}()
	for i, m := range w.machines {
		if i == 0 || w.other {
			w.practise(t, m)
		}
		m.synced(t, w.other)
		if i == 0 {
			carry(t, m, w.machines[1:]...)
		}
	}
	for range rapid.IntRange(5, 40).Draw(rt, "events") {
		way := rapid.SampledFrom(ways).Draw(rt, "way")
		m := w.machines[rapid.IntRange(0, n-1).Draw(rt, "machine")]
		w.at = w.at.Add(time.Duration(rapid.IntRange(0, 100).Draw(rt, "minutes")) * time.Minute)
		if w.do(t, way, m, foreign) {
			ops[way]++
		}
	}
	// In the end everything is carried, and what is not whole is overwritten or gone.
	for range 3 {
		for _, m := range w.machines {
			name := m.synced(t, w.other).Name
			bytes := readWhole(t, filepath.Join(m.folder, name))
			for _, to := range w.machines {
				write(t, filepath.Join(to.folder, name), bytes)
			}
		}
	}
	first := alike(t, w.machines[0].File)
	for _, m := range w.machines[1:] {
		if diff := cmp.Diff(first, alike(t, m.File), cmpopts.IgnoreSliceElements(func(line string) bool { return w.other && strings.HasPrefix(line, "setting whose/name ") })); diff != "" {
			rt.Fatalf("%s is not as machine0: %s", m.host, diff)
		}
	}
	want := maps.Clone(w.own)
	for seed, tags := range w.came {
		for tag := range tags {
			want[seed] = want[seed] || !w.dead[tag]
		}
		if !want[seed] {
			delete(want, seed)
		}
	}
	has := map[string]bool{}
	for _, m := range w.machines {
		clear(has)
		if err := tables.Answers(m.db, func(k tables.AnswerRow) error {
			if has[fmt.Sprint(k.Seed)] {
				rt.Errorf("%s: %d is there twice", m.host, k.Seed)
			}
			has[fmt.Sprint(k.Seed)] = true
			return nil
		}); err != nil {
			rt.Fatal(err)
		}
		if diff := cmp.Diff(want, has); diff != "" {
			rt.Fatalf("%s: %s", m.host, diff)
		}
		h, err := m.Check()
		if err != nil || len(h.Damaged) > 0 || h.Stale {
			rt.Fatalf("%s: %+v, %v", m.host, h, err)
		}
		for key := range w.met {
			if _, is, err := m.Setting(key); !is || err != nil {
				rt.Errorf("%s: %s is not met, %v", m.host, key, err)
			}
		}
	}
}

// practise has a machine answer a little, at times beyond the end of a session.
func (w *interleaved) practise(t *testing.T, m *machine) {
	*m.clock = w.at
	id := progress.NewID()
	if err := m.Begin(progress.Session{ID: id, Began: w.at, Minutes: 10 * time.Minute}); err != nil {
		t.Fatal(err)
	}
	for i := range rapid.IntRange(0, 4).Draw(w.rt, "answers") {
		seed := uint64(len(w.own) + 1)
		w.own[fmt.Sprint(seed)] = true
		a := progress.Answer{Session: id, Item: fmt.Sprintf("d/%d/u", seed%5), Drill: "d", Seed: seed, At: w.at.Add(time.Duration(i) * time.Second), Result: progress.Result(1 + seed%3), Took: time.Second}
		if err := m.Record(a); err != nil {
			t.Fatal(err)
		}
	}
	if rapid.Bool().Draw(w.rt, "ends") {
		if err := m.End(id, w.at.Add(time.Minute)); err != nil {
			t.Fatal(err)
		}
	}
}

// do does something, and reports whether there was anything to do.
func (w *interleaved) do(t *testing.T, way string, m *machine, foreign []string) bool {
	*m.clock = w.at
	seeds := func(want func(k tables.AnswerRow) bool) (all []string) {
		if err := tables.Answers(m.db, func(k tables.AnswerRow) error {
			if want(k) {
				all = append(all, fmt.Sprint(k.Seed))
			}
			return nil
		}); err != nil {
			t.Fatal(err)
		}
		return all
	}
	switch way {
	case "practise":
		w.practise(t, m)
	case "import":
		got, err := m.Import(strings.NewReader(foreign[rapid.IntRange(0, len(foreign)-1).Draw(w.rt, "export")]), anything)
		if err != nil {
			w.rt.Fatal(err)
		}
		for _, seed := range seeds(func(k tables.AnswerRow) bool { return got.ID != "" && k.Import == got.ID }) {
			if w.came[seed] == nil {
				w.came[seed] = map[string]bool{}
			}
			w.came[seed][got.ID] = true
		}
		return got.ID != ""
	case "undo":
		undone, err := m.UndoImport()
		if errors.Is(err, ErrNoImport) {
			return false
		}
		if err != nil {
			w.rt.Fatal(err)
		}
		w.dead[undone.ID] = true
	case "set":
		return m.SetSetting(rapid.SampledFrom([]string{"tuning", "hand", "volume"}).Draw(w.rt, "key"), rapid.SampledFrom([]string{"a", "b", "c"}).Draw(w.rt, "value")) == nil
	case "meet":
		key := rapid.SampledFrom([]string{"met/", "opened/"}).Draw(w.rt, "key") + rapid.SampledFrom([]string{"x", "y", "z"}).Draw(w.rt, "what")
		w.met[key] = true
		return m.SetSetting(key, "yes") == nil
	case "song":
		_, err := m.KeepSong(progress.Song{Song: rapid.SampledFrom([]string{"one", "two"}).Draw(w.rt, "song"), Chart: rapid.SampledFrom([]string{"", "| C |", "| F |"}).Draw(w.rt, "chart"), Tuning: "ukulele"})
		return err == nil
	case "name":
		return m.SetName(rapid.SampledFrom([]string{"", "Ann", "Anna"}).Draw(w.rt, "name")) == nil
	case "sync":
		m.synced(t, w.other)
	default:
		return w.carry(t, way, m)
	}
	return true
}

// carry has something happen to a file of a machine's folder on its way to another's.
func (w *interleaved) carry(t *testing.T, way string, from *machine) bool {
	names, _ := filepath.Glob(filepath.Join(from.folder, "*"))
	if len(names) == 0 {
		return false
	}
	path := names[rapid.IntRange(0, len(names)-1).Draw(w.rt, "file")]
	name := filepath.Base(path)
	bytes := readWhole(t, path)
	to := w.machines[rapid.IntRange(0, len(w.machines)-1).Draw(w.rt, "to")]
	at := filepath.Join(to.folder, name)
	there, _ := os.ReadFile(at)
	old := w.old[name]
	w.old[name] = append(old, bytes)
	switch way {
	case "carry":
		write(t, at, bytes)
	case "tear":
		write(t, at, bytes[:rapid.IntRange(0, len(bytes)-min(1, len(bytes))).Draw(w.rt, "cut")])
	case "splice":
		cut := rapid.IntRange(0, min(len(there), len(bytes))).Draw(w.rt, "cut")
		write(t, at, slices.Concat(bytes[:cut], there[cut:]))
	case "conflict":
		write(t, strings.TrimSuffix(at, ".jsonl.gz")+" (conflicted copy).jsonl.gz", bytes)
	case "stale":
		if len(old) == 0 {
			return false
		}
		write(t, at, old[rapid.IntRange(0, len(old)-1).Draw(w.rt, "version")])
	case "remove":
		return os.Remove(at) == nil
	}
	return true
}
