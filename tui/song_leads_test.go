package tui

import (
	"reflect"
	"strings"
	"testing"

	"sparetone/tui/page"
	"sparetone/tui/page/home"
	"sparetone/tui/page/songs"
)

// songWays are the acts of the places of songs that lead elsewhere, and to which place; all others stay where they are.
var songWays = map[string]map[string]string{
	"songs-none":   {"new song": "Writing", "open song": "Prompt", "back": "Today"},
	"songs":        {"choose": "Song", "new song": "Writing", "open song": "Prompt", "back": "Today"},
	"song":         {"back": "List", "practise": "Question or Meeting", "rewrite": "Writing", "sheet": "Prompt"},
	"song-chosen":  {"back": "List", "practise": "Question or Meeting", "rewrite": "Writing", "sheet": "Prompt"},
	"song-playing": {"back": "List", "practise": "Question or Meeting", "rewrite": "Writing", "sheet": "Prompt"},
	"song-unheld":  {"back": "List", "practise": "Question or Meeting", "rewrite": "Writing", "sheet": "Prompt"},
}

// Each act of the places of songs leads where the table says, and there back to where it came from.
func TestActsOfSongsLeadWhereTheySay(t *testing.T) {
	t.Parallel()
	for name, ways := range songWays {
		led := map[string]bool{}
		for _, act := range sceneNamed(t, name).page().Acts {
			if act.ScreenOnly && ways[act.ID] == "" || !act.Off.IsZero() || act.Do == nil {
				continue
			}
			a := sized(sceneNamed(t, name), 80, 24)
			from := reflect.TypeOf(a.place).Elem().Name()
			want := ways[act.ID]
			if want == "" {
				want = from
			}
			led[act.ID] = true
			keyed(a, strings.Fields(act.Keys)[0])
			if got := reflect.TypeOf(a.place).Elem().Name(); !strings.Contains(want, got) {
				t.Errorf("%s: %s leads to %s, want %s", name, act.ID, got, want)
			}
			if want != "Writing" && want != "Prompt" {
				continue
			}
			if keyed(a, "esc"); want == "Writing" { // the first esc only leaves the field
				keyed(a, "esc")
			}
			if got := reflect.TypeOf(a.place).Elem().Name(); got != from {
				t.Errorf("%s: from %s esc leads to %s, want %s", name, act.ID, got, from)
			}
		}
		for id := range ways {
			if !led[id] {
				t.Errorf("%s has no act %s", name, id)
			}
		}
	}
}

// What is practised of a song ends with the song, where it was left; what is practised after it ends with today's page.
func TestPracticeOfASongLeadsBackToIt(t *testing.T) {
	a := keyed(written(t, evergreen), "right")
	left := a.place.(*songs.Song)
	keyed(a, "p")
	keyed(a, "esc", "q")
	end, ok := a.place.(*home.Ending)
	if !ok {
		t.Fatalf("%T shows: %s", a.place, plainText(drawn(a)))
	}
	if does := actOf(t, a, "go on").Does; does != "back to the song" {
		t.Errorf("the end leads %q", does)
	}
	keyed(a, "enter")
	if a.place != page.Place(left) {
		t.Fatalf("%T comes after %T", a.place, end)
	}
	if text := plainText(drawn(a)); !strings.Contains(text, "Back to “Evergreen”.") {
		t.Error(text)
	}
	keyed(a, "q")
	keyed(a, "q")
	if _, ok := a.place.(*home.Today); !ok {
		t.Fatalf("%T is where the songs lead back to", a.place)
	}
	keyed(a, "enter")
	keyed(a, "esc", "q", "enter")
	if _, ok := a.place.(*home.Today); !ok {
		t.Errorf("%T comes after another practice", a.place)
	}
}

// In lines the same: an empty line at the end goes back to the song.
func TestPracticeOfASongInLinesLeadsBackToIt(t *testing.T) {
	p, _ := practiceOf(t, true)
	text := plainly(t, p, "songs", "new", "title: Evergreen", "| C | Am | F | G |", "done", "practise", "stop", "next", "leave")
	says(t, text, "Back to “Evergreen”.", "At bar 2: ")
}
