package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/drills/practice"
	"sparetone/progress"
)

// ninths is a lesson as a teacher writes it. It names no chords, so that it takes no time to find out what of them can be asked.
const ninths = `name = "Ninths in a loop"
from = "Ida"
due = 2026-06-01

[[step]]
id = "sounds"
title = "Their sounds"
drill = "chord-ear"
asks = ["major", "added-ninth"]

[[step]]
id = "shapes"
title = "Their shapes"
drill = "build"
asks = ["major", "minor"]
`

// lessonAt writes a lesson and returns its path.
func lessonAt(t testing.TB, text string) string {
	path := filepath.Join(t.TempDir(), "ninths.toml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// withLessons has taken two lessons and given one up.
func withLessons(t testing.TB) *app {
	a := atFirst(t, false)
	for _, text := range []string{ninths, strings.Replace(ninths, "Ninths in a loop", "Old one", 1)} {
		if _, err := a.TakeLessonAt(lessonAt(t, text)); err != nil {
			t.Fatal(err)
		}
	}
	all, err := a.Standings()
	if err != nil || len(all) != 2 {
		t.Fatal(len(all), err)
	}
	if err := a.GiveUp(all[1].Lesson); err != nil {
		t.Fatal(err)
	}
	return a
}

// lessonScenes are the places of lessons.
func lessonScenes() []scene {
	return []scene{
		{"lessons-none", func(t testing.TB) *app { return keyed(atFirst(t, false), "l") }},
		{"lessons", func(t testing.TB) *app { return keyed(withLessons(t), "l", "down") }},
		{"lesson", func(t testing.TB) *app { return keyed(withLessons(t), "l", "1") }},
		{"lesson-left", func(t testing.TB) *app { return keyed(withLessons(t), "l", "2") }},
		{"lesson-file", func(t testing.TB) *app { return keyed(atFirst(t, false), "l", "o") }},
	}
}

// A lesson is taken by its file, looked at, given up when that is asked for twice, and taken up again, by keys; today's practice follows.
func TestLessonsByKeys(t *testing.T) {
	p, _ := practiceOf(t, false)
	a := sized(newApp(p), 80, 24)
	state := func() (states []practice.LessonState) {
		all, err := a.Standings()
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range all {
			states = append(states, s.State)
		}
		return states
	}
	keyed(a, "l", "o")
	a.field.SetValue(lessonAt(t, "chords = [\"C\", \"Cqq\"]\n"))
	keyed(a, "enter")
	if len(state()) != 0 {
		t.Fatal("a lesson that cannot be read was taken")
	}
	a.field.SetValue(lessonAt(t, ninths))
	keyed(a, "enter")
	if got := state(); len(got) != 1 || got[0] != practice.LessonRuns {
		t.Fatalf("after it was taken: %v", got)
	}
	if s := a.Session; s.Length() == 0 || len(practice.Outlook(&a.App)) < 2 {
		t.Error("today's page does not know of the lesson")
	}
	keyed(a, "1", "x")
	if got := state(); got[0] != practice.LessonRuns {
		t.Errorf("after one key: %v", got)
	}
	keyed(a, "x")
	if got := state(); got[0] != practice.LessonLeft {
		t.Errorf("after two: %v", got)
	}
	keyed(a, "1", "u")
	if got := state(); got[0] != practice.LessonRuns {
		t.Errorf("taken up again: %v", got)
	}
	keyed(a, "1", "p")
	asked := a.Session
	if q, err := asked.Next(); err != nil || q == nil {
		t.Errorf("it cannot be practised: %v", err)
	}
}

// Of a lesson that is due yesterday it is said that it is over.
func TestLessonThatIsOver(t *testing.T) {
	p, c := practiceOf(t, false)
	a := sized(newApp(p), 80, 24)
	if _, err := a.TakeLessonAt(lessonAt(t, ninths)); err != nil {
		t.Fatal(err)
	}
	c.at = time.Date(2026, 6, 2, 12, 0, 0, 0, time.UTC)
	if all, err := a.Standings(); err != nil || all[0].State != practice.LessonOver || progress.DayOf(c.at) <= all[0].Lesson.Due {
		t.Errorf("%+v, %v", all, err)
	}
}
