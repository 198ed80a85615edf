package tui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/tui/page/asking"
)

// plainPages are what is said in lines of text of the pages of practice: each with what was typed before it.
func plainPages() map[string]func(t *testing.T) string {
	all := map[string]func(t *testing.T) string{
		"today":   func(t *testing.T) string { return plainly(t, atFirst(t, true).App, "leave", "") },
		"later":   func(t *testing.T) string { return plainly(t, withHistory(t).App, "leave", "") },
		"course":  func(t *testing.T) string { return plainly(t, withHistory(t).App, "course", "1", "1", "1", "leave", "") },
		"known":   func(t *testing.T) string { return plainly(t, withHistory(t).App, "known", "leave", "") },
		"unknown": func(t *testing.T) string { return plainly(t, atFirst(t, false).App, "known", "leave", "") },
		"weak":    func(t *testing.T) string { return plainly(t, withHistory(t).App, "weak", "leave", "") },
		"another": func(t *testing.T) string {
			return plainly(t, metAnotherBass(t, true).App, "course", "2", "5", "3", "why", "", "leave", "")
		},
		"one-drill": func(t *testing.T) string { return plainly(t, atFirst(t, true).App, "drills", "leave", "") },
		"settings":  func(t *testing.T) string { return plainly(t, atFirst(t, false).App, "settings", "leave", "") },
		"empty":     func(t *testing.T) string { return plainly(t, atFirst(t, true).App, "", "stop", "leave", "") },
		"stopping": func(t *testing.T) string {
			a := asked(t, "shape-name")
			return plainly(t, ofDrill(t, "shape-name", atOnce), "", given(a.place.(*asking.Question).Asked, true), "", "stop", "leave", "")
		},
		"songs-none": func(t *testing.T) string {
			return plainly(t, atFirst(t, false).App, "songs", "help", "back", "leave", "")
		},
		"song": func(t *testing.T) string {
			written := append([]string{"songs", "new"}, append(strings.Split(evergreen, "\n"), "done")...)
			at := []string{"next", "colour", "shape", "found", "bars", "richer", "switch", "turns", "faster", "click", "count", "help", "practise", "stop", "back", "back", "leave", ""}
			return plainly(t, atFirst(t, true).App, append(written, at...)...)
		},
		"song-lines": func(t *testing.T) string {
			return plainly(t, atFirst(t, false).App, "songs", "new", "title: Evergreen", "| C | Am |", "| F | Gzz |", "done", "line 3", "| F | G |", "drop 2", "help", "done", "back", "leave", "")
		},
		"lessons-none": func(t *testing.T) string {
			return plainly(t, atFirst(t, false).App, "lessons", "help", "back", "leave", "")
		},
		"lessons": func(t *testing.T) string {
			return plainly(t, withLessons(t).App, "lessons", "1", "help", "back", "2", "take up", "1", "give up", "give up", "back", "leave", "")
		},
		"tuner": func(t *testing.T) string {
			a, _ := withMicrophone(t)
			text := plainly(t, a.App, "tune", "help", "back", "leave", "")
			return strings.ReplaceAll(text, "The microphone opens.\n", "") // when that is said is up to the microphone
		},
		"welcome": func(t *testing.T) string {
			p, _ := practiceOf(t, true)
			p.New = true
			return plainly(t, p, "", "", "", "", "", "", "leave", "")
		},
	}
	for _, d := range catalogue.All() {
		id := d.About().ID
		all["new-"+id] = func(t *testing.T) string {
			return plainly(t, ofDrill(t, id, setting.Read), "", "why", "stop", "leave", "")
		}
		all["answered-"+id] = func(t *testing.T) string {
			practised := func() (practice.App, *asking.Question) {
				a := asked(t, id)
				return ofDrill(t, id, atOnce), a.place.(*asking.Question)
			}
			out := ""
			for _, right := range []bool{true, false} {
				p, q := practised()
				out += plainly(t, p, "", typedFor(q.Asked.Question, right), "why", "stop", "leave", "")
			}
			return out
		}
	}
	return all
}

// typedFor is what is typed to answer a question, right or wrong.
func typedFor(q *drills.Question, right bool) string {
	if right {
		return q.Expected().Typed
	}
	if i := slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID != q.Expected().ID }); i >= 0 {
		return q.Choices[i].Typed
	}
	return map[drills.Form]string{drills.Tones: "R R R R", drills.Frets: "0 0 0 0", drills.Notes: "C D E"}[q.Form]
}

// What lines of text say of the pages of practice lies in testdata/plain, to be read when it changes: with -update it is written anew.
func TestPlainPages(t *testing.T) {
	home, err := os.UserHomeDir()
	if err != nil {
		t.Fatal(err)
	}
	for name, written := range plainPages() {
		said := func(t *testing.T) string { return strings.ReplaceAll(written(t), home, "~") }
		text := said(t)
		golden(t, filepath.Join("testdata", "plain", name+".txt"), text)
		if again := said(t); again != text {
			t.Errorf("%s is said otherwise again", name)
		}
		if strings.Contains(text, "is not understood") {
			t.Errorf("%s: something that was typed is not understood:\n%s", name, text)
		}
	}
}
