package tui

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/google/go-cmp/cmp"

	"sparetone/drills"
)

var update = flag.Bool("update", false, "write the pictures of the screens anew")

// walk goes through a session and shows each screen under a name.
func walk(t *testing.T, width, height int, show func(name string, a *app)) {
	t.Helper()
	silent, c := practice(t, true)
	a := newApp(silent)
	a.Update(tea.WindowSizeMsg{Width: width, Height: height})
	press := func(name string) {
		c.at = c.at.Add(5 * time.Second)
		a.Update(pressed(name))
	}
	answer := func(right bool) {
		q := a.screen.(*question).asked
		for i, choice := range q.Choices {
			if (choice.ID == q.Expected().ID) == right {
				press(fmt.Sprint(i + 1))
				return
			}
		}
	}
	show("today", a)
	press("enter")
	show("question-eye", a)
	answer(false)
	show("reveal-wrong", a)
	press("enter")
	answer(true)
	show("reveal-right", a)
	press("?")
	show("help", a)
	press("?")
	press("q")
	show("ending", a)

	// The ear drills as they look with a device that is still opening: nothing trembles.
	for _, drill := range []string{"interval-ear", "chord-ear", "added-ear"} {
		p, _ := practice(t, false)
		d, _ := drills.ByID(drill)
		on := p.Session.On()
		q, err := d.Ask(drills.Request{Target: d.Targets(on)[3].ID, On: on, Rand: drills.QuestionRand(drill, "", 3)})
		if err != nil {
			t.Fatal(err)
		}
		a := newApp(p)
		a.Update(tea.WindowSizeMsg{Width: width, Height: height})
		asked := &drills.Asked{Question: q, Why: "new", Number: 1}
		a.screen = &question{asked: asked, entry: newEntry(a, asked)}
		show("question-"+drill, a)
		for _, choice := range q.Choices {
			if choice.ID != q.Expected().ID {
				v, err := q.Mark(choice.Typed)
				if err != nil {
					t.Fatal(err)
				}
				a.screen = &reveal{asked: asked, verdict: v}
				show("reveal-"+drill, a)
				break
			}
		}
	}
	a.Update(tea.WindowSizeMsg{Width: 40, Height: 10})
	show("too-small", a)
}

// The pictures of every screen lie in testdata/screens; -update writes them anew, to be looked at.
func TestScreens(t *testing.T) {
	for _, size := range [][2]int{{60, 20}, {80, 24}, {200, 50}} {
		walk(t, size[0], size[1], func(name string, a *app) {
			fits(t, a)
			got := plainText(drawn(a)) + "\n"
			path := filepath.Join("testdata", "screens", fmt.Sprintf("%s-%dx%d.txt", name, size[0], size[1]))
			if *update {
				if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
					t.Fatal(err)
				}
				if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("%s:\n%s", path, diff)
			}
		})
	}
}
