package store

import (
	"fmt"
	"path/filepath"
	"testing"
	"time"

	"sparetone/progress"
)

// How long practice waits, at its beginning and at its end, where two machines are kept alike:
//
//	SPARETONE_ANSWERS=100000 go test -run '^$' -bench Sync -benchtime 3x ./progress/store
func BenchmarkSync(b *testing.B) {
	path := filepath.Join(b.TempDir(), "progress.db")
	tenYears(b, path, answersWanted(b))
	desk, lap := newMachine(b, "desk"), newMachine(b, "lap")
	f, err := Open(path, clockAt(evening))
	if err != nil {
		b.Fatal(err)
	}
	defer f.Close()
	desk.File = f
	over := func(from, to *machine) {
		from.synced(b, false)
		carry(b, from, to)
		to.synced(b, false)
	}
	over(desk, lap)
	over(lap, desk)
	b.Run("nothing is new", func(b *testing.B) {
		for b.Loop() {
			if done := desk.synced(b, false); done.Wrote {
				b.Error("something was written")
			}
		}
	})
	day := 0
	b.Run("sixty answers came", func(b *testing.B) {
		for b.Loop() {
			b.StopTimer()
			day++
			for i := range 60 {
				a := progress.Answer{Session: fmt.Sprint("day ", day), Item: "d1/t1/u", Drill: "d1", Seed: uint64(day*100 + i), At: evening.AddDate(0, 0, day).Add(time.Duration(i) * time.Second), Result: progress.Right}
				if err := lap.Record(a); err != nil {
					b.Fatal(err)
				}
			}
			lap.synced(b, false)
			carry(b, lap, desk)
			b.StartTimer()
			desk.synced(b, false)
		}
	})
}
