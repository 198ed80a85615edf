package tui

import (
	"strings"
	"testing"
	"time"

	"sparetone/drills/practice"
)

// How to begin without harm is said once a day, on either face, and never on two pages in a row.
func TestCautionsOnceADay(t *testing.T) {
	caution := strings.Fields(practice.Cautions)
	shown := func(a *app) bool {
		return strings.Contains(plainText(drawn(sized(a, 80, 24))), strings.Join(caution[:5], " "))
	}
	p, c := practiceOf(t, true)
	a := newApp(p)
	if !shown(a) {
		t.Error("today does not begin with them")
	}
	if keyed(a, "enter", "q", "enter"); shown(a) {
		t.Error("they stand there twice a day")
	}
	if shown(newApp(p)) {
		t.Error("they stand there again when the program is begun again that day")
	}
	if text := plainly(t, p, "leave", ""); strings.Contains(text, practice.Cautions) {
		t.Errorf("lines say them again that day:\n%s", text)
	}
	c.at = c.at.Add(24 * time.Hour)
	if !shown(newApp(p)) {
		t.Error("the next day they are not there")
	}
	says(t, plainly(t, p, "leave", ""), practice.Cautions)

	p, _ = practiceOf(t, true)
	p.New = true
	a = keyed(newApp(p), "enter", "enter", "enter", "enter")
	if !shown(a) {
		t.Errorf("the first run ends without them:\n%s", plainText(drawn(a)))
	}
	if keyed(a, "enter"); shown(a) {
		t.Error("they stand on two pages in a row")
	}
	p, _ = practiceOf(t, true)
	p.New = true
	if text := plainly(t, p, "", "", "", "", "", "leave", ""); strings.Count(text, caution[0]+" "+caution[1]) != 1 {
		t.Errorf("the first run in lines says them other than once:\n%s", text)
	}
}

// Whether the open strings are heard can be answered with no on the screen, and the screen says how.
func TestHearingNothingIsAnAnswer(t *testing.T) {
	p, _ := practiceOf(t, false)
	p.New = true
	a := sized(keyed(newApp(p), "enter", "enter"), 60, 20)
	text := plainText(drawn(a))
	if !strings.Contains(text, "Can you hear this?") || !strings.Contains(text, "enter yes") || !strings.Contains(text, "n no, nothing") {
		t.Errorf("it asks\n%s", text)
	}
	if keyed(a, "n"); !a.Setup.Silent || strings.Contains(plainText(drawn(a)), "Can you hear this?") {
		t.Errorf("after no it shows\n%s", plainText(drawn(a)))
	}
}
