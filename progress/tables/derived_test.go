package tables

import (
	"context"
	"database/sql"
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/memory"
)

// days gives answers on days after the evening, one each; each answer is to another of three items.
func days(after ...int) (all []AnswerRow) {
	for i, day := range after {
		k := answer(i)
		k.At = evening.AddDate(0, 0, day)
		k.Day = progress.DayOf(k.At)
		k.Item = []string{"spell/major", "spell/minor", "spell/sus4"}[i%3]
		if i%2 == 0 {
			k.Result, k.TakenFor = progress.Right, ""
		}
		all = append(all, k)
	}
	return all
}

func derived(t *testing.T, from Reader) *memory.Derived {
	t.Helper()
	d, err := LoadDerived(from, AllWeeks(0))
	must(t, err)
	return d
}

// checked returns what Check finds in a file.
func checked(t *testing.T, db *sql.DB) (h Health) {
	t.Helper()
	must(t, Read(db, h.Check))
	return h
}

// What is derived answer by answer is what is derived from the first answer on, also where a clock was wrong.
func TestWhatIsDerivedFollowsFromTheAnswers(t *testing.T) {
	for what, c := range map[string]struct {
		days    []int
		doubted []int64
	}{
		"days in a row":             {[]int{0, 0, 1, 2, 8, 9, 15}, nil},
		"a clock a year ahead":      {[]int{0, 1, 400, 2, 3, 4}, []int64{3}},
		"a clock that began anew":   {[]int{0, 1, -20000, 2}, []int64{3}}, // 1950 is no date that a clock was set to
		"a clock that was put back": {[]int{400, 0, 1, 2, 3}, []int64{1}},
	} {
		db := file(t)
		keep(t, db, days(c.days...)...)
		before := derived(t, db)
		same(t, what+": doubted", c.doubted, before.Doubted)
		if h := checked(t, db); h.Stale || len(h.Damaged) > 0 || h.Answers != len(c.days) {
			t.Errorf("%s: %+v", what, h)
		}
		write(t, db, Rebuild)
		if !derived(t, db).Same(before) {
			t.Errorf("%s: made again it is something else", what)
		}
		if len(before.Memory) == 0 || len(before.Weeks) == 0 || len(before.Pace) == 0 {
			t.Errorf("%s: %+v", what, before)
		}
	}
}

// Where what is derived was changed, Check says so and Rebuild mends it.
func TestChangedTablesAreStale(t *testing.T) {
	for _, harm := range []string{
		"UPDATE memory SET stability = stability + 1", "UPDATE memory SET run = run + 1", "UPDATE weeks SET asked = asked + 1", "UPDATE weeks SET guessed = 9", "UPDATE mistakes SET times = 9",
		"UPDATE pace SET took = '[7]'", "UPDATE pace SET cycle = '[7]'", "UPDATE pace SET took = '[7'", "UPDATE foretold SET tenth = 10 WHERE tenth = (SELECT max(tenth) FROM foretold)", "UPDATE foretold SET tenth = -1 WHERE tenth = (SELECT max(tenth) FROM foretold)", "UPDATE foretold SET held = 99",
		"INSERT INTO doubts VALUES (2)", "DELETE FROM memory", "DELETE FROM foretold",
	} {
		db := file(t)
		keep(t, db, days(0, 1, 2, 3, 4, 5)...)
		exec(t, db, harm)
		if h := checked(t, db); !h.Stale {
			t.Errorf("%s: %+v", harm, h)
		}
		write(t, db, Rebuild)
		if h := checked(t, db); h.Stale {
			t.Errorf("%s: it was not mended", harm)
		}
	}
	db := file(t)
	keep(t, db, days(0, 1, 2)...)
	exec(t, db, "UPDATE pace SET took = '[7'")
	if _, err := LoadDerived(db, 0); !errors.Is(err, ErrJunk) {
		t.Errorf("junk: %v", err)
	}
	exec(t, db, "DROP TABLE pace")
	if _, err := LoadDerived(db, 0); err == nil || errors.Is(err, ErrJunk) {
		t.Errorf("no table: %v", err)
	}
}

