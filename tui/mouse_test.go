package tui

import (
	"strings"
	"testing"

	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"
)

// click clicks on the first place at which some words stand on the screen.
func click(t *testing.T, a *app, words string) {
	t.Helper()
	a.draw()
	for y, l := range a.shown.lines {
		if before, _, found := strings.Cut(ansi.Strip(l), words); found {
			a.Update(tea.MouseClickMsg{X: ansi.StringWidth(before), Y: y, Button: tea.MouseLeft})
			return
		}
	}
	t.Fatalf("%q is nowhere on\n%s", words, plainText(drawn(a)))
}

func TestClicks(t *testing.T) {
	a := sized(atFirst(t, true), 80, 24)
	click(t, a, "one drill")
	if _, ok := a.place.(*home.Drills); !ok {
		t.Fatalf("a click on one drill leads to %T", a.place)
	}
	click(t, a, "back")
	if _, ok := a.place.(*home.Today); !ok {
		t.Fatalf("a click on the bottom line's back leads to %T", a.place)
	}

	a = sized(asked(t, "chord-ear"), 80, 24)
	q := a.place.(*asking.Question).Asked
	click(t, a, q.Expected().Said.Screen())
	if r, ok := a.place.(*asking.Reveal); !ok || r.Verdict.Given.Screen() != q.Expected().Said.Screen() {
		t.Errorf("a click on %q leads to %T", q.Expected().Said.Screen(), a.place)
	}
}

// A click on the neck sets a finger there: the dot is drawn where the click was, large and small, and a
// second click takes it away.
func TestClickOnNeck(t *testing.T) {
	for _, size := range [][2]int{{80, 24}, {60, 20}} {
		a := sized(asked(t, "build"), size[0], size[1])
		f := a.place.(*asking.Question).Hand
		a.draw()
		var at spot
		for _, s := range a.shown.spots {
			if s.means == (fingerMsg{1, 3}) {
				at = s
				break
			}
		}
		a.Update(tea.MouseClickMsg{X: (at.from + at.to) / 2, Y: at.row, Button: tea.MouseLeft})
		if got := f.Shape.String(); got != "0003" {
			t.Fatalf("%v: a click at fret 3 of string 1 makes %s", size, got)
		}
		a.draw()
		before, _, found := strings.Cut(ansi.Strip(a.shown.lines[at.row]), "●")
		if x := ansi.StringWidth(before); !found || x < at.from || x >= at.to {
			t.Errorf("%v: the dot is not where the click was, columns %d to %d of %q", size, at.from, at.to, ansi.Strip(a.shown.lines[at.row]))
		}
		a.Update(tea.MouseClickMsg{X: (at.from + at.to) / 2, Y: at.row, Button: tea.MouseLeft})
		if got := f.Shape.String(); got != "0000" {
			t.Errorf("%v: a second click makes %s", size, got)
		}
	}
}
