package home

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/drills/practice"
	"sparetone/tui/page"
	"sparetone/tui/page/player"
)

// now is a Monday in May, so that practice days are the same whenever the tests run.
func now() time.Time { return time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC) }

// atHome is somebody on today's page, who practises to build shapes on a ukulele.
func atHome(t *testing.T) *player.Player {
	t.Helper()
	app := player.Practising(t, "build", "ukulele", 1, now)
	if err := app.Plan(false); err != nil {
		t.Fatal(err)
	}
	return &player.Player{Walk: NewWalk(app), At: &Today{}}
}

// sounds is a lesson as a teacher writes it.
const sounds = "name = \"Sounds\"\n\n[[step]]\nid = \"sounds\"\ndrill = \"chord-ear\"\nasks = [\"major\", \"minor\"]\n"

// written writes a lesson of some name, and returns where it lies.
func written(t *testing.T, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "lesson.toml")
	if err := os.WriteFile(path, []byte(strings.Replace(sounds, "Sounds", name, 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// A lesson is taken from the file that was typed with the act, or from one that is asked for; what is no lesson is refused, and none is listed.
func TestLessonsAreTaken(t *testing.T) {
	p := atHome(t)
	p.Does(t, "lessons")
	take := func(typed string) page.Next {
		for _, a := range p.PageOf(p.At).Acts {
			if a.ID == "take lesson" {
				return a.Do(typed)
			}
		}
		t.Fatal("no lesson can be taken")
		return page.Next{}
	}
	if next := take("nowhere.toml"); !next.Wrong || next.To != nil || next.Said.IsZero() {
		t.Errorf("a file that is not there: %+v", next)
	}
	if next := take(""); next.To == nil {
		t.Error("no file is asked for")
	} else if prompt, is := next.To.(*page.Prompt); !is || prompt.Back != p.At {
		t.Errorf("%T asks for the file", next.To)
	} else if next := prompt.Take(written(t, "First")); next.Wrong || next.Said.Screen() != sayTakenUp("First").Screen() {
		t.Errorf("the first: %q", next.Said.Screen())
	} else {
		p.Apply(next)
	}
	p.Apply(take(written(t, "Second")))
	if got := listed(t, p.Walk, p.At); got != "1 First, 0 of 2 done; 2 Second, 0 of 2 done" {
		t.Errorf("listed are %s", got)
	}
}

// listed are the lines of the list of a place, with their keys.
func listed(t *testing.T, w *page.Walk, at page.Place) string {
	t.Helper()
	var lines []string
	for _, b := range w.PageOf(at).Blocks {
		if list, is := b.(page.Choice); is {
			for _, l := range list.Lines {
				lines = append(lines, l.Key+" "+l.Text.Screen()+", "+l.More)
			}
		}
	}
	return strings.Join(lines, "; ")
}

// A lesson is given up when that is asked for twice, and taken up again. What can be done follows from how it stands.
func TestALessonIsGivenUpAndTakenUpAgain(t *testing.T) {
	p := atHome(t)
	if _, err := p.TakeLessonAt(written(t, "Sounds")); err != nil {
		t.Fatal(err)
	}
	look := func() {
		p.Apply(p.PageOf(newLessons(p.Walk, func() page.Place { return &Today{} })).Take("sounds"))
		if _, is := p.At.(*Lesson); !is {
			t.Fatalf("the lesson is %T", p.At)
		}
	}
	state := func() practice.LessonState {
		all, err := p.Standings()
		if err != nil || len(all) != 1 {
			t.Fatal(len(all), err)
		}
		return all[0].State
	}
	can := func(want string) {
		t.Helper()
		var ids []string
		for _, a := range p.PageOf(p.At).Acts {
			ids = append(ids, a.ID)
		}
		if got := strings.Join(ids, ", "); got != want {
			t.Errorf("can be done: %s, want %s", got, want)
		}
	}
	look()
	can("practise, give up, back")
	p.Does(t, "give up")
	if state() != practice.LessonRuns || p.Said[len(p.Said)-1] != sayGivesUp("Sounds").Screen() {
		t.Errorf("asked for once: %s, %q", state(), p.Said)
	}
	p.Does(t, "give up")
	if _, listed := p.At.(*Lessons); state() != practice.LessonLeft || !listed {
		t.Errorf("asked for twice: %s, at %T", state(), p.At)
	}
	if got := listed(t, p.Walk, p.At); got != "1 Sounds, 0 of 2 done, "+string(practice.LessonLeft) {
		t.Errorf("listed is %s", got)
	}
	look()
	can("take up, back")
	p.Does(t, "take up")
	if state() != practice.LessonRuns {
		t.Errorf("taken up again it is %s", state())
	}
}
