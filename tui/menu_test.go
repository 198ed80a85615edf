package tui

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"sparetone/drills/practice"
	"sparetone/tui/page/home"
)

// longList is the course as a lesson without chapters has it: all parts in one list.
func longList(t *testing.T) *app {
	a := atFirst(t, true)
	steps := slices.Clone(a.Setup.Course)
	for i := range steps {
		steps[i].Chapter = ""
	}
	a.Setup.Course = steps
	return keyed(a, "c", "enter")
}

// A page further is a page of lines further for the mark of a list, and the line that has it is in sight.
func TestPagingThroughAList(t *testing.T) {
	for list, size := range map[*app][2]int{longList(t): {80, 24}, sceneNamed(t, "one-drill"): {40, 10}} {
		a := sized(list, size[0], size[1])
		m := choice(a)
		last, presses := len(m.Lines)-1, 0
		for ; *m.Mark < last; presses++ {
			was := *m.Mark
			text := plainText(drawn(keyed(a, "pgdown")))
			if step := *m.Mark - was; *m.Mark < last && step < (size[1]-4)/2 || step > size[1]-2 {
				t.Fatalf("%v: a page is %d lines", size, step)
			}
			title, _, _ := strings.Cut(m.Lines[*m.Mark].Text.Screen(), " ")
			if !regexp.MustCompile(marked + `[ 1-9a-h]*` + regexp.QuoteMeta(title)).MatchString(text) {
				t.Fatalf("%v: the mark is out of sight in\n%s", size, text)
			}
		}
		if presses < 2 {
			t.Errorf("%v: %d pages of %d lines", size, presses, last+1)
		}
		if text := plainText(drawn(a)); strings.Contains(text, "pgdn") {
			t.Errorf("%v: there is more below the last line:\n%s", size, text)
		}
		for range presses + 1 {
			keyed(a, "pgup")
		}
		if drawn(a); *m.Mark != 0 || a.shown.scroll != 0 {
			t.Errorf("%v: back up, the mark is at %d and %d lines are out of sight", size, *m.Mark, a.shown.scroll)
		}
	}
}

// Above a list that has the mark in its first line stands what can be reached too, and the next key that moves
// the mark shows it again.
func TestPagingBeyondTheMark(t *testing.T) {
	a := sized(sceneNamed(t, "welcome-level"), 40, 10)
	if text := plainText(drawn(keyed(a, "pgup", "pgup"))); !strings.Contains(text, practice.Greetings[practice.StepLevel].Title) || *choice(a).Mark != 0 {
		t.Errorf("the title is not reached:\n%s", text)
	}
	if text := plainText(drawn(keyed(a, "down"))); !strings.Contains(text, marked+"2") {
		t.Errorf("the mark is out of sight:\n%s", text)
	}
}

// Where a line of a list has no room it goes on in the next row; a click there chooses it too.
func TestListsAreNotCutOff(t *testing.T) {
	for _, name := range []string{"today", "one-drill", "course", "course-chapter", "course-part", "welcome-instrument", "welcome-level", "question-added-ear", "question-same-or-not", "question-resolve", "placement-ear", "bench-swap"} {
		a := sized(sceneNamed(t, name), 40, 10)
		for range 12 {
			if text := plainText(drawn(a)); strings.Contains(text, "…") {
				t.Errorf("%s:\n%s", name, text)
			}
			a.Update(pressed("pgdown"))
		}
	}
	a := sized(keyed(atFirst(t, true), "v", "A", "a", "u", "g", "enter", "tab"), 40, 10)
	if text := plainText(drawn(a)); strings.Contains(text, "…") {
		t.Errorf("the bench:\n%s", text)
	}
	a = sized(keyed(atFirst(t, true), "d", "down", "down", "down"), 40, 10)
	click(t, a, "apart")
	if _, ok := a.place.(*home.Drills); !ok || *choice(a).Mark != 3 || a.said.IsZero() {
		t.Errorf("a click on the second row of a line leads to %T", a.place)
	}
}

// That more can be seen is said as long as it is so, and where it is not no help names the keys for it.
func TestMoreIsSaidWhereThereIsMore(t *testing.T) {
	a := sized(asked(t, "chord-ear"), 40, 10)
	if text := plainText(drawn(a)); !strings.Contains(text, "pgdn more") {
		t.Errorf("it is not said that there is more:\n%s", text)
	}
	for range 4 {
		keyed(a, "pgdown")
	}
	if text := plainText(drawn(a)); strings.Contains(text, "pgdn") || !strings.Contains(text, "pgup back up") {
		t.Errorf("nothing is below:\n%s", text)
	}
	if text := plainText(drawn(keyed(a, "?", "pgdown", "pgdown", "pgdown"))); strings.Contains(text, "pgdn more   ") || !strings.Contains(text, "closes this") {
		t.Errorf("nothing is below the help:\n%s", text)
	}
	for size, want := range map[[2]int]bool{{80, 24}: false, {40, 10}: true} {
		a := keyed(sized(asked(t, "chord-ear"), size[0], size[1]), "?")
		text := ""
		for range 16 {
			text += plainText(drawn(keyed(a, "down")))
		}
		if got := strings.Contains(text, "pgup"); got != want {
			t.Errorf("%v: the help names the keys for more: %v", size, got)
		}
	}
}

// Where a list is longer than the screen, up and down move its mark and not the screen alone.
func TestArrowsMoveTheMarkOfALongList(t *testing.T) {
	a := sized(longList(t), 60, 20)
	m := choice(a)
	if drawn(a); !a.shown.more {
		t.Fatal("the list has room on this screen")
	}
	was := *m.Mark
	if keyed(a, "down"); *m.Mark != was+1 || a.turned {
		t.Errorf("down leads from %d to %d, turned: %v", was, *m.Mark, a.turned)
	}
	if keyed(a, "up"); *m.Mark != was {
		t.Errorf("up leads to %d, not back to %d", *m.Mark, was)
	}
}
