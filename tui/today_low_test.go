package tui

import (
	"slices"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
)

// On the smallest screen that is promised today's page is longer than the screen where lessons run: it says so, paging shows the rest, and
// what is marked is always in sight.
func TestTodayWithLessonsOnALowScreen(t *testing.T) {
	a := atFirst(t, false)
	for _, name := range []string{"One", "Two", "Three"} {
		if _, err := a.TakeLessonAt(lessonAt(t, strings.Replace(ninths, "Ninths in a loop", name, 1))); err != nil {
			t.Fatal(err)
		}
	}
	a = sized(keyed(a, "l", "esc"), 60, 20)
	first := plainText(drawn(a))
	if !strings.Contains(first, "Today") || !strings.Contains(first, "Lesson Three") || !strings.Contains(first, "pgdn more") {
		t.Fatalf("it does not begin with today, or does not say that there is more:\n%s", first)
	}
	fits(t, a)
	paged := plainText(drawn(keyed(a, "pgdown", "pgdown")))
	for _, way := range []string{"by ear only", "one drill", "lessons", "for my teacher", "settings"} {
		if !strings.Contains(first+paged, way) {
			t.Errorf("%s is nowhere", way)
		}
	}
	for n := range 13 {
		if text := plainText(drawn(a)); !strings.Contains(text, "›") {
			t.Errorf("after %d times down what is marked is out of sight:\n%s", n, text)
		}
		a = keyed(a, "down")
		fits(t, a)
	}
}

// Later days have four weeks of practice and one sentence more: at the smallest size that is promised all ways still show at once, for empty
// lines are left out where that makes all of a page fit; a page that does not fit without them either keeps them.
func TestEmptyLinesGoWhereAPageThenFits(t *testing.T) {
	a := sized(withHistory(t), 60, 20)
	text := plainText(drawn(a))
	if strings.Contains(text, "pgdn") || !strings.Contains(text, "settings") {
		t.Errorf("today's page does not show whole:\n%s", text)
	}
	if text := plainText(drawn(sized(a, 60, 16))); !strings.Contains(text, "pgdn") || !strings.Contains(text, "Today\n\n") {
		t.Errorf("what does not fit anyway has lost its empty lines:\n%s", text)
	}
	if text := plainText(drawn(sized(a, 80, 24))); !strings.Contains(text, "Today\n\n") {
		t.Errorf("what fits has lost its empty lines:\n%s", text)
	}
}

// The line between shapes and what is said of them is one of those that may go.
func TestTheLineBelowShapesMayGo(t *testing.T) {
	a := sized(sceneNamed(t, "new-chord-ear"), 60, 20)
	for closer, before := range map[int]bool{0: true, 100: false} {
		b := newBody(a.sight, 60, 18, sizesAt(20)[len(sizesAt(20))-1])
		b.dense, b.closer = true, closer
		a.body(b)
		n := slices.IndexFunc(b.lines, func(l string) bool { return strings.Contains(ansi.Strip(l), "From A to") })
		if n < 1 || (strings.TrimSpace(ansi.Strip(b.lines[n-1])) == "") != before {
			t.Errorf("with %d empty lines left out, before what is said in line %d stands an empty one: %v", closer, n, !before)
		}
	}
}
