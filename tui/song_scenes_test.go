package tui

import (
	"testing"
	"time"

	tea "charm.land/bubbletea/v2"

	"sparetone/tui/page/songs"
)

// evergreen is a chart of two parts, with a repeat.
const evergreen = `title: Evergreen
key: C
tempo: 96

[Verse]
| C | Am | F G | C |
| C | Am | Dm7 | G7 |
[Chorus]
|: F | G | Em | Am :|`

// written is the page of a song that was just written, pasted as a whole.
func written(t testing.TB, chart string) *app {
	t.Helper()
	a := sized(pasted(t, chart+"\n"), 80, 24)
	keyed(a, "enter", "enter")
	if _, ok := a.place.(*songs.Song); !ok {
		t.Fatalf("%T shows: %s", a.place, plainText(drawn(a)))
	}
	return a
}

// pasted is a song that is being written, into which something was pasted.
func pasted(t testing.TB, chart string) *app {
	a := keyed(atFirst(t, false), "o", "n")
	a.Update(tea.PasteMsg{Content: chart})
	return a
}

// songSpeaker is a speaker on which what was played last goes on.
type songSpeaker struct{ *fakeSpeaker }

func (s songSpeaker) Playing() bool { return s.played() > 0 }

// playing is a song that is played, up to some seconds, after some keys.
func playing(t testing.TB, chart string, seconds int, before ...string) *app {
	t.Helper()
	a := keyed(written(t, chart), before...)
	speaker := songSpeaker{a.Speaker.(*fakeSpeaker)}
	a.Speaker = speaker
	a.made = nil
	song(t, a, "space")
	listened(t, a, seconds)
	return a
}

// song presses a key that plays a song, and waits until it is played.
func song(t testing.TB, a *app, key string) {
	t.Helper()
	a.draw()
	_, cmd := a.Update(pressed(key))
	ready, ok := cmd().(readyMsg)
	if !ok {
		t.Fatal("nothing is made ready")
	}
	a.Update(ready)
}

// listened takes some seconds of what is played.
func listened(t testing.TB, a *app, seconds int) {
	t.Helper()
	speaker := a.Speaker.(songSpeaker)
	sound := speaker.sounds[len(speaker.sounds)-1]
	var buf [480][2]float64
	for range seconds * 100 {
		if n, ok := sound.Stream(buf[:]); n != len(buf) || !ok {
			t.Fatalf("%d samples, %v", n, ok)
		}
	}
	a.made = nil
}

// songScenes are the places of songs.
func songScenes() []scene {
	return []scene{
		{"songs-none", func(t testing.TB) *app { return keyed(atFirst(t, false), "o") }},
		{"songs", func(t testing.TB) *app {
			p, c := practiceOf(t, false)
			a := sized(newApp(p), 80, 24)
			keyed(a, "o", "n")
			a.Update(tea.PasteMsg{Content: evergreen + "\n"})
			keyed(a, "enter", "enter", "q", "n")
			c.at = c.at.Add(time.Minute) // of two songs the one that was kept last comes first
			a.Update(tea.PasteMsg{Content: "| G | Em | C | D |\n"})
			return keyed(a, "enter", "enter", "q", "down")
		}},
		{"song-file", func(t testing.TB) *app { return keyed(atFirst(t, false), "o", "o") }},
		{"song-writing", func(t testing.TB) *app { return pasted(t, "title: Evergreen\n| C | Am |") }},
		{"song-lines", func(t testing.TB) *app {
			return keyed(pasted(t, "title: Evergreen\n\n| C | Am |\n| F | G |\n"), "enter", "down", "down")
		}},
		{"song", func(t testing.TB) *app { return keyed(written(t, evergreen), "right", "right") }},
		{"song-chosen", func(t testing.TB) *app { return keyed(written(t, evergreen), "right", "c") }},
		{"song-playing", func(t testing.TB) *app { return playing(t, evergreen, 6, "right", "right") }}, // a chord that is fingered
		{"song-unheld", func(t testing.TB) *app { return keyed(written(t, "| C | Fm9b5/Db | G |"), "right") }},
		{"song-sheet", func(t testing.TB) *app { return keyed(written(t, evergreen), "w") }},
	}
}
