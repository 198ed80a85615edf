package practice

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"sparetone/drills/neck"
	"sparetone/progress"
	"sparetone/theory/fret"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
	"sparetone/theory/song/musicxml"
)

// songOf begins a song.
func songOf(t *testing.T, p *App, chart string) *SongWork {
	t.Helper()
	w, err := p.NewSong(chart)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

const loop = "title: Loop\nkey: C\ntempo: 100\n| C | Am | F | G7 |"

// What is chosen of a song is written as it is read, and is there when it is opened again; what no longer fits is left out.
func TestChosenShapesAreKept(t *testing.T) {
	p, _ := appOf(t)
	w := songOf(t, p, loop)
	for _, do := range []func() error{func() error { return w.NextColour(1) }, func() error { return w.NextShape(0) }, func() error { return w.Richer(2) }, w.Alternate} {
		if err := do(); err != nil {
			t.Fatal(err)
		}
	}
	songs, err := p.KeptSongs()
	if err != nil || len(songs) != 1 {
		t.Fatalf("%d songs, %v", len(songs), err)
	}
	if got := songs[0]; got.Rich != 7 || got.Sounds != "by-bars" || got.Tuning != "ukulele" || !strings.Contains(got.Shapes, "C=") || !strings.Contains(got.Shapes, "Am>") {
		t.Errorf("%+v", got)
	}
	again, err := p.KeptSong(songs[0])
	if err != nil {
		t.Fatal(err)
	}
	for n := range w.Places {
		if !slices.Equal(w.Places[n].Path.Shape, again.Places[n].Path.Shape) || !slices.Equal(w.Places[n].Plain.Shape, again.Places[n].Plain.Shape) {
			t.Errorf("%v is %v and %v, was %v and %v", w.Places[n].Chord, again.Places[n].Plain.Shape, again.Places[n].Path.Shape, w.Places[n].Plain.Shape, w.Places[n].Path.Shape)
		}
	}
	songs[0].Shapes = "C=0003 nonsense X=1 C>x32010 D=2220 Am>0232 F="
	if again, err = p.KeptSong(songs[0]); err != nil || !again.Settled(0) || again.Settled(1) || again.Settled(2) {
		t.Errorf("%v", err)
	}
	if written(again.fixed) != "C=0003" {
		t.Errorf("%q", written(again.fixed))
	}
	if err := again.Free(0); err != nil || again.Settled(0) {
		t.Error(err)
	}
}

// All colours come in turn, then the plain shape, then the first again; all plain shapes come in turn.
func TestColoursAndShapesComeInTurn(t *testing.T) {
	p, _ := appOf(t)
	w := songOf(t, p, loop)
	seen := map[string]int{}
	for range len(w.Places[2].Colours) + 1 {
		if err := w.NextColour(2); err != nil {
			t.Fatal(err)
		}
		seen[w.Places[2].Path.Shape.String()]++
	}
	if len(seen) != len(w.Places[2].Colours)+1 {
		t.Errorf("%d shapes of %d colours and the plain one", len(seen), len(w.Places[2].Colours))
	}
	all := arrange.Shapes(w.Tuning, w.Places[2].Chord)
	seen = map[string]int{}
	for range all {
		if err := w.NextShape(2); err != nil {
			t.Fatal(err)
		}
		seen[w.Places[2].Plain.Shape.String()]++
	}
	if len(seen) != len(all) {
		t.Errorf("%d of %d shapes", len(seen), len(all))
	}
}

// The tempo lies within what is played, and the chart says it.
func TestTempoOfASong(t *testing.T) {
	p, _ := appOf(t)
	w := songOf(t, p, loop)
	if err := w.Faster(5); err != nil || w.Tempo() != 105 || !strings.Contains(w.Chart(), "tempo: 105") {
		t.Errorf("%v, %v: %s", err, w.Tempo(), w.Chart())
	}
	if err := w.Faster(1000); err != nil || w.Tempo() != song.HighestTempo {
		t.Errorf("%v, %v", err, w.Tempo())
	}
	if err := w.Faster(-1000); err != nil || w.Tempo() != song.LowestTempo {
		t.Errorf("%v, %v", err, w.Tempo())
	}
}

// Bars are those that are written, each once, with their sections.
func TestBarsOfASong(t *testing.T) {
	p, _ := appOf(t)
	var got []string
	for _, b := range songOf(t, p, "[A]\n|: C | F G :|\n[B]\n| Am | |").Bars() {
		got = append(got, b.Section)
		for _, n := range b.Played {
			got = append(got, string(rune('0'+n)))
		}
		got = append(got, strings.Repeat("x", len(b.Places)))
	}
	if text := strings.Join(got, " "); text != "A 1 3 x  2 4 xx B 5 x" {
		t.Errorf("%q", text)
	}
}

// Songs come from files, and what is no chart is told in a line.
func TestSongsFromFiles(t *testing.T) {
	p, _ := appOf(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "loop.txt")
	if err := os.WriteFile(path, []byte(loop), 0o600); err != nil {
		t.Fatal(err)
	}
	w, err := p.OpenSong(path)
	if err != nil || w.Title().Screen() != "Loop" {
		t.Fatalf("%v", err)
	}
	xml := filepath.Join(dir, "loop.musicxml")
	if err := os.WriteFile(xml, []byte(musicxml.Write(w.Arrangement, true)), 0o600); err != nil {
		t.Fatal(err)
	}
	if w, err = p.OpenSong(xml); err != nil || len(w.Places) != 4 || musicxml.Is(w.Chart()) {
		t.Errorf("%v", err)
	}
	long := filepath.Join(dir, "long.txt")
	if err := os.WriteFile(long, []byte(loop+strings.Repeat("\n\\la la", progress.LongestChart/6)), 0o600); err != nil {
		t.Fatal(err)
	}
	for path, says := range map[string]string{dir: "no file with a chart", filepath.Join(dir, "none"): "no such file", long: "at most 24576 bytes"} {
		if _, err := p.OpenSong(path); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want %q", path, err, says)
		}
	}
}

