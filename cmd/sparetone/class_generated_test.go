package main

import (
	"bufio"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/progress"
)

// generateClass writes files of so many students with so many answers each, as progress export would: two hundred things over two years
// up to the lesson, some right, some guessed, some while a clock was wrong.
func generateClass(t testing.TB, folder string, students, answers int) {
	t.Helper()
	var items []string
	for _, step := range course.BuiltIn() {
		for _, asks := range step.Asks {
			for _, tuning := range []string{"ukulele", "guitar"} {
				items = append(items, drills.ItemID(step.Drill, asks, tuning))
			}
		}
	}
	for n := range students {
		f, err := os.Create(filepath.Join(folder, fmt.Sprintf("%04d.jsonl", n)))
		if err != nil {
			t.Fatal(err)
		}
		w := bufio.NewWriterSize(f, 1<<20)
		rng := rand.New(rand.NewPCG(uint64(n), 18))
		skill := rng.Float64()
		const each = 40 // answers of a session
		sessions := (answers + each - 1) / each
		for s := range sessions {
			at := lessonDay.AddDate(0, 0, -(sessions-s)*min(2, max(1, 700/sessions))).Add(time.Duration(rng.IntN(7200)) * time.Second)
			whose := fmt.Sprintf(`"file":"FILE%04d","whose":"Student %d"`, n, n)
			fmt.Fprintf(w, `{"kind":"session","id":"%d-%d",%s,"began":"%s","ended":"%s","minutes":10}`+"\n", n, s, whose, at.Format(time.RFC3339), at.Add(11*time.Minute).Format(time.RFC3339))
			for i := range min(each, answers-s*each) {
				at = at.Add(time.Duration(5000+rng.IntN(12_000)) * time.Millisecond)
				item := items[rng.IntN(min(len(items), 20+s))]
				drill := progress.DrillOf(item)
				choices := []int{0, 2, 3, 4, 5}[rng.IntN(5)]
				result, taken := "right", ""
				if chance := skill; rng.Float64() > chance && (choices == 0 || rng.IntN(choices) > 0) {
					result = "wrong"
					if other := items[rng.IntN(len(items))]; progress.DrillOf(other) == drill {
						taken = other
					}
				}
				fmt.Fprintf(w, `{"kind":"answer","id":"%08x%08x%016x","session":"%d-%d","item":"%s","drill":"%s","seed":"%d","at":"%s","day":"%s","question":"Which kind of chord is this? F4 A4 C5 E4","given":"one of them","expected":"another","taken_for":"%s","result":"%s","took_ms":%d,"replays":0,"hints":0,"voice":"nylon","choices":%d,"rung":%d,%s,"doubted":%t}`+"\n",
					n, s, i, n, s, item, drill, rng.Uint64(), at.Format("2006-01-02T15:04:05.000Z"), progress.DayOf(at).Date().Format(time.DateOnly), taken, result, 2000+rng.IntN(4000), choices, 1+rng.IntN(3), whose, rng.IntN(200) == 0)
			}
		}
		if err := w.Flush(); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
}