// Only the weeks that are asked for are read.
func TestWeeksFromOneOn(t *testing.T) {
	db := file(t)
	keep(t, db, days(0, 7, 14)...)
	week := progress.DayOf(evening).Week()
	for from, want := range map[int]int{week: 3, week + 1: 2, week + 2: 1, week + 3: 0} {
		d, err := LoadDerived(db, from)
		if must(t, err); len(d.Weeks) != want {
			t.Errorf("from %d on: %d weeks, want %d", from-week, len(d.Weeks), want)
		}
	}
}

// A session goes on from its last answer, unless answers came after it that are doubted.
func TestWhenTheLastAnswerWasGiven(t *testing.T) {
	db := file(t)
	if d := derived(t, db); d.LastIn != "" || !d.LastAt.IsZero() {
		t.Errorf("%q, %s", d.LastIn, d.LastAt)
	}
	keep(t, db, days(0, 1)...)
	if d := derived(t, db); d.LastIn != "monday" || !d.LastAt.Equal(evening.AddDate(0, 0, 1)) {
		t.Errorf("%q, %s", d.LastIn, d.LastAt)
	}
	exec(t, db, "INSERT INTO doubts VALUES (2)")
	if d := derived(t, db); d.LastIn != "monday" || !d.LastAt.IsZero() {
		t.Errorf("after a doubted one: %q, %s", d.LastIn, d.LastAt)
	}
	exec(t, db, "UPDATE answers SET session = 'tuesday' WHERE n = 2")
	if d := derived(t, db); d.LastIn != "monday" || !d.LastAt.Equal(evening) {
		t.Errorf("after one of another session: %q, %s", d.LastIn, d.LastAt)
	}
}

// A clock that is behind what was answered is doubted, or the answers are, whichever stands against more.
func TestWhatTheClockSaysIsJudged(t *testing.T) {
	for what, c := range map[string]struct {
		days          []int
		now           time.Time
		doubted, anew bool
		last          int // days after the evening; -1 if none is known
	}{
		"nothing was answered":     {nil, evening, false, false, -1},
		"a clock of 1970":          {[]int{0, 1}, time.Unix(5, 0).UTC(), true, false, 1},
		"1970, and nothing yet":    {nil, time.Unix(5, 0).UTC(), true, false, -1},
		"a clock that goes on":     {[]int{0, 1}, evening.AddDate(0, 0, 2), false, false, 1},
		"a clock a day behind":     {[]int{0, 1}, evening, false, false, 1},
		"a clock a week behind":    {[]int{0, 1, 2}, evening.AddDate(0, 0, -7), true, false, 2},
		"answers a year ahead":     {[]int{0, 1, 400}, evening.AddDate(0, 0, 2), false, true, 1},
		"one that is doubted last": {[]int{0, 1, 400, 2, 3, 400}, evening.AddDate(0, 0, 4), false, true, 3},
	} {
		db := file(t)
		keep(t, db, days(c.days...)...)
		d, p, err := DerivedNow(db, c.now, func(today progress.Day) int { return today.Week() - 1000 })
		must(t, err)
		if p.Doubted != c.doubted || p.Anew != c.anew || p.Last.Known != (c.last >= 0) || p.Last.Known && (!p.Last.At.Equal(evening.AddDate(0, 0, c.last)) || p.Last.Day != progress.DayOf(evening)+progress.Day(c.last)) {
			t.Errorf("%s: %+v", what, p)
		}
		if asked := 0; true {
			for _, w := range d.Weeks {
				asked += w.Asked
			}
			if c.anew && asked != c.last+1 {
				t.Errorf("%s: %d answers count", what, asked)
			}
		}
	}
}

// What was foretold is read by ear and by eye apart, from the first tenth to the last; what lies in none is no row of ours.
func TestWhatWasForetoldIsRead(t *testing.T) {
	db := file(t)
	exec(t, db, "INSERT INTO foretold VALUES (1, 0, 3, 2, 0.2), (0, 0, 5, 1, 0.3), (0, 9, 7, 6, 6.5)")
	d := derived(t, db)
	same(t, "by ear", memory.Foretold{Asked: 3, Right: 2, Sum: 0.2}, d.ByEar[0])
	same(t, "by eye", memory.Foretold{Asked: 5, Right: 1, Sum: 0.3}, d.ByEye[0])
	same(t, "by eye, surely", memory.Foretold{Asked: 7, Right: 6, Sum: 6.5}, d.ByEye[9])
	for _, tenth := range []int{-1, 10} {
		db := file(t)
		exec(t, db, "INSERT INTO foretold VALUES (1, ?, 3, 2, 0.2)", tenth)
		if _, err := LoadDerived(db, AllWeeks(0)); !errors.Is(err, ErrJunk) || !strings.HasPrefix(err.Error(), ErrJunk.Error()+": ") {
			t.Errorf("tenth %d: %v", tenth, err)
		}
	}
}

