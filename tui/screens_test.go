package tui

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sparetone/tui/draw"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write the pictures of the screens anew")

// pictured are the scenes of which pictures are kept: every screen, and a question of every form.
var pictured = []string{
	"welcome-instrument", "welcome-hand", "welcome-sound", "welcome-soundless", "welcome-level", "welcome-cautions",
	"placement-eye", "placement-ear", "placement-found", "placement-beginner",
	"today", "today-later", "today-soundless", "help", "settings", "settings-found", "one-drill", "course", "course-chapter", "course-part", "course-meeting", "course-another-bass", "settings-checked", "weak-none", "weak",
	"bench", "bench-swap", "bench-typing", "ending", "ending-heard", "answers", "known", "known-nothing", "ending-unkept", "ending-empty", "saving",
	"question-chord-ear", "typing-chord-ear", "right-chord-ear", "wrong-added-ear",
	"reveal-sounding", "stopping",
	"question-shape-name", "typing-shape-name", "wrong-shape-name",
	"question-shape-tones", "question-build", "question-swap", "question-spell",
	"playing-swap", "playing-tones", "played-right", "played-wrong",
	"songs", "songs-none", "song-writing", "song-lines", "song", "song-playing", "song-unheld",
	"tuner-heard", "tuner-agrees",
	"lessons-none", "lessons", "lesson", "lesson-left",
	"words", "new-chord-ear", "new-added-ear", "new-progression-ear", "new-shape-name",
	"meeting-interval-ear", "meeting-added-ear", "meeting-progression-ear",
}

// The pictures of every screen lie in testdata/screens: without colours there, and in a folder for each
// look with the job of every character below it (see colours_test.go). -update writes them anew, to be
// looked at.
func TestScreens(t *testing.T) {
	folder := filepath.Join("testdata", "screens")
	if *update {
		if err := os.RemoveAll(folder); err != nil {
			t.Fatal(err)
		}
	}
	for _, l := range looks {
		if l.profile >= colorprofile.ANSI {
			golden(t, filepath.Join(folder, l.name, "legend.txt"), legend(draw.NewTheme(l.dark, l.profile)))
		}
	}
	for _, name := range pictured {
		a := sceneNamed(t, name)
		for _, size := range [][2]int{{60, 20}, {80, 24}, {200, 50}} {
			sized(a, size[0], size[1])
			for _, l := range looks {
				if l.profile == colorprofile.ANSI && size[0] != 80 {
					continue // where things stand is shown by the others
				}
				l.on(a)
				fits(t, a)
				got := plainText(drawn(a)) + "\n"
				if l.profile >= colorprofile.ANSI {
					got = inked(a.theme, drawn(a))
					if strings.Contains(got, noJob) {
						t.Errorf("%s on %s has a style that is none of the theme's:\n%s", name, l.name, got)
					}
				}
				golden(t, filepath.Join(folder, l.name, fmt.Sprintf("%s-%dx%d.txt", name, size[0], size[1])), got)
			}
		}
	}
}

// golden checks that a file has a text, or writes it with -update.
func golden(t *testing.T, path, text string) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), text); diff != "" {
		t.Errorf("%s:\n%s", path, diff)
	}
}

// Colours change nothing else: on whatever terminal and background, the same words and signs stand in the
// same places, and without colours there are none.
func TestColoursChangeNothingElse(t *testing.T) {
	t.Parallel()
	for _, s := range scenes() {
		a := sized(s.set(t), 80, 24)
		want := plainText(drawn(a))
		for _, profile := range []colorprofile.Profile{colorprofile.ASCII, colorprofile.ANSI, colorprofile.ANSI256, colorprofile.TrueColor} {
			for _, dark := range []bool{true, false} {
				a.theme = draw.NewTheme(dark, profile)
				text := drawn(a)
				if diff := cmp.Diff(want, plainText(text)); diff != "" {
					t.Errorf("%s on %v: %s", s.name, profile, diff)
				}
				if profile == colorprofile.ASCII && (strings.Contains(text, "\x1b[3") || strings.Contains(text, ";3")) {
					t.Errorf("%s has colours without colours: %q", s.name, text)
				}
			}
		}
	}
}

// Every screen at every size is no larger than the window, and what does not fit can be reached.
func TestEveryScreenAtEverySize(t *testing.T) {
	sizes := [][2]int{{1, 1}, {20, 5}, {39, 10}, {40, 9}, {40, 10}, {40, 24}, {60, 20}, {80, 24}, {132, 43}, {200, 50}, {300, 100}}
	for _, s := range scenes() {
		t.Run(s.name, func(t *testing.T) {
			t.Parallel()
			a := s.set(t)
			for _, size := range sizes {
				sized(a, size[0], size[1])
				fits(t, a)
				if size[0] < leastWidth || size[1] < leastHeight || !a.shown.more {
					continue
				}
				for range 20 {
					a.draw()
					a.Update(pressed("pgdown"))
				}
				if drawn(a); a.shown.below {
					t.Errorf("%s at %v: there is more and it cannot be reached", s.name, size)
				}
				for range 20 {
					a.draw()
					a.Update(pressed("pgup"))
				}
				if drawn(a); a.shown.scroll > 0 {
					t.Errorf("%s at %v: the beginning cannot be reached", s.name, size)
				}
				a.top()
			}
		})
	}
}

// fits checks that a screen is no larger than the terminal.
func fits(t *testing.T, a *app) {
	t.Helper()
	text := drawn(a)
	if h := lipgloss.Height(text); h > a.height {
		t.Fatalf("%d lines at %d×%d:\n%s", h, a.width, a.height, plainText(text))
	}
	for _, line := range strings.Split(text, "\n") {
		if w := ansi.StringWidth(line); w > a.width {
			t.Fatalf("a line of %d columns at %d×%d:\n%s", w, a.width, a.height, line)
		}
	}
	for _, s := range a.shown.spots {
		if s.row < 0 || s.row >= a.height {
			t.Fatalf("a place to click at line %d of %d", s.row, a.height)
		}
	}
}

// On the smallest screen that is promised nothing is cut off.
func TestNothingIsCutOff(t *testing.T) {
	t.Parallel()
	for _, s := range scenes() {
		a := sized(s.set(t), 60, 20)
		for _, l := range strings.Split(plainText(drawn(a)), "\n") {
			if strings.Contains(l, "…") {
				t.Errorf("%s: %s", s.name, l)
			}
		}
	}
}

// scene names are unique, so that pictures do not overwrite each other.
func TestSceneNames(t *testing.T) {
	var names []string
	for _, s := range scenes() {
		if slices.Contains(names, s.name) {
			t.Errorf("two scenes are called %s", s.name)
		}
		names = append(names, s.name)
	}
}