// A song is practised by its own chords, shapes and moves, and by ear in its loop; what is learnt counts for items that the course has as
// well.
func TestASongIsPractised(t *testing.T) {
	p, _ := appOf(t)
	w := songOf(t, p, loop)
	way := w.Way()
	for _, place := range w.Places {
		if !slices.ContainsFunc(way.Hold.Chords, func(h neck.HeldChord) bool {
			return h.Kind == place.Path.Chord.Kind && h.Root == place.Path.Chord.Root && slices.ContainsFunc(h.Shapes, func(s fret.Shape) bool { return slices.Equal(s, place.Path.Shape) })
		}) {
			t.Errorf("%v in %v is not held to", place.Path.Chord, place.Path.Shape)
		}
	}
	if len(way.Hold.Loop) != 4 || *way.Hold.Key != w.Key || len(way.Hold.Moves) == 0 {
		t.Errorf("%+v", way.Hold)
	}
	asks := map[string][]string{}
	for _, s := range way.Course {
		asks[s.Drill] = s.Asks
	}
	for drill, target := range map[string]string{"chord-ear": "major", "shape-name": "minor", "shape-tones": "dominant", "build": "major", "doubled": "root", "spell": "major", "progression-ear": "with-a-ninth", "swap": "", "added-ear": ""} {
		if len(asks[drill]) == 0 || target != "" && !slices.Contains(asks[drill], target) {
			t.Errorf("%s asks %v", drill, asks[drill])
		}
	}
	if slices.Contains(asks["chord-ear"], "diminished") || len(asks["interval-ear"]) > 0 {
		t.Errorf("%v", asks)
	}
	if err := p.Begin(way); err != nil {
		t.Fatal(err)
	}
	if on := p.Session.On(); on.Name() != "ukulele" {
		t.Errorf("%s", on.Name())
	}
	again, err := p.SongWay(loop)
	if err != nil || len(again.Course) != len(way.Course) {
		t.Errorf("%v", err)
	}
	if _, err := p.SongWay("nothing"); err == nil {
		t.Error("words are practised")
	}
}
