package store

import (
	"database/sql"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/clock"
	"sparetone/progress/exchange"
	"sparetone/progress/memory"
	"sparetone/progress/plan"
	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// clocked is a file on a machine whose clock says what it is told to, days counted from the evening of 4 March 2026.
type clocked struct {
	*File
	t     testing.TB
	clock *time.Time
}

// onDay is at half past six of a day.
func onDay(day int) time.Time { return evening.AddDate(0, 0, day) }

// daily counts days up.
func daily(from, to int) (days []int) {
	for d := from; d <= to; d++ {
		days = append(days, d)
	}
	return days
}

func newClocked(t testing.TB) clocked {
	t.Helper()
	at := evening
	f, err := InMemory(func() time.Time { return at })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return clocked{f, t, &at}
}

// practise practises on days, one session of three answers on each. What is asked follows from the place among the days,
// so that a file that leaves days out can be given the same with skip.
func (c clocked) practise(days []int, skip ...int) {
	c.t.Helper()
	for place, day := range days {
		if slices.Contains(skip, place) {
			continue
		}
		c.session(onDay(day), uint64(place))
	}
}

// session practises at a time. The seed says what is asked.
func (c clocked) session(at time.Time, seed uint64) {
	c.t.Helper()
	rng := rand.New(rand.NewPCG(seed, 3))
	*c.clock = at
	id := fmt.Sprintf("session-%d-%d", seed, at.Unix())
	if err := c.Begin(progress.Session{ID: id, Began: at, Minutes: 10 * time.Minute}); err != nil {
		c.t.Fatal(err)
	}
	for range 3 {
		*c.clock = c.clock.Add(12 * time.Second)
		a := progress.Answer{Session: id, Item: fmt.Sprintf("d/t%d/u", rng.IntN(5)), Drill: "d", Seed: rng.Uint64(), At: *c.clock,
			Result: progress.Result(1 + rng.IntN(3)), Took: time.Duration(2000+rng.IntN(4000)) * time.Millisecond, Choices: 5}
		if a.Result != progress.Right {
			a.TakenFor = fmt.Sprintf("d/t%d/u", rng.IntN(5))
		}
		if err := c.Record(a); err != nil {
			c.t.Fatalf("at %v: %v", at, err)
		}
	}
	if err := c.End(id, *c.clock); err != nil {
		c.t.Fatal(err)
	}
}

// doubtedAnswers counts them.
func (c clocked) doubtedAnswers() int {
	c.t.Helper()
	n, err := c.Doubted()
	if err != nil {
		c.t.Fatal(err)
	}
	return n
}

func (c clocked) standings() []memory.Standing {
	c.t.Helper()
	s, err := c.Standings()
	if err != nil {
		c.t.Fatal(err)
	}
	return s
}

// wrongClocks are histories of a clock that was wrong, in days of practice; those that are doubted by their place.
var wrongClocks = []struct {
	what    string
	days    []int
	doubted []int
}{
	{"ten years ahead for one session", append(daily(0, 6), 3650, 7, 8), []int{7}},
	{"ten years ahead for a week", slices.Concat(daily(0, 6), daily(3650, 3656), []int{14, 15}), daily(7, 13)},
	{"back to 1970", append(daily(0, 6), -20516, 7, 8), []int{7}},
	{"back to 2019", append(daily(0, 6), -2600, -2599, 9), []int{7, 8}},
	{"back to 2019 and still there", append(daily(0, 6), -2600), []int{7}},
	{"the year 12000", append(daily(0, 6), 3_642_000, 7, 8), []int{7}},
	{"long before Christ, from the first answer on", append([]int{-800_000, -800_000}, daily(0, 3)...), []int{0, 1}},
	{"1970 from the first answer on", append([]int{-20516, -20516}, daily(0, 3)...), []int{0, 1}},
	{"2036 from the first answer on", append([]int{3650, 3651}, daily(0, 3)...), []int{0, 1}},
	{"a summer time that came and went, and journeys", []int{0, 1, 2, 1, 2, 3}, nil},
}

// What was answered while the clock was wrong is kept, and moves nothing: all is as if it had not been answered.
func TestWhatAWrongClockSaidMovesNothing(t *testing.T) {
	for _, c := range wrongClocks {
		t.Run(c.what, func(t *testing.T) {
			all, believed := newClocked(t), newClocked(t)
			all.practise(c.days)
			believed.practise(c.days, c.doubted...)
			*believed.clock = *all.clock
			if got := all.doubtedAnswers(); got != 3*len(c.doubted) {
				t.Errorf("%d answers are doubted, want %d", got, 3*len(c.doubted))
			}
			if diff := cmp.Diff(believed.standings(), all.standings()); diff != "" && !slices.Contains(c.doubted, len(c.days)-1) {
				t.Error(diff)
			}
			sound(t, all.File, 3*len(c.days))
			if n := believed.doubtedAnswers(); n != 0 {
				t.Errorf("without them %d are doubted", n)
			}
			if diff := cmp.Diff(believed.derived(), all.derived()); diff != "" {
				t.Error(diff)
			}
			s, w, err := tables.Samples(all.db)
			if err != nil || len(s.All) != 3*(len(c.days)-len(c.doubted)) || w != memory.StartWeights {
				t.Errorf("the model is fitted to %d answers, %v", len(s.All), err)
			}
		})
	}
}

// derivedOf is what is derived in a file.
type derivedOf struct {
	Memory   map[string]memory.Memory
	Weeks    map[string]memory.Tally
	Mistakes map[string]int
	Pace     map[string]memory.Pace
}

func (c clocked) derived() derivedOf {
	c.t.Helper()
	d, err := tables.LoadDerived(c.db, tables.AllWeeks(0))
	if err != nil {
		c.t.Fatal(err)
	}
	o := derivedOf{d.Memory, map[string]memory.Tally{}, map[string]int{}, d.Pace}
	for k, v := range d.Weeks {
		o.Weeks[fmt.Sprint(k)] = v
	}
	for item, taken := range d.Mistakes {
		for m, n := range taken {
			o.Mistakes[fmt.Sprint(item, m)] = n
		}
	}
	return o
}

// One answer with a clock that is ten years ahead: once the clock is right again nothing is due in 2037, whether or not
// something was answered since, and the answer leaves no trace in what comes back when.
func TestAnAnswerTenYearsAheadIsNotDueInTenYears(t *testing.T) {
	const item = "d/t/u"
	c := newClocked(t)
	give := func(at time.Time) {
		t.Helper()
		*c.clock = at
		if err := c.Record(progress.Answer{Item: item, Drill: "d", At: at, Result: progress.Right, Took: 3 * time.Second}); err != nil {
			t.Fatal(err)
		}
	}
	due := func() time.Time {
		t.Helper()
		d, known, err := c.ComesBack(item)
		if err != nil || !known {
			t.Fatal(known, err)
		}
		return d
	}
	give(onDay(0))
	want := due()
	give(onDay(3650))
	if due().Year() < 2036 {
		t.Error("with nothing that speaks against it the clock is believed")
	}
	*c.clock = onDay(1)
	if got := due(); !got.Equal(want) {
		t.Errorf("back on the day after it is due %v, want %v", got, want)
	}
	if s := c.standings(); len(s) != 1 || s[0].Asked != 1 || !s[0].Due.Equal(want) || len(s[0].Weeks) != 1 {
		t.Errorf("%+v", s)
	}
	p, known, err := planFor(c.File, []plan.Candidate{{Item: item, Drill: "d"}}, time.Hour)
	if err != nil {
		t.Fatal(err)
	}
	if got := p.Today(want.Add(time.Hour)); got.Due != 1 || known.Memory[item].Asked != 1 {
		t.Errorf("%+v on the day it is due, %+v", got, known.Memory[item])
	}
	if n := c.doubtedAnswers(); n != 1 {
		t.Errorf("%d answers are doubted", n)
	}
	give(onDay(5))
	without := newClocked(t)
	for _, day := range []int{0, 5} {
		if err := without.Record(progress.Answer{Item: item, Drill: "d", At: onDay(day), Result: progress.Right, Took: 3 * time.Second}); err != nil {
			t.Fatal(err)
		}
	}
	*without.clock = *c.clock
	if diff := cmp.Diff(without.standings(), c.standings()); diff != "" {
		t.Error(diff)
	}
	sound(t, c.File, 3)
}

// One's own export comes back in, with all that was answered, whatever the clocks were and are, and says what is doubted.
func TestOnesOwnExportComesBack(t *testing.T) {
	t.Parallel()
	for _, c := range wrongClocks {
		t.Run(c.what, func(t *testing.T) {
			f := newClocked(t)
			f.practise(c.days)
			asJSON, asCSV := bothExports(t, f.File)
			if got := strings.Count(asJSON, `"doubted":true}`+"\n") - strings.Count(asJSON, `"kind":"session"`) + strings.Count(asJSON, `"minutes":10}`); got != 3*len(c.doubted) {
				t.Errorf("%d of the exported answers are doubted, want %d", got, 3*len(c.doubted))
			}
			if got := strings.Count(asCSV, ",true\n"); got != 3*len(c.doubted) {
				t.Errorf("%d rows are doubted, want %d", got, 3*len(c.doubted))
			}
			if got := strings.Count(asJSON, `"minutes":10,"doubted":true}`); got != len(c.doubted) {
				t.Errorf("%d sessions are doubted, want %d", got, len(c.doubted))
			}
			for what, clock := range map[string]time.Time{"the same clock": *f.clock, "1970": time.Unix(600, 0), "2019": onDay(-2600), "ten years on": onDay(3660), "the year 12000": onDay(3_642_000)} {
				for kind, export := range map[string]string{"JSON lines": asJSON, "CSV": asCSV} {
					g := newClocked(t)
					*g.clock = clock
					for i, want := range []exchange.Imported{{Added: 3 * len(c.days)}, {Known: 3 * len(c.days)}} {
						if got, err := g.Import(strings.NewReader(export), anything); err != nil || got.Added != want.Added || got.Known != want.Known {
							t.Errorf("%s, import %d into an empty file, %s: %+v, %v", kind, i+1, what, got, err)
						}
					}
					sound(t, g.File, 3*len(c.days))
					*g.clock = *f.clock
					again, csvAgain := bothExports(t, g.File)
					if kind == "JSON lines" && again != asJSON {
						t.Errorf("%s: %s", what, cmp.Diff(asJSON, again))
					}
					if csvAgain != asCSV {
						t.Errorf("%s: %s", what, cmp.Diff(asCSV, csvAgain))
					}
				}
			}
			if got, err := f.Import(strings.NewReader(asJSON), anything); err != nil || got.Known != 3*len(c.days) {
				t.Errorf("into the file itself: %+v, %v", got, err)
			}
		})
	}
}

// Answers and sessions of any year are kept and exported; no answer is dropped, and none is put off.
func TestYearsThatCannotBeWritten(t *testing.T) {
	for _, at := range []time.Time{{}, time.Date(-5000, 1, 1, 0, 0, 0, 0, time.UTC), time.Date(1969, 12, 31, 23, 0, 0, 0, time.UTC),
		time.Date(9999, 12, 31, 23, 59, 0, 0, time.FixedZone("UTC+14", 14*60*60)), time.Date(10000, 1, 1, 0, 0, 0, 0, time.UTC), time.Unix(math.MaxInt64/2, 0)} {
		c := newClocked(t)
		c.session(onDay(0), 1)
		c.session(at, 2)
		c.session(onDay(1), 3)
		if n, why := c.AtRisk(); why != errInMemory || n != 9 {
			t.Errorf("%v: %d answers, %v", at, n, why)
		}
		if c.done != len(c.deeds) {
			t.Errorf("%v: %d of %d deeds are done", at, c.done, len(c.deeds))
		}
		sound(t, c.File, 9)
		if n := c.doubtedAnswers(); n != 3 {
			t.Errorf("%v: %d are doubted", at, n)
		}
		bothExports(t, c.File)
	}
}

// A session that an earlier version kept with a year that cannot be written no longer keeps an export from being made.
func TestASessionOfTheYear12000IsExported(t *testing.T) {
	c := newClocked(t)
	c.session(onDay(0), 1)
	for _, year := range []int{12000, -300} {
		at := time.Date(year, 1, 1, 0, 0, 0, 0, time.UTC).UnixMilli()
		if _, err := c.db.Exec("INSERT INTO sessions (id, began, ended, minutes) VALUES (?, ?, ?, 10)", "odd"+strconv.Itoa(year), at, at); err != nil {
			t.Fatal(err)
		}
	}
	asJSON, _ := bothExports(t, c.File)
	for _, want := range []string{`"began":"9999-12-30T23:59:59.999Z","ended":"9999-12-30T23:59:59.999Z","minutes":10,"doubted":true`, `"began":"1970-01-01T00:00:00Z","ended":"1970-01-01T00:00:00Z","minutes":10,"doubted":true`} {
		if !strings.Contains(asJSON, want) {
			t.Errorf("%s is not in\n%s", want, asJSON)
		}
	}
	g := newClocked(t)
	if _, err := g.Import(strings.NewReader(asJSON), anything); err != nil {
		t.Error(err)
	}
	if again, _ := bothExports(t, g.File); again != asJSON {
		t.Error(cmp.Diff(asJSON, again))
	}
	// What another program wrote of such years is taken in as well.
	odd := strings.NewReplacer("2026-03-04T23:30:00Z", "0123-03-04T23:30:00Z").Replace(asJSON)
	if odd == asJSON {
		t.Fatal("no session began then")
	}
	h := newClocked(t)
	if got, err := h.Import(strings.NewReader(odd), anything); err != nil || got.Added != 3 {
		t.Error(got, err)
	}
}

// Sessions began when their first believed answer was given; where none is, nobody knows.
func TestWhenSessionsBegan(t *testing.T) {
	c := newClocked(t)
	c.session(onDay(0), 1)
	c.session(time.Unix(300, 0), 2)
	// In the midst of the third one the clock is set right.
	if err := c.Begin(progress.Session{ID: "third", Began: time.Unix(600, 0), Minutes: 10 * time.Minute}); err != nil {
		t.Fatal(err)
	}
	for _, at := range []time.Time{time.Unix(610, 0), onDay(2), onDay(2).Add(time.Minute)} {
		if err := c.Record(progress.Answer{Session: "third", Item: "d/t/u", Drill: "d", At: at, Result: progress.Right}); err != nil {
			t.Fatal(err)
		}
	}
	*c.clock = onDay(2)
	all, err := c.Sessions()
	if err != nil || len(all) != 3 {
		t.Fatal(all, err)
	}
	for i, want := range []struct {
		began   time.Time
		doubted bool
	}{{time.Unix(300, 0), true}, {onDay(0), false}, {onDay(2), false}} {
		if got := all[i]; !got.Began.Equal(want.began) || got.Doubted != want.doubted {
			t.Errorf("session %d: %+v, want %+v", i, got, want)
		}
	}
	asJSON, _ := bothExports(t, c.File)
	if strings.Count(asJSON, `"began":"1970-01-01T00:`) != 2 || strings.Count(asJSON, `"minutes":10,"doubted":true}`) != 2 {
		t.Error("an export says when the clock said they began:", asJSON)
	}
	// A clock that is ahead, and then right again before anything is answered.
	c.session(onDay(3650), 4)
	*c.clock = onDay(3)
	if all, err = c.Sessions(); err != nil || len(all) != 4 || !all[3].Doubted {
		t.Error(all, err)
	}
}

// A session that begins while the clock is right began then, whatever the clock says later on in it.
func TestAClockThatGoesWrongInTheMidstOfASession(t *testing.T) {
	for what, given := range map[string][]time.Time{
		"and stays so":                      {onDay(2), onDay(2).Add(time.Minute), time.Unix(300, 0), time.Unix(400, 0)},
		"and is put right":                  {onDay(2), time.Unix(300, 0), onDay(2).Add(time.Minute)},
		"ten years ahead, and is put right": {onDay(2), onDay(3652), onDay(2).Add(time.Minute), onDay(2).Add(time.Hour)},
	} {
		c := newClocked(t)
		c.session(onDay(0), 1)
		c.session(onDay(1), 2)
		if err := c.Begin(progress.Session{ID: "third", Began: onDay(2), Minutes: 10 * time.Minute}); err != nil {
			t.Fatal(err)
		}
		for _, at := range given {
			*c.clock = at
			if err := c.Record(progress.Answer{Session: "third", Item: "d/t/u", Drill: "d", At: at, Result: progress.Right}); err != nil {
				t.Fatal(err)
			}
		}
		*c.clock = onDay(3)
		c.session(onDay(3), 4)
		all, err := c.Sessions()
		if err != nil || len(all) != 4 || all[2].ID != "third" || !all[2].Began.Equal(onDay(2)) || all[2].Doubted {
			t.Errorf("%s: %+v, %v; want the third to have begun at %v", what, all, err, onDay(2))
		}
		if c.doubtedAnswers() == 0 {
			t.Errorf("%s: no answer is doubted", what)
		}
	}
}

// A file that earlier versions wrote is judged before anything else is done with it, also a large one, and what a wrong clock did to memory is
// put right.
func TestAnOldFileIsJudgedWhenItIsOpened(t *testing.T) {
	const answers = 450 // on each of three days, of a kilobyte each: such a file is not checked before practice begins
	for _, wrong := range []int{3650, -20516, 3_642_000} {
		path := filepath.Join(t.TempDir(), "progress.db")
		f := openAt(t, path, evening)
		older := slices.Index(tables.Migrations, tables.DoubtsDerived)
		err := f.change(func(tx *sql.Tx) error {
			names, err := tables.NameItems(tx, progress.Answer{Item: "d/t/u", Drill: "d"})
			if err != nil {
				return err
			}
			for i := range 3 * answers {
				at := onDay(i / answers).Add(time.Duration(i) * time.Second)
				if i/answers == 1 {
					at = clock.Writable(onDay(wrong))
				}
				k := tables.AnswerRow{Answer: progress.Answer{Item: "d/t/u", Drill: "d", At: at, Question: strings.Repeat("?", progress.LongestText), Result: progress.Right}, Day: progress.DayOf(at)}
				k.ID[0], k.ID[1] = byte(i), byte(i>>8)
				if _, err := tx.Exec(tables.InsertAnswer, k.Row(names)...); err != nil {
					return err
				}
			}
			d := memory.NewDerived(memory.StartWeights)
			if err := tables.Answers(tx, func(k tables.AnswerRow) error { d.Add(k.Answer, k.Day); return nil }); err != nil {
				return err
			}
			if err := tables.StoreDerived(tx, d, names); err != nil {
				return err
			}
			_, err = tx.Exec(backTo(older))
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
		f.Close()
		if about, err := os.Stat(path); err != nil || about.Size() <= mostAtOnce {
			t.Fatal(about, err)
		}
		f = newFile(path, clockAt(onDay(3)))
		if err := f.prepare(); err != nil {
			t.Fatal(err)
		}
		sound(t, f, 3*answers)
		due, _, err := f.ComesBack("d/t/u")
		if n, failed := f.Doubted(); failed != nil || n != answers || err != nil || due.Year() > 2027 {
			t.Errorf("%d days off: %d are doubted, due %v, %v, %v", wrong, n, due, err, failed)
		}
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	}
}

// anyClock draws a clock of sessions that go on from day to day: now and then it is wrong for a while.
func anyClock(rng *rand.Rand, sessions int) (days []int) {
	day, wrong := 0, 0
	for range sessions {
		day += rng.IntN(4)
		if rng.IntN(4) == 0 {
			all := []int{0, 0, 1, -1, 40, -40, 3650, -2600, -20516, 3_642_000, -800_000}
			wrong = all[rng.IntN(len(all))]
		}
		days = append(days, day+wrong)
	}
	return days
}

// Whatever the clock did, what is derived answer by answer is what follows from the first answer on; nothing is lost, and
// all of it is exported and comes back. SPARETONE_CLOCKS says how many clocks are tried.
func TestWhateverTheClockDoes(t *testing.T) {
	for seed := range fromEnvironment(t, "SPARETONE_CLOCKS", 30) {
		rng := rand.New(rand.NewPCG(uint64(seed), 13))
		days := anyClock(rng, 1+rng.IntN(12))
		c, g := newClocked(t), newClocked(t)
		c.practise(days)
		sound(t, c.File, 3*len(days))
		asJSON := allOf(t, c.File)
		*g.clock = *c.clock
		if got, err := g.Import(strings.NewReader(asJSON), anything); err != nil || got.Added != 3*len(days) {
			t.Error(got, err)
		}
		if again := allOf(t, g.File); again != asJSON {
			t.Error(cmp.Diff(asJSON, again))
		}
		sound(t, g.File, 3*len(days))
		if t.Failed() {
			t.Fatalf("seed %d: %v", seed, days)
		}
		c.Close()
		g.Close()
	}
}

// How long it was from one answer to the next is not known where a doubted one of the same session lies between them.
func TestThePaceAcrossADoubtedAnswer(t *testing.T) {
	c := newClocked(t)
	for _, at := range []time.Time{evening, time.Unix(600, 0), evening.Add(20 * time.Second), evening.Add(41 * time.Second)} {
		if err := c.Record(progress.Answer{Session: "s", Item: "d/t/u", Drill: "d", At: at, Result: progress.Right, Took: 3 * time.Second}); err != nil {
			t.Fatal(err)
		}
	}
	if got := c.derived().Pace["d"].Cycle; !slices.Equal(got, []int64{21_000}) {
		t.Errorf("%v", got)
	}
	sound(t, c.File, 4)
}