// Sessions of doubted answers are doubted, and one whose clock was put right began when it was.
func TestSessionsOfAWrongClock(t *testing.T) {
	db := file(t)
	given := days(0, 1, 400, 400, 2, 3)
	for i, session := range []string{"a", "b", "wrong", "b", "c", "d"} { // the clock went wrong before the last answer of b
		given[i].Session = session
	}
	right := answer(90)
	right.Session, right.At, right.Day = "1970", evening.AddDate(0, 0, 4), progress.DayOf(evening.AddDate(0, 0, 4))
	keep(t, db, append(given, right)...)
	runs, err := DoubtsAnew(db)
	must(t, err)
	all := []progress.Session{{ID: "a", Began: evening}, {ID: "b", Began: evening.AddDate(0, 0, 1)}, {ID: "wrong", Began: evening.AddDate(0, 0, 400)}, {ID: "1970", Began: time.Unix(5, 0)}, {ID: "empty", Began: time.Unix(5, 0)}}
	must(t, MarkDoubted(db, runs, all))
	same(t, "sessions", []progress.Session{{ID: "a", Began: evening}, {ID: "b", Began: evening.AddDate(0, 0, 1)}, {ID: "wrong", Began: evening.AddDate(0, 0, 400), Doubted: true}, {ID: "1970", Began: right.At}, {ID: "empty", Began: time.Unix(5, 0), Doubted: true}}, all)
	all = []progress.Session{{ID: "wrong", Began: evening.AddDate(0, 0, 400)}} // one run of a wrong clock is enough
	must(t, MarkDoubted(db, runs, all))
	if len(runs.Spans) != 1 || !all[0].Doubted {
		t.Errorf("%d runs, %+v", len(runs.Spans), all[0])
	}
	all = []progress.Session{{ID: "a", Began: evening}}
	must(t, MarkDoubted(db, clock.Doubts{}, all))
	if all[0].Doubted {
		t.Error("doubted without a reason")
	}
}

// Answers that come in stand where their time is, each history in its own order; of equal times the lesser id is first.
func TestAnswersAreInterleaved(t *testing.T) {
	for what, c := range map[string]struct {
		here, there []int // minutes of the evening
		want        string
	}{
		"one after the other": {[]int{1, 2}, []int{3, 4}, "1 2 3 4"},
		"the other way round": {[]int{3, 4}, []int{1, 2}, "1 2 3 4"},
		"in turns":            {[]int{1, 3, 5}, []int{2, 4, 6}, "1 2 3 4 5 6"},
		"nothing here":        {nil, []int{2, 1}, "2 1"},
		"nothing there":       {[]int{2, 1}, nil, "2 1"},
	} {
		db := file(t)
		for _, n := range append(c.here, c.there...) {
			k := answer(n)
			k.At = evening.AddDate(0, 0, n) // a day each
			keep(t, db, k)
		}
		write(t, db, func(tx *sql.Tx) error { return Interleave(tx, int64(len(c.here)), nil, evening.AddDate(1, 0, 0)) })
		same(t, what, c.want, minutes(t, db))
	}
	db := file(t)
	for _, n := range []int{2, 1} {
		k := answer(n)
		k.At = evening
		keep(t, db, k)
	}
	write(t, db, func(tx *sql.Tx) error { return Interleave(tx, 1, nil, evening) })
	same(t, "at one moment", "1 2", minutes(t, db))
	db = file(t)
	for _, n := range []int{1, 3, 2} { // the later two came in; the first of these was given before what was here
		k := answer(n)
		k.At = evening.Add(time.Duration(map[int]int{1: 10, 3: 5, 2: 20}[n]) * time.Minute)
		keep(t, db, k)
	}
	write(t, db, func(tx *sql.Tx) error { return Interleave(tx, 1, nil, evening) })
	same(t, "by their times, whatever their ids", "3 1 2", minutes(t, db))
	// What came holds an answer that was there already, without a number; it takes none of another.
	db = file(t)
	var came []clock.Arrival
	for n := range 3 {
		k := answer(n + 1)
		k.At = evening.AddDate(0, 0, n)
		keep(t, db, k)
		came = append(came, clock.Arrival{N: int64(n + 1), At: k.At.UnixMilli(), Id: k.ID})
	}
	came[0].N = 0
	write(t, db, func(tx *sql.Tx) error { return Interleave(tx, 1, came, evening.AddDate(1, 0, 0)) })
	same(t, "one that was there", "1 2 3", minutes(t, db))
}

