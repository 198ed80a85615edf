package tui

import (
	"strings"
	"testing"

	"sparetone/tui/page/asking"
)

// Who begins to type and stops has the other way to answer back, as it was left.
func TestStoppingToType(t *testing.T) {
	for _, id := range []string{"chord-ear", "shape-tones", "build", "swap"} {
		a := sized(asked(t, id), 80, 24)
		keyed(a, "down", "right", "down")
		want := plainText(drawn(a))
		keyed(a, "t", "m")
		if !a.typing {
			t.Fatalf("%s: t does not begin to type", id)
		}
		if keyed(a, "esc"); plainText(drawn(a)) != want {
			t.Errorf("%s: after typing there is\n%s\nand there was\n%s", id, plainText(drawn(a)), want)
		}
	}
	// Where all is typed, esc lets the other keys work, and t goes on.
	a := sized(asked(t, "spell"), 80, 24)
	if keyed(a, "C", "esc"); a.typing {
		t.Error("esc does not stop typing")
	}
	if _, ok := keyed(sized(asked(t, "spell"), 80, 24), "esc", "d").place.(*asking.Reveal); !ok || !strings.Contains(plainText(drawn(a)), "esc, then d") {
		t.Errorf("esc and then d do not say that it is not known, or nothing says so:\n%s", plainText(drawn(a)))
	}
	keyed(a, "t", "E")
	if got := a.field.Value(); got != "CE" {
		t.Errorf("%q is typed", got)
	}
}

// Enter on a neck on which nothing was done is no answer: it is what goes on elsewhere.
func TestEnterAloneIsNoAnswer(t *testing.T) {
	for id, want := range map[string]string{"build": "Set your fingers first", "swap": "Move one string first"} {
		a := sized(asked(t, id), 80, 24)
		keyed(a, "enter", "right", "enter", "enter")
		if _, ok := a.place.(*asking.Question); !ok || !strings.Contains(a.said.Screen(), want) {
			t.Errorf("%s: enter alone leads to %T, and says %q", id, a.place, a.said)
		}
	}
	// A string that was moved and moved back is where it was.
	a := sized(asked(t, "swap"), 80, 24)
	if keyed(a, "down", "up", "enter"); a.said.IsZero() {
		t.Errorf("an unmoved shape leads to %T", a.place)
	}
	// All strings open is an answer where it was meant.
	a = sized(asked(t, "build"), 80, 24)
	if keyed(a, "0", "enter"); !a.said.IsZero() {
		t.Errorf("open strings are no answer: %s", a.said)
	}
	if _, ok := a.place.(*asking.Reveal); !ok {
		t.Errorf("open strings lead to %T", a.place)
	}
}

// What is typed stands alone in its line, and below it what tab makes of it: enter answers the first.
func TestWhatIsTypedStandsAlone(t *testing.T) {
	a := sized(asked(t, "spell"), 80, 24)
	a.field.complete = func(string) []string { return []string{"f", "fm", "fm7"} }
	text := plainText(drawn(keyed(a, "f")))
	if !strings.Contains(text, "Your answer: f\n") || !strings.Contains(text, "tab: fm   fm7\n") {
		t.Errorf("with f typed there is\n%s", text)
	}
	if text := plainText(drawn(keyed(a, "down"))); !strings.Contains(text, "tab: fm7   fm\n") {
		t.Errorf("the other one is not offered first in\n%s", text)
	}
	if keyed(a, "tab"); a.field.text() != "fm7" {
		t.Errorf("tab makes it %q", a.field.text())
	}
}

// Who does not know may say so with a key, whatever form the answer has.
func TestNotKnown(t *testing.T) {
	for _, id := range []string{"chord-ear", "shape-tones", "build", "swap", "doubled"} {
		a := sized(asked(t, id), 80, 24)
		keyed(a, "d")
		r, ok := a.place.(*asking.Reveal)
		if !ok || !r.Verdict.NotKnown || !strings.Contains(plainText(drawn(a)), "✗ Not known yet: "+r.Verdict.Expected.Screen()) {
			t.Errorf("%s: d leads to %T\n%s", id, a.place, plainText(drawn(a)))
		}
	}
}

// After an answer every shape that belongs to it can be seen in turn, and then the first again.
func TestEveryShapeIsSeen(t *testing.T) {
	a := keyed(sized(asked(t, "progression-ear"), 80, 24), "1")
	r := a.place.(*asking.Reveal)
	if len(r.Verdict.Shapes) < 3 {
		t.Fatalf("a progression has %d shapes", len(r.Verdict.Shapes))
	}
	for n := range 2 * len(r.Verdict.Shapes) {
		want := r.Verdict.Shapes[n%len(r.Verdict.Shapes)]
		if !strings.Contains(plainText(drawn(a)), want.Caption.Screen()) {
			t.Errorf("after %d times there is no %s", n, want.Caption)
		}
		keyed(a, "tab")
	}
}

// Where there is no sound nothing after an answer is offered to be heard.
func TestNothingIsOfferedToBeHeardInSilence(t *testing.T) {
	for _, silent := range []bool{true, false} {
		a := keyed(atFirst(t, silent), "i", "d")
		r, ok := a.place.(*asking.Reveal)
		if !ok || len(r.Verdict.Asked) == 0 {
			t.Fatalf("%T has nothing that could be heard", a.place)
		}
		a.draw()
		if offered := strings.Contains(plainText(a.shown.lines[len(a.shown.lines)-1]), "again"); offered == silent {
			t.Errorf("silent %v: offered %v", silent, offered)
		}
	}
}

// In the list of answers no count is cut off, however long a drill is called.
func TestEndingCutsNoCount(t *testing.T) {
	for _, width := range []int{40, 60, 80} {
		a := keyed(sized(atFirst(t, true), width, 24), "d", "9", "d", "q", "a")
		a.draw()
		if text := plainText(strings.Join(a.shown.lines, "\n")); !strings.Contains(text, "0 of 1") || strings.Contains(text, "…") {
			t.Errorf("%d columns:\n%s", width, text)
		}
	}
}

// However narrow the screen is, the bottom line says that one may not know.
func TestNotKnowingIsSaidOnNarrowScreens(t *testing.T) {
	for _, id := range []string{"chord-ear", "interval-ear", "shape-name", "shape-tones", "doubled"} {
		if text := plainText(drawn(sized(asked(t, id), 60, 20))); !strings.Contains(text, "d don't know") {
			t.Errorf("%s:\n%s", id, text)
		}
	}
}
