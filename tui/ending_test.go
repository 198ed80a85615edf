package tui

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills/course"
	"sparetone/drills/practice"
	"sparetone/tui/page"
)

// At the end three sounds of the session are a key each, and the chord of the day one: what plays is what was asked.
func TestSoundsOfTheSessionAreHeardAgain(t *testing.T) {
	a := sceneNamed(t, "ending-heard")
	list := choice(a)
	if len(list.Lines) != 3 {
		t.Fatalf("%d sounds", len(list.Lines))
	}
	asked := map[string]bool{}
	for _, k := range a.Keepsakes() {
		asked[k.Name.Screen()] = len(k.Sounds) > 0
	}
	for n, l := range list.Lines {
		next := list.Pick(n)
		if !asked[l.Text.Screen()] || len(next.Sounds) == 0 || next.Voice == nil || *choice(a).Mark != n {
			t.Errorf("%d, %v: %d sounds", n+1, l.Text, len(next.Sounds))
		}
	}
	chord := actOf(t, a, "chord").Do("")
	if len(chord.Sounds) != 2 {
		t.Errorf("the chord of the day has %d sounds", len(chord.Sounds))
	}
}

// actOf is an act of the page that shows.
func actOf(t *testing.T, a *app, id string) page.Act {
	t.Helper()
	acts := a.page().Acts
	i := slices.IndexFunc(acts, func(act page.Act) bool { return act.ID == id })
	if i < 0 {
		t.Fatalf("no act is called %s", id)
	}
	return acts[i]
}

// In lines the end is stayed at as long as there is something to hear, and left by an empty line; whoever leaves the program there or before is gone.
func TestPlainEnding(t *testing.T) {
	ended := func(typed ...string) string {
		p, _ := practiceOf(t, false)
		way := practice.Way{Course: course.Course{{ID: "kinds", Drill: "chord-ear", Asks: []string{"major", "minor"}}}}
		p.Called = way
		if err := p.Begin(way); err != nil {
			t.Fatal(err)
		}
		return plainly(t, p, append([]string{"", "1", "", "2", "", "stop"}, typed...)...)
	}
	says(t, ended("1", "chord", "answers", "", "", "leave", ""), "2 questions, ", "To hear once more:", "1: ", "Today's chord: ", "Hold ",
		"Type a number to hear that sound again.", "Name a kind of chord by ear: 1 of 2.", "2 questions, ", "An empty line begins")
	if text := ended("leave"); strings.Count(text, "An empty line begins") != 1 {
		t.Errorf("it does not end with leave:\n%s", text)
	}
}

// What is known is drawn from the answers, and said in lines.
func TestPlainKnowledge(t *testing.T) {
	text := plainly(t, withHistory(t).App, "known", "", "leave", "")
	says(t, text, "By ear you now tell apart about 3 of 5 things.", "3 weeks ago it was about 3.", "Week by week, up to now: 3, 3, 3, 3.",
		"Major: hear kept.", "Seventh: hear shaky.", "kinds of chord not met yet.")
}
