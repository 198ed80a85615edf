package main

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/drills/practice"
	"sparetone/drills/practice/session"
	"sparetone/progress/store"
)

// weekStudents are the kinds of student of the week: the chance to know what is asked by ear and by eye, the verdict that the class page has to
// come to, and what is odd about them.
var weekStudents = []struct {
	kind     string
	ear, eye float64
	want     string
	ended    int  // days before the class on which practice ended
	same     bool // one thing is answered to whatever is asked
	earAlone bool
}{
	{kind: "strong", ear: 0.95, eye: 0.95, want: "strong"},
	{kind: "ear-weak", ear: 0.05, eye: 0.95, want: "eye-not-ear"},
	{kind: "one answer", same: true, want: "one-answer"},
	{kind: "guesses", want: "at-chance"},
	{kind: "absent", ear: 0.9, eye: 0.9, want: "silent", ended: 16},
	{kind: "blind", ear: 0.95, eye: 0.95, want: "ear-alone", earAlone: true},
}

// A teacher's week by the command line: of a chart a lesson is made, twelve students, two of each kind, take it, practise five days and hand in, and the class page
// says of each what was simulated. Only practice itself is without the command line, since a week would take a week.
func TestTheWeek(t *testing.T) {
	if os.Getenv("CI") == "" {
		t.Skip("twelve students practise five days: only with CI=true")
	}
	dir := t.TempDir()
	in := func(name string) string { return filepath.Join(dir, name) }
	if err := os.WriteFile(in("loop.txt"), []byte("| C | Am | F | G7 |\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(in("monday"), 0o700); err != nil {
		t.Fatal(err)
	}
	does := func(args ...string) string {
		t.Helper()
		out, errs, ended := called(t, "", args...)
		if ended != command.Done {
			t.Fatalf("%q: %d, %s", args, ended, errs)
		}
		return out
	}
	does("lesson", "make", in("loop.txt"), "--out", in("loop.toml"))
	want := map[string]string{}
	for n, k := range weekStudents {
		for twin := range 2 {
			name := fmt.Sprintf("%s %d", k.kind, twin+1)
			file := in(name + ".db")
			does("progress", "name", name, "--progress", file)
			does("lesson", "take", in("loop.toml"), "--progress", file)
			practisedWeek(t, file, n, uint64(10*n+twin), 5)
			does("lesson", "hand-in", filepath.Join(in("monday"), name+".jsonl"), "--progress", file)
			want[name] = k.want
		}
	}
	out := does(on(in("monday"), "--csv")...)
	for name, verdict := range want {
		found := false
		for line := range strings.Lines(out) {
			found = found || strings.Contains(line, name+",") && strings.Contains(line, ","+verdict)
		}
		if !found {
			t.Errorf("%s is not said to be %s: %s", name, verdict, out)
		}
	}
}

// weekUkulele is what all students play; what was found on its neck is kept.
var weekUkulele = sync.OnceValue(func() *neck.Instrument {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		panic(err)
	}
	return on
})

// practisedWeek practises the lesson of a file on the last so many days, as the n-th kind of student does.
func practisedWeek(t *testing.T, path string, n int, seed uint64, days int) {
	t.Helper()
	k, rng := weekStudents[n], rand.New(rand.NewPCG(seed, 18))
	now := lessonDay
	clock := func() time.Time { return now }
	f, err := store.Open(path, clock)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	on := weekUkulele()
	taken, err := session.Lessons(f)
	if err != nil || len(taken) != 1 {
		t.Fatal(len(taken), err)
	}
	var only []string
	if k.earAlone {
		only = practice.ByEar.Drills
	}
	first := map[string]string{}
	for day := range days {
		now = lessonDay.AddDate(0, 0, day-days-k.ended)
		runs, err := session.Runs(f, taken[0], on)
		if err != nil {
			t.Fatal(err)
		}
		s, err := session.New(session.Setup{File: f, On: on, Course: course.BuiltIn(), Drills: only, Lessons: []*session.Running{runs}, Length: 10 * time.Minute, Seed: rng.Uint64(), Now: clock})
		if err != nil {
			t.Fatal(err)
		}
		for {
			asked, err := s.Next()
			if err != nil {
				t.Fatal(err)
			}
			if asked == nil {
				break
			}
			now = now.Add(time.Duration(4000+rng.IntN(9000)) * time.Millisecond)
			knows := k.eye
			if len(asked.Sounds) > 0 {
				knows = k.ear
			}
			text := drills.Unknown
			switch {
			case rng.Float64() < knows:
				text = asked.Expected().Typed
			case len(asked.Choices) > 0:
				c := asked.Choices[rng.IntN(len(asked.Choices))]
				if k.same && first[asked.Drill] == "" {
					first[asked.Drill] = c.ID
				}
				for _, other := range asked.Choices {
					if k.same && other.ID == first[asked.Drill] {
						c = other
					}
				}
				text = c.Typed
			}
			if _, err := s.Answer(text); err != nil {
				t.Fatal(err)
			}
			now = now.Add(time.Duration(1500+rng.IntN(4000)) * time.Millisecond)
		}
		if err := s.End(); err != nil {
			t.Fatal(err)
		}
	}
}