// minutes lists the answers of a file by the number in their ids, in their order.
func minutes(t *testing.T, db *sql.DB) string {
	t.Helper()
	var all []string
	n := int64(0)
	must(t, Answers(db, func(k AnswerRow) error {
		if n++; k.N != n {
			t.Errorf("answer %d has the number %d", n, k.N)
		}
		all = append(all, strings.TrimLeft(string(k.ID[7:]), "0"))
		return nil
	}))
	return strings.Join(all, " ")
}

// Weights that were fitted are kept with how many answers there were, unless others were kept meanwhile.
func TestFittedWeightsAreKept(t *testing.T) {
	db := file(t)
	for _, k := range days(0, 1, 400, 2, 3) {
		k.Voice, k.Replays = "", 0 // weights are of what is seen
		keep(t, db, k)
	}
	state := func(wantTried int) {
		t.Helper()
		if answers, tried, err := FitState(db); answers != 5 || tried != wantTried || err != nil {
			t.Errorf("%d answers, %d tried, %v; want %d", answers, tried, err, wantTried)
		}
	}
	state(0)
	fitted, w, err := Samples(db)
	must(t, err)
	same(t, "weights of nobody", memory.StartWeights, w)
	if len(fitted.All) != 4 { // one of the five is doubted
		t.Errorf("weights are fitted to %d answers", len(fitted.All))
	}
	own := memory.StartWeights
	for i := range 4 { // what the first answer to an item is worth
		own[i] *= 3
	}
	if !own.Sensible() {
		t.Fatal("the weights are not sensible")
	}
	stability := derived(t, db).Memory["spell/minor"].Stability
	for _, c := range []struct {
		answers   int
		before, w memory.Weights
		better    bool
		tried     int
		now       memory.Weights
	}{
		{3, memory.StartWeights, memory.StartWeights, false, 3, memory.StartWeights},
		{4, own, own, true, 3, memory.StartWeights}, // they were fitted to others than there are
		{5, memory.StartWeights, own, true, 5, own},
		{2, memory.StartWeights, memory.StartWeights, true, 5, own},
	} {
		write(t, db, func(tx *sql.Tx) error { return KeepFit(tx, c.answers, c.before, c.w, c.better) })
		state(c.tried)
		if text := listed(t, db, "weights", "fit")[0]; (text == "") != (c.now == memory.StartWeights) { // a later program may begin with others
			t.Errorf("weights that everybody begins with are kept as %q", text)
		}
		_, w, err := Samples(db)
		must(t, err)
		same(t, "weights", c.now, w)
		same(t, "weights of what is derived", c.now, derived(t, db).Weights)
		if h := checked(t, db); h.Stale {
			t.Errorf("after %d answers it is stale", c.answers)
		}
	}
	if derived(t, db).Memory["spell/minor"].Stability == stability {
		t.Error("other weights changed nothing")
	}
	for _, text := range []string{"[1, 2", "[1, 2]"} {
		exec(t, db, "UPDATE fit SET weights = ?", text)
		same(t, "weights that make no sense", memory.StartWeights, derived(t, db).Weights)
	}
}

// Weights are fitted to answers graded as they were when they were given: by the times that the drill had taken until then.
func TestWhatWeightsAreFittedToIsGraded(t *testing.T) {
	db := file(t)
	d, want := memory.NewDerived(memory.StartWeights), memory.Samples{}
	for n, seconds := range []int{4, 4, 4, 4, 4, 4, 60, 1, 4} {
		k := answer(n)
		k.Voice, k.Replays, k.Hints, k.Result, k.TakenFor, k.Took = "", 0, 0, progress.Right, "", time.Duration(seconds)*time.Second
		keep(t, db, k)
		want.Add(d, k.Answer, k.Day)
		d.Add(k.Answer, k.Day)
	}
	got, _, err := Samples(db)
	must(t, err)
	if !reflect.DeepEqual(want.All, got.All) {
		t.Errorf("%+v, want %+v", got.All, want.All)
	}
}

