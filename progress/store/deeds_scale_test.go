package store

import (
	"bytes"
	"fmt"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
)

// What takes the longest on a file of ten years: to import as many answers as it has, to undo that, and the first answer
// after a clock was wrong, which has all judged anew. Twice the answers should take twice the time.
//
//	go test -run '^$' -bench LongDeeds -benchtime 1x -timeout 1h ./progress/store
func BenchmarkLongDeeds(b *testing.B) {
	for _, answers := range []int{12_500, 25_000, 50_000, 100_000} {
		path := filepath.Join(b.TempDir(), "progress.db")
		tenYears(b, path, answers)
		f, err := Open(path, clockAt(evening))
		if err != nil {
			b.Fatal(err)
		}
		var asJSON bytes.Buffer
		if err := f.ExportJSON(&asJSON); err != nil {
			b.Fatal(err)
		}
		f.Close()
		// The same generator made both: with other ids they are other answers.
		export := regexp.MustCompile(`"kind":"answer","id":"(..)(.{30})"`).ReplaceAllString(asJSON.String(), `"kind":"answer","id":"$2$1"`)
		for _, deed := range []struct {
			name string
			do   func(f *File) error
		}{
			// Each once on the file that the one before left.
			{"import", func(f *File) error { _, err := f.Import(strings.NewReader(export), anything); return err }},
			{"undo", func(f *File) error { _, err := f.UndoImport(); return err }},
			{"rebuild", (*File).Rebuild},
			{"clock", func(f *File) error { // it was a year ahead, and is right again: that moves all that was derived
				for _, at := range []time.Time{evening.AddDate(1, 0, 0), evening} {
					if err := f.Record(progress.Answer{Session: "clock", Item: "d0/t0/u", Drill: "d0", At: at, Result: progress.Right}); err != nil {
						return err
					}
				}
				return nil
			}},
		} {
			b.Run(fmt.Sprintf("%s/%d", deed.name, answers), func(b *testing.B) {
				f, err := Open(path, clockAt(evening))
				if err != nil {
					b.Fatal(err)
				}
				f.aside.Wait()
				for b.Loop() {
					if err := deed.do(f); err != nil {
						b.Fatal(err)
					}
				}
				b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N)/float64(answers), "µs/answer")
				b.StopTimer()
				f.Close()
			})
		}
	}
}
