package tui

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills/course"
	"sparetone/drills/meet"
	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/home"
)

// The course is heard in lines: chapters with how much is known of each, the parts of one, the things of one, and each thing again.
func TestPlainCourse(t *testing.T) {
	text := plainly(t, withHistory(t).App, "course", "4", "which seventh is it?", "2", "", "", "stop", "", "leave", "")
	says(t, text, "Met is seen or heard once", "1: Major and minor: 2 of 12 met, 2 known, 2 kept", "2: The doubled note: ", "none met yet",
		"Type the number of a chapter", "The major and the minor seventh chord: ", "Which seventh is it?: ", "Type the number of a part",
		"Practised in “Tell two notes or two chords apart”.", "Type the number of a thing", "Both have the same seventh")
}

// A part, or a chapter, is practised from its page: nothing else is asked.
func TestPartsOfTheCourseArePractised(t *testing.T) {
	for _, keys := range [][]string{{"c", "2", "p"}, {"c", "2", "1", "p"}} {
		a := keyed(atFirst(t, true), keys...)
		q, ok := a.place.(*asking.Question)
		if !ok || q.Asked.Drill != "doubled" && len(keys) == 4 {
			t.Errorf("%v leads to %T, %v", keys, a.place, q)
			continue
		}
		chapter := course.BuiltIn().Chapters()[1]
		if !slices.ContainsFunc(chapter.Steps, func(s course.Step) bool { return s.Drill == q.Asked.Drill && slices.Contains(s.Asks, q.Asked.Target) }) {
			t.Errorf("%v asks %s of %s, which the chapter has not", keys, q.Asked.Target, q.Asked.Drill)
		}
	}
}

// Chords over another note are met again from the parts of the drills in which they were met, and stand nowhere else.
func TestAnotherBassIsMetAgainFromTheCourse(t *testing.T) {
	for _, met := range []bool{true, false} {
		for part, want := range map[string]bool{"5": met, "4": false} { // to build, and to spell
			a := sized(keyed(metAnotherBass(t, met), "c", "2", part), 80, 24)
			if has := strings.Contains(plainText(drawn(a)), "a chord over another note"); has != want {
				t.Errorf("met %v, part %s:\n%s", met, part, plainText(drawn(a)))
			}
		}
	}
	a := keyed(metAnotherBass(t, true), "c", "2", "5", "3")
	m, meets := a.place.(*asking.Meeting)
	if !meets || m.Target != meet.AnotherBass || m.Drill != "build" {
		t.Fatalf("it leads to %T", a.place)
	}
	if keyed(a, "enter"); !strings.Contains(plainText(drawn(sized(a, 80, 24))), "Plain chords on an empty neck") {
		t.Errorf("it leads back to %T", a.place)
	}
}

// Where one begins is found out anew from the settings; it is taken, or left as it was.
func TestBeginningIsFoundOutAnew(t *testing.T) {
	before := setting.Standard.Level
	a := sceneNamed(t, "settings-checked")
	if keyed(a, "q"); a.Settings.Level != before {
		t.Errorf("left as it was, it is %v", a.Settings.Level)
	}
	a = sceneNamed(t, "settings-checked")
	if keyed(a, "enter"); a.Settings.Level == before {
		t.Error("what was found is not taken")
	}
	if kept, ok, err := a.File().Setting("level"); !ok || err != nil || kept != a.Settings.Level.ID() {
		t.Errorf("kept is %q, %v", kept, err)
	}
	if _, back := a.place.(*home.Settings); !back {
		t.Errorf("it leads to %T", a.place)
	}
}

// Columns go to what there is most of, and whatever there is has one.
func TestBarsAreShared(t *testing.T) {
	for _, c := range []struct {
		learnt practice.Learnt
		room   int
		want   string
	}{
		{practice.Learnt{Of: 12}, 12, "············"},
		{practice.Learnt{Of: 12, Met: 6, Known: 3, Kept: 1}, 12, "█▅▅▂▂▂······"},
		{practice.Learnt{Of: 100, Met: 1, Known: 1, Kept: 1}, 10, "█·········"},
		{practice.Learnt{Of: 100, Met: 99, Known: 98, Kept: 97}, 10, "███████▅▂·"},
		{practice.Learnt{Of: 2, Met: 1}, 24, "▂▂▂▂····"},
	} {
		if got := learntBar(c.learnt, c.room); got != c.want {
			t.Errorf("%+v in %d columns: %s, want %s", c.learnt, c.room, got, c.want)
		}
	}
}