// Weights that cannot be written are an error, and those before stay.
func TestWeightsThatAreNoNumbers(t *testing.T) {
	db := file(t)
	none := memory.StartWeights
	none[0] = math.NaN()
	if err := Write(db, func(tx *sql.Tx) error { return KeepFit(tx, 5, memory.StartWeights, none, true) }); err == nil {
		t.Error("they were kept")
	}
	same(t, "kept", nil, listed(t, db, "answers, weights", "fit"))
}

// An answer on the day of the one before is doubted as that is; a later one on a day that is believed is not, and one that is too
// early contests what was believed.
func TestAnAnswerIsDoubtedAsTheOneBefore(t *testing.T) {
	db := file(t)
	keep(t, db, days(0, 1, 2, 3, -300)...)
	for what, c := range map[string]struct {
		at                 time.Time
		doubted, contested bool
	}{
		"of the same run as a doubted one":  {evening.AddDate(0, 0, -300).Add(time.Hour), true, false},
		"a day later than what is believed": {evening.AddDate(0, 0, 4), false, false},
		"long before what is believed":      {evening.AddDate(0, 0, -30), false, true},
		"of no date":                        {time.Unix(5, 0), true, false},
	} {
		must(t, Read(db, func(tx *sql.Tx) error {
			doubted, contested, err := doubtful(tx, c.at)
			if doubted != c.doubted || contested != c.contested || err != nil {
				t.Errorf("%s: doubted %v, contested %v, %v", what, doubted, contested, err)
			}
			return nil
		}))
	}
}

// What Check finds is told in one line, the first and how many more.
func TestHealthInOneLine(t *testing.T) {
	for _, c := range []struct {
		damaged []string
		want    string
	}{{nil, ""}, {[]string{"a page"}, "the file is damaged: a page"}, {[]string{"a page", "b", "c"}, "the file is damaged: a page, and 2 more"}} {
		err := Health{Damaged: c.damaged}.Err()
		if c.want == "" && err != nil || c.want != "" && (err == nil || err.Error() != c.want || !errors.Is(err, progress.ErrDamaged)) {
			t.Errorf("%v, want %q", err, c.want)
		}
	}
	db := file(t)
	keep(t, db, days(0, 1)...)
	exec(t, db, "INSERT INTO sessions (id, began, minutes) VALUES ('monday', 1, 10)")
	addSong(t, db, NewSongRow(blues, ""))
	same(t, "a sound file", Health{Answers: 2, Sessions: 1, Songs: 1, Items: 2}, checked(t, db))
	for harm, want := range map[string]string{
		"UPDATE answers SET given = 'x' WHERE n = 2": "an answer of 2026-03-05 is not what was written",
		"UPDATE songs SET chart = 'x'":               "a song is not what was written",
		"UPDATE answers SET id = X'01' WHERE n = 2":  "an answer has the id 01",
		"DELETE FROM items WHERE id = 'spell/major'": "answers speaks of an item that is not there",
		"PRAGMA ignore_check_constraints = ON; UPDATE answers SET result = 7; PRAGMA ignore_check_constraints = OFF": "CHECK constraint failed in answers",
	} {
		db := file(t)
		keep(t, db, days(0, 1)...)
		addSong(t, db, NewSongRow(blues, ""))
		exec(t, db, "PRAGMA foreign_keys = OFF; "+harm)
		if h := checked(t, db); !slices.Contains(h.Damaged, want) {
			t.Errorf("%s: %v, want %s", harm, h.Damaged, want)
		}
	}
}

