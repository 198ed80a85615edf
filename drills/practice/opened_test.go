package practice

import (
	"testing"
	"time"

	"sparetone/drills/course"
	"sparetone/drills/meet"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/progress/store"
	"sparetone/theory/say"
)

// Whoever begins further on in the course is not told what a chord is; from the beginning each word is explained.
func TestWordsThatALevelKnows(t *testing.T) {
	for _, row := range []struct {
		level string
		knows map[string]bool
	}{
		{"", map[string]bool{"chord": false, "root": false, "suspended": false}},
		{"thirds", map[string]bool{"chord": true, "minor": true, "root": false, "suspended": false}},
		{"soft-sevenths", map[string]bool{"chord": true, "root": true, "seventh": true, "suspended": false, "spare": false, "numeral": false, "scale": false}},
		{"added-heard", map[string]bool{"root": true, "suspended": true, "spare": false, "numeral": true, "key": true, "scale": true, "tonic": true,
			"progression": true, "degree": true}},
	} {
		p := App{Settings: setting.Values{Level: course.Level{Ear: row.level, Eye: row.level}}, Setup: session.Setup{File: emptyFile(t)}}
		for term, knows := range row.knows {
			if p.Opened(term) != knows {
				t.Errorf("from %q on %s is known: %v", row.level, term, !knows)
			}
		}
	}
	// Who is as far by ear alone knows no more than by eye.
	p := App{Settings: setting.Values{Level: course.Level{Ear: "soft-sevenths", Eye: "thirds"}}, Setup: session.Setup{File: emptyFile(t)}}
	if p.Opened("root") || !p.Opened("chord") {
		t.Error("what is known by ear alone is taken for known")
	}
}

// What a word of the trade is known from is a step of the course.
func TestWordsAreKnownFromAStep(t *testing.T) {
	for _, term := range meet.Terms(say.Of("chord octave semitone interval triad root third fifth seventh ninth major minor plain flat sharp fourth sixth suspended added doubled tone")) {
		if _, ok := course.StepByID(term.Before); !ok {
			t.Errorf("%s is known from %q, which is no step", term.ID, term.Before)
		}
	}
}

// emptyFile is a progress file in memory.
func emptyFile(t *testing.T) *store.File {
	t.Helper()
	file, err := store.InMemory(time.Now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = file.Close() })
	return file
}
