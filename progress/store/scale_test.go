package store

import (
	"database/sql"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/plan"
	"sparetone/progress/tables"
)

// tenYears fills a file with answers of ten years, straight into its tables, and has what is derived
// worked out afterwards: to record each with a full sync would take too long.
func tenYears(tb testing.TB, path string, answers int) []plan.Candidate {
	tb.Helper()
	var course []plan.Candidate
	for i := range 500 {
		course = append(course, plan.Candidate{Item: fmt.Sprintf("d%d/t%d/u", i%10, i/10), Drill: fmt.Sprintf("d%d", i%10)})
	}
	end := evening
	f, err := Open(path, clockAt(end))
	if err != nil {
		tb.Fatal(err)
	}
	defer f.Close()
	rng := rand.New(rand.NewPCG(1, 1))
	const days = 3650
	aDay := answers/days + 1
	err = f.change(func(tx *sql.Tx) error {
		names := tables.ItemNumbers{}
		for _, c := range course {
			found, err := tables.NameItems(tx, progress.Answer{Item: c.Item, Drill: c.Drill})
			if err != nil {
				return err
			}
			names[c.Item] = found[c.Item]
		}
		add, err := tx.Prepare(tables.InsertAnswer)
		if err != nil {
			return err
		}
		defer add.Close()
		for n := range answers {
			day := n / aDay
			at := end.AddDate(0, 0, day-days).Add(time.Duration(n%aDay) * 2 * time.Second)
			asked := rng.IntN(min(len(course), 5+day))
			c := course[asked]
			k := tables.AnswerRow{Day: progress.DayOf(at), Answer: progress.Answer{Session: fmt.Sprint(day), Item: c.Item, Drill: c.Drill, Seed: rng.Uint64(), At: at,
				Question: "Which chord is this? G4 C4 E4 C5", Given: "major", Expected: "major", Result: progress.Right, Took: time.Duration(1+rng.IntN(9)) * time.Second, Voice: "soft"}}
			for i := range k.ID {
				k.ID[i] = byte(rng.Uint32())
			}
			if rng.IntN(6) == 0 {
				k.Result, k.TakenFor = progress.Wrong, course[rng.IntN(len(course)/10)*10+asked%10].Item // of the same drill
			}
			if _, err := add.Exec(k.Row(names)...); err != nil {
				return err
			}
		}
		return tables.Rebuild(tx)
	})
	if err != nil {
		tb.Fatal(err)
	}
	return course
}

// Open is what a student waits for: the file opened, the day planned, the first question picked. A large file is
// still being checked then.
func open(path string, course []plan.Candidate) (*File, error) {
	f, err := Open(path, clockAt(evening))
	if err != nil {
		return nil, err
	}
	p, _, err := planFor(f, course, 10*time.Minute)
	if err != nil {
		return nil, err
	}
	p.Today(evening)
	p.Next(evening)
	return f, nil
}

// How long a student waits, and how much memory it takes a program that does no more:
//
//	SPARETONE_ANSWERS=1000000 go test -run '^$' -bench Open -benchtime 50x ./progress/store
func BenchmarkOpenAndPlanAfterTenYears(b *testing.B) {
	path := filepath.Join(b.TempDir(), "progress.db")
	course := tenYears(b, path, answersWanted(b))
	opened := func() *File {
		f, err := open(path, course)
		if err != nil {
			b.Fatal(err)
		}
		return f
	}
	opened().Close() // with the day's copy
	about, err := os.Stat(path)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		f := opened()
		b.StopTimer()
		if err := f.Close(); err != nil {
			b.Fatal(err)
		}
		b.StartTimer()
	}
	b.ReportMetric(float64(about.Size())/1e6, "file-MB")
	b.ReportMetric(memoryOfAChild(b, path), "backup-memory-MB")
	b.ReportMetric(memoryOfAChild(b, path), "memory-MB")
}

// memoryOfAChild returns the most memory, in MB, that a child which opens, plans and records one
// answer ever held. The first child of a day also makes the backup. Measured on Linux only.
func memoryOfAChild(b *testing.B, path string) float64 {
	self, err := os.Executable()
	if err != nil {
		b.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), childFile+"="+path, childAnswers+"=1", childMemory+"=yes")
	out, err := cmd.Output()
	if err != nil {
		b.Fatal(err)
	}
	var kB float64
	if _, most, found := strings.Cut(string(out), "VmHWM:"); found {
		fmt.Sscan(most, &kB)
	}
	return kB / 1e3
}

func BenchmarkRecord(b *testing.B) {
	f, err := Open(filepath.Join(b.TempDir(), "progress.db"), clockAt(evening))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	for b.Loop() {
		if err := f.Record(progress.Answer{Item: "d/t/u", Drill: "d", At: evening, Result: progress.Right, Took: time.Second}); err != nil {
			b.Fatal(err)
		}
	}
}

// The cost of judging the clocks of a file, beside all that a check of it costs, and of the first answer after a clock was
// wrong, with which all that is derived is made again.
//
//	SPARETONE_ANSWERS=100000 go test -run '^$' -bench JudgeClocks ./progress/store
func BenchmarkJudgeClocks(b *testing.B) {
	path := filepath.Join(b.TempDir(), "progress.db")
	tenYears(b, path, answersWanted(b))
	f, err := Open(path, clockAt(evening))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	f.aside.Wait()
	for name, do := range map[string]func() error{
		"judge":   func() error { _, err := tables.DoubtsAnew(f.db); return err },
		"present": func() error { _, err := tables.Present(f.db, evening); return err },
		"check":   func() error { _, err := f.Check(); return err },
		"rebuild": f.Rebuild,
	} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := do(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// answersWanted is how many answers a benchmark's file has.
func answersWanted(b *testing.B) int {
	text := os.Getenv("SPARETONE_ANSWERS")
	if text == "" {
		return 20_000
	}
	answers, err := strconv.Atoi(text)
	if err != nil {
		b.Fatal(err)
	}
	return answers
}
