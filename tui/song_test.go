package tui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/tui/page/asking"
	"sparetone/tui/page/songs"
)

// now is what of the song is played.
func nowPlayed(t *testing.T, a *app) (bar int, path bool, tempo float64) {
	t.Helper()
	now, playing := a.place.(*songs.Song).Work().Playing()
	if !playing {
		t.Fatal("nothing is played")
	}
	return now.Bar, now.Path, now.Tempo
}

// A song that is played is counted in, marked bar by bar, and changed from the next bar line on by one key each.
func TestASongIsChangedWhileItPlays(t *testing.T) {
	a := playing(t, evergreen, 0) // 96 beats a minute: a bar is 2.5 s
	if bar, _, _ := nowPlayed(t, a); bar != 0 {
		t.Errorf("bar %d while it is counted in", bar)
	}
	listened(t, a, 3)
	if bar, path, tempo := nowPlayed(t, a); bar != 1 || !path || tempo != 96 {
		t.Errorf("bar %d, path %v at %v", bar, path, tempo)
	}
	if text := plainText(drawn(a)); !strings.Contains(text, "♪ [Cmaj7]") {
		t.Error(text)
	}
	keyed(a, "tab", ">", ">", ">", ">")
	listened(t, a, 1)
	if bar, path, tempo := nowPlayed(t, a); bar != 1 || !path || tempo != 96 {
		t.Errorf("before the bar line: bar %d, path %v at %v", bar, path, tempo)
	}
	listened(t, a, 2)
	if bar, path, tempo := nowPlayed(t, a); bar != 2 || path || tempo != 116 {
		t.Errorf("after the bar line: bar %d, path %v at %v", bar, path, tempo)
	}
	if text := plainText(drawn(a)); !strings.Contains(text, "♪ Am ") {
		t.Error(text)
	}
	if keyed(a, "space"); a.Speaker.(songSpeaker).stops == 0 {
		t.Error("it is not stopped")
	}
}

// What is done to a song is kept: opened again it is as it was left.
func TestASongIsKeptAsItWasLeft(t *testing.T) {
	a := written(t, evergreen)
	keyed(a, "right", "c", "]", ">", "tab", "q")
	a.draw()
	keyed(a, "enter")
	k := a.place.(*songs.Song).Work()
	if got := k.Places[1].Path.Chord.String(); got != "Am(add9)" && got != "Amadd9" {
		t.Errorf("Am is %s", got)
	}
	if k.Rich != 6 || k.Tempo() != 101 || string(k.Sounds) != "plain" || !strings.Contains(k.Chart(), "Evergreen") {
		t.Errorf("rich %d, %v, %s:\n%s", k.Rich, k.Tempo(), k.Sounds, k.Chart())
	}
	keyed(a, "q", "x")
	if songs, err := a.KeptSongs(); err != nil || len(songs) != 1 {
		t.Errorf("after one key: %d, %v", len(songs), err)
	}
	keyed(a, "x")
	if songs, err := a.KeptSongs(); err != nil || len(songs) != 0 {
		t.Errorf("after two: %d, %v", len(songs), err)
	}
}

// A chart that cannot be read is told by line, and nothing that was written is lost.
func TestAChartThatCannotBeRead(t *testing.T) {
	a := sized(pasted(t, "| C | Amm |\n"), 80, 24)
	keyed(a, "enter", "enter")
	if text := plainText(drawn(a)); !strings.Contains(text, "ine 1, column 7") || !strings.Contains(text, "| C | Amm |") {
		t.Fatal(text)
	}
	keyed(a, "enter", "r")
	if got := a.field.Value(); got != "| C | Amm |" {
		t.Fatalf("%q is written anew", got)
	}
	keyed(a, "backspace", "backspace", "backspace", "space", "|", "enter", "enter", "enter")
	if _, ok := a.place.(*songs.Song); !ok {
		t.Error(plainText(drawn(a)))
	}
}

// The chart is changed where it stands; shapes that were chosen stay.
func TestAChartIsChanged(t *testing.T) {
	a := written(t, "| C | Am |")
	keyed(a, "c", "c", "e")
	for _, key := range []string{"|", "space", "F", "space", "|", "enter", "enter", "enter"} {
		keyed(a, key)
	}
	k := a.place.(*songs.Song).Work()
	if len(k.Places) != 3 || !k.Settled(0) || k.Settled(1) {
		t.Errorf("%d places, settled %v", len(k.Places), k.Settled(0))
	}
}

func TestASheetIsWritten(t *testing.T) {
	for _, ending := range []string{".html", ".svg", ".pdf"} {
		a := written(t, evergreen)
		keyed(a, "w")
		path := filepath.Join(t.TempDir(), "sheet"+ending)
		a.field.SetValue(path)
		keyed(a, "enter")
		if got, err := os.ReadFile(path); err != nil || len(got) < 1000 {
			t.Errorf("%s: %d bytes, %v: %s", ending, len(got), err, plainText(drawn(a)))
		}
		keyed(a, "w")
		a.field.SetValue(path)
		if text := plainText(drawn(keyed(a, "enter"))); !strings.Contains(text, "exists") {
			t.Errorf("%s is written over: %s", ending, text)
		}
	}
}

// What was written on the page is given to others as a chart, and as a lesson that can be taken.
func TestAChartAndALessonAreWritten(t *testing.T) {
	a := written(t, evergreen)
	dir := t.TempDir()
	for _, name := range []string{"song.txt", "song.toml"} {
		keyed(a, "w")
		a.field.SetValue(filepath.Join(dir, name))
		keyed(a, "enter")
	}
	if got, err := os.ReadFile(filepath.Join(dir, "song.txt")); err != nil || string(got) != evergreen+"\n" {
		t.Errorf("%s, %v", got, err)
	}
	if taken, err := a.TakeLessonAt(filepath.Join(dir, "song.toml")); err != nil || taken.Name != "Evergreen" {
		t.Errorf("%+v, %v", taken, err)
	}
}

// Practising a song asks about its chords alone, and says so.
func TestASongIsPractised(t *testing.T) {
	a := keyed(written(t, evergreen), "p")
	if a.Way.Hold == nil || !strings.Contains(a.Part().Screen(), "Evergreen") {
		t.Fatalf("%+v", a.Way)
	}
	switch a.place.(type) {
	case *asking.Question, *asking.Meeting:
	default:
		t.Errorf("%T", a.place)
	}
}
