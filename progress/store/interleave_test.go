package store

import (
	"database/sql"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// Of an export whose beginning is known already, what is new comes where it belongs, as the beginning tells.
func TestWhatIsKnownTellsWhereTheRestBelongs(t *testing.T) {
	desk, lap := newClocked(t), newClocked(t)
	desk.session(onDay(0), 1)
	begun, _ := bothExports(t, desk.File)
	if _, err := lap.Import(strings.NewReader(begun), anything); err != nil {
		t.Fatal(err)
	}
	for day := 1; day < 9; day++ {
		lap.session(onDay(day), uint64(100+day))
	}
	// Three days of the desk are ten years ahead; then its clock is set right.
	for place, day := range []int{3650, 3651, 3652, 5} {
		desk.session(onDay(day), uint64(10+place))
	}
	all, _ := bothExports(t, desk.File)
	*lap.clock = onDay(9)
	if got, err := lap.Import(strings.NewReader(all), anything); err != nil || got.Added != 12 || got.Known != 3 {
		t.Fatal(got, err)
	}
	var order []string
	err := tables.Each(lap.db, "SELECT DISTINCT session FROM answers ORDER BY n", nil, func(row *sql.Rows) error {
		var s string
		err := row.Scan(&s)
		order = append(order, strings.Split(s, "-")[1])
		return err
	})
	if want := strings.Fields("1 10 11 12 101 102 103 104 13 105 106 107 108"); err != nil || !slices.Equal(order, want) && !slices.Equal(order, strings.Fields("1 10 11 12 101 102 103 104 105 13 106 107 108")) {
		t.Errorf("%v, %v, want %v", order, err, want)
	}
	if n := lap.doubtedAnswers(); n != 9 {
		t.Errorf("%d are doubted, want 9", n)
	}
	sound(t, lap.File, 27+12)
}

// Three machines, each with a clock of its own that is wrong for a while and right in the end: in whatever order their
// exports are taken in, and however often, the file is the same, but for where what is doubted stands; where no clock was
// wrong nothing is doubted.
func TestTheOrderOfImportsMakesNoDifference(t *testing.T) {
	for seed := range fromEnvironment(t, "SPARETONE_CLOCKS", 30) / 5 {
		rng := rand.New(rand.NewPCG(uint64(seed), 13))
		wrong := seed%3 > 0
		var exports []string
		answers := 0
		for machine := range 3 {
			c := newClocked(t)
			days := daily(0, rng.IntN(5))
			for i, day := range days {
				days[i] = day + rng.IntN(2)
			}
			slices.Sort(days)
			if wrong {
				by := []int{3650, -20516, 3_642_000, -800_000}[rng.IntN(4)]
				spell := daily(days[len(days)-1]+by, days[len(days)-1]+by+rng.IntN(2))
				days = slices.Insert(days, rng.IntN(len(days)+1), spell...)
			}
			for place, day := range days {
				c.session(onDay(day).Add(time.Duration(machine)*time.Hour), uint64(1000*machine+place))
			}
			answers += 3 * len(days)
			exports = append(exports, allOf(t, c.File))
			c.Close()
		}
		var first string
		for i := range 2 {
			g := newClocked(t)
			*g.clock = onDay(20)
			rng.Shuffle(len(exports), func(i, j int) { exports[i], exports[j] = exports[j], exports[i] })
			for _, export := range append(slices.Clone(exports), exports[0]) {
				if _, err := g.Import(strings.NewReader(export), anything); err != nil {
					t.Fatal(err)
				}
			}
			sound(t, g.File, answers)
			lines := slices.DeleteFunc(strings.Split(allOf(t, g.File), "\n"), func(line string) bool { return strings.HasSuffix(line, `"doubted":true}`) })
			// Whose the file is follows from which came first; what is in it does not.
			all := strings.ReplaceAll(strings.Join(lines, "\n"), whose(t, g.File).ID, "") + fmt.Sprintf("%+v", g.derived())
			if i == 0 {
				first = all
			} else if all != first {
				t.Errorf("seed %d: %s", seed, cmp.Diff(first, all))
			}
			if n := g.doubtedAnswers(); !wrong && n > 0 {
				t.Errorf("seed %d: %d are doubted", seed, n)
			}
			g.Close()
		}
	}
}

// allOf is a file's export.
func allOf(t *testing.T, f *File) string {
	asJSON, _ := bothExports(t, f)
	return asJSON
}

// A program that was left open for days while another machine's file came to lie in the place of its own: what it did is
// put into its place in time, and nobody's clock is doubted for it.
func TestAFileThatWasJoinedIsInOrder(t *testing.T) {
	f, path := openWhole(t)
	if err := f.Record(progress.Answer{Session: "here", Item: "d1/t1/u", Drill: "d1", At: onDay(6), Result: progress.Right}); err != nil {
		t.Fatal(err)
	}
	other := inMemory(t, onDay(10))
	for day := 5; day < 10; day++ {
		if err := other.Record(progress.Answer{Session: "there", Item: "d1/t1/u", Drill: "d1", At: onDay(day), Result: progress.Right}); err != nil {
			t.Fatal(err)
		}
	}
	if err := other.SaveAs(path + ".other"); err != nil {
		t.Fatal(err)
	}
	bytes := readWhole(t, path+".other")
	put(t, path, bytes)
	followed(t, f, "another progress file was put in the place of this one")
	sound(t, f, 6)
	var days []progress.Day
	if err := tables.Answers(f.db, func(k tables.AnswerRow) error { days = append(days, k.Day); return nil }); err != nil {
		t.Fatal(err)
	}
	if !slices.IsSorted(days) {
		t.Errorf("not in order: %v", days)
	}
	if n, err := f.Doubted(); n != 0 || err != nil {
		t.Error(n, err)
	}
	// What fits at the end stays where it is, and so do the numbers.
	if err := f.Record(progress.Answer{Session: "here", Item: "d1/t1/u", Drill: "d1", At: onDay(10), Result: progress.Right}); err != nil {
		t.Fatal(err)
	}
	sound(t, f, 7)
}