// What is damaged is not judged further, and a fault that is no damage is an error.
func TestWhatIsDamageAndWhatIsNot(t *testing.T) {
	db := file(t)
	keep(t, db, days(0, 1)...)
	exec(t, db, "UPDATE answers SET result = 2; UPDATE items SET drill = 'tell'")
	if h := checked(t, db); len(h.Damaged) != 2 || h.Stale || h.Misfiled != nil {
		t.Errorf("%+v", h)
	}
	_, broken := db.Exec("no SQL")
	rubbish := filepath.Join(t.TempDir(), "progress.db")
	must(t, os.WriteFile(rubbish, []byte(strings.Repeat("rubbish ", 1000)), 0o600))
	other := NewConnector(rubbish).Open()
	defer other.Close()
	_, damaged := other.Exec("SELECT count(*) FROM sqlite_schema")
	for _, c := range []struct {
		err, want error
		says      []string
	}{
		{nil, nil, nil}, {broken, broken, nil}, {damaged, nil, []string{"a page of it cannot be read"}},
		{progress.Damaged("a %s", "leaf"), nil, []string{"a leaf"}}, {errors.New("no number"), nil, []string{"a row of it cannot be read"}},
	} {
		var h Health
		if got := h.orDamaged(c.err); got != c.want || !slices.Equal(h.Damaged, c.says) {
			t.Errorf("%v: %v, %v", c.err, got, h.Damaged)
		}
	}
}

// The first answer of a file is not doubted, nor is anything judged anew for it; one of 1970 is doubted by itself.
func TestTheFirstAnswerIsBelieved(t *testing.T) {
	for at, want := range map[time.Time]bool{evening: false, time.Unix(5, 0): true} {
		if doubted, contested, err := doubtful(file(t), at); doubted != want || contested || err != nil {
			t.Errorf("%s: doubted %v, contested %v, %v", at, doubted, contested, err)
		}
	}
}

// Faults of SQLite are told in plain words, and others as they are.
func TestFaultsInPlainWords(t *testing.T) {
	other := errors.New("something else")
	if Plain(other) != other || Plain(nil) != nil || IsOfSQLite(other) {
		t.Error("an error that is none of SQLite was changed")
	}
	if err := junk(other); !errors.Is(err, ErrJunk) || !errors.Is(err, other) {
		t.Error(err)
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "progress.db")
	for what, c := range map[string]struct {
		bytes     []byte
		connector func(string) *Connector
		do        string
		want      string
	}{
		"rubbish":             {[]byte(strings.Repeat("rubbish ", 1000)), NewConnector, "SELECT count(*) FROM sqlite_schema", progress.ErrDamaged.Error()},
		"what is only read":   {[]byte{}, NewStillConnector, "CREATE TABLE letters (text)", "the file or its folder may not be written to"},
		"what is not there":   {nil, NewConnector, "CREATE TABLE letters (text)", "the file cannot be opened for writing"},
		"what has no room":    {[]byte{}, NewConnector, "PRAGMA max_page_count = 2; CREATE TABLE a (x); CREATE TABLE b (x)", "the disk is full; nothing was changed"},
		"what stays as it is": {[]byte{}, NewConnector, "no SQL", ""},
	} {
		os.Remove(path)
		if c.bytes != nil {
			must(t, os.WriteFile(path, c.bytes, 0o600))
		}
		db := c.connector(path).Open()
		_, err := db.Exec(c.do)
		db.Close()
		if err == nil || c.want != "" && (Plain(err).Error() != c.want || !IsOfSQLite(err)) || c.want == "" && Plain(err) != err || junk(err) != err {
			t.Errorf("%s: %v", what, err)
		}
	}
}

// A file lies behind the links that lead to it; nothing need be there yet, and a circle is told.
func TestWhereAFileReallyLies(t *testing.T) {
	folder, err := filepath.EvalSymlinks(t.TempDir())
	must(t, err)
	at := func(name string) string { return filepath.Join(folder, name) }
	for _, link := range [][2]string{{"file.db", "near"}, {at("near"), "far"}, {"circle", "circle"}} {
		if err := os.Symlink(link[0], at(link[1])); err != nil {
			t.Skip("no links here:", err)
		}
	}
	for _, name := range []string{"file.db", "near", "far"} {
		if got, err := Resolve(at(name)); got != at("file.db") || err != nil {
			t.Errorf("%s: %s, %v", name, got, err)
		}
	}
	if _, err := Resolve(at("circle")); err == nil || !strings.Contains(err.Error(), "a circle of symbolic links") {
		t.Error(err)
	}
}

// A database on the disk is waited for, synced, and not trusted; one in memory may begin with what it is given.
func TestPlaces(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a file?#.db")
	must(t, os.WriteFile(path, nil, 0o600))
	db := NewConnector(path).Open()
	defer db.Close()
	for pragma, want := range map[string]int{"busy_timeout": 10000, "synchronous": 2, "foreign_keys": 1, "trusted_schema": 0, "cell_size_check": 1} {
		var got int
		if err := db.QueryRow("PRAGMA " + pragma).Scan(&got); got != want || err != nil {
			t.Errorf("%s is %d, %v, want %d", pragma, got, err, want)
		}
	}
	write(t, db, func(tx *sql.Tx) error { return Migrate(tx, 0, len(Migrations)) })
	c, err := db.Conn(context.Background())
	must(t, err)
	p := NewConnector("")
	must(t, c.Raw(func(c any) (err error) {
		p.Bytes, err = c.(interface{ Serialize() ([]byte, error) }).Serialize()
		return err
	}))
	c.Close()
	in := p.Open()
	defer in.Close()
	if version, err := Version(in); version != len(Migrations) || err != nil {
		t.Errorf("%d, %v", version, err)
	}
	if n := in.Stats().MaxOpenConnections; n != 1 {
		t.Errorf("%d connections", n)
	}
	if AllWeeks(0) != math.MinInt32 {
		t.Error(AllWeeks(0))
	}
}

// Where no answer was right there is a pace all the same, of no times.
func TestAPaceOfNoTimes(t *testing.T) {
	db := file(t)
	keep(t, db, answer(1))
	same(t, "pace", []string{"spell [] []"}, listed(t, db, "drill, took, cycle", "pace"))
	same(t, "times", "[5,7]", list([]int64{5, 7}))
}

// A table that is missing is an error for whoever reads or writes it, and never an empty one.
func TestAMissingTableIsAnError(t *testing.T) {
	first := func(progress.Day) int { return 0 }
	for table, deeds := range map[string]map[string]func(tx *sql.Tx) error{
		"doubts": {
			"present": func(tx *sql.Tx) error { _, err := Present(tx, evening); return err },
			"now":     func(tx *sql.Tx) error { _, _, err := DerivedNow(tx, evening, first); return err },
			"keep":    func(tx *sql.Tx) error { return Keep(tx, answer(9)) },
			"rebuild": Rebuild,
		},
		"songs": {
			"add":    func(tx *sql.Tx) error { _, err := NewSongRow(blues, "").Add(tx); return err },
			"keep":   func(tx *sql.Tx) error { return KeepSong(tx, blues) },
			"latest": func(tx *sql.Tx) error { _, err := LatestSongs(tx); return err },
			"broken": func(tx *sql.Tx) error { _, err := BrokenRows(tx); return err },
			"check":  func(tx *sql.Tx) error { var h Health; return h.Check(tx) },
		},
		"settings": {
			"whose":  func(tx *sql.Tx) error { _, err := WhoseIs(tx); return err },
			"give":   GiveID,
			"mine":   func(tx *sql.Tx) error { _, err := IsMine(tx, "x"); return err },
			"ids":    SettingsToIDs,
			"seal":   AddSeals,
			"broken": func(tx *sql.Tx) error { _, err := BrokenRows(tx); return err },
		},
		"sessions": {
			"all":    func(tx *sql.Tx) error { _, err := Sessions(tx); return err },
			"seal":   AddSeals,
			"broken": func(tx *sql.Tx) error { _, err := BrokenRows(tx); return err },
		},
		"fit": {
			"samples": func(tx *sql.Tx) error { _, _, err := Samples(tx); return err },
			"state":   func(tx *sql.Tx) error { _, _, err := FitState(tx); return err },
			"keep":    func(tx *sql.Tx) error { return KeepFit(tx, 1, memory.StartWeights, memory.StartWeights, false) },
			"rebuild": Rebuild,
		},
		"memory": {"keep": func(tx *sql.Tx) error { return Keep(tx, answer(9)) }, "rebuild": Rebuild, "file": RefileItems},
	} {
		for what, do := range deeds {
			db := file(t)
			keep(t, db, days(0, 1)...)
			exec(t, db, "PRAGMA foreign_keys = OFF; DROP TABLE "+table)
			if err := Write(db, do); err == nil {
				t.Errorf("%s without %s: no error", what, table)
			}
		}
	}
}
