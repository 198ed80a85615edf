package songwork

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills/practice/setting"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
	"sparetone/theory/song/musicxml"
)

// player plays as the settings are from the beginning, and keeps songs in a progress file in memory.
type player struct{ file *store.File }

func (p player) Chosen() setting.Values { return setting.Standard }
func (p player) File() *store.File      { return p.file }
func (p player) HeardA4() float64       { return setting.Standard.A4 }

func newPlayer(t *testing.T) player {
	t.Helper()
	file, err := store.InMemory(time.Now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = file.Close() })
	return player{file}
}

// songOf begins a song.
func songOf(t *testing.T, p player, chart string) *Work {
	t.Helper()
	w, err := New(p, chart)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

const loop = "title: Loop\nkey: C\ntempo: 100\n| C | Am | F | G7 |"

// What is chosen of a song is written as it is read, and is there when it is opened again; what no longer fits is left out.
func TestChosenShapesAreKept(t *testing.T) {
	p := newPlayer(t)
	w := songOf(t, p, loop)
	for _, do := range []func() error{func() error { return w.NextColour(1) }, func() error { return w.NextShape(0) }, func() error { return w.Richer(2) }, w.Alternate} {
		if err := do(); err != nil {
			t.Fatal(err)
		}
	}
	songs, err := p.file.Songs()
	if err != nil || len(songs) != 1 {
		t.Fatalf("%d songs, %v", len(songs), err)
	}
	if got := songs[0]; got.Rich != 7 || got.Sounds != "by-bars" || got.Tuning != "ukulele" || !strings.Contains(got.Shapes, "C=") || !strings.Contains(got.Shapes, "Am>") {
		t.Errorf("%+v", got)
	}
	again, err := GoOn(p, songs[0])
	if err != nil {
		t.Fatal(err)
	}
	for n := range w.Places {
		if !slices.Equal(w.Places[n].Path.Shape, again.Places[n].Path.Shape) || !slices.Equal(w.Places[n].Plain.Shape, again.Places[n].Plain.Shape) {
			t.Errorf("%v is %v and %v, was %v and %v", w.Places[n].Chord, again.Places[n].Plain.Shape, again.Places[n].Path.Shape, w.Places[n].Plain.Shape, w.Places[n].Path.Shape)
		}
	}
	songs[0].Shapes = "C=0003 nonsense X=1 C>x32010 D=2220 Am>0232 F="
	if again, err = GoOn(p, songs[0]); err != nil || !again.Settled(0) || again.Settled(1) || again.Settled(2) {
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
	p := newPlayer(t)
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
	p := newPlayer(t)
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
	p := newPlayer(t)
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
	p := newPlayer(t)
	dir := t.TempDir()
	path := filepath.Join(dir, "loop.txt")
	if err := os.WriteFile(path, []byte(loop), 0o600); err != nil {
		t.Fatal(err)
	}
	w, err := Open(p, path)
	if err != nil || w.Title().Screen() != "Loop" {
		t.Fatalf("%v", err)
	}
	xml := filepath.Join(dir, "loop.musicxml")
	if err := os.WriteFile(xml, []byte(musicxml.Write(w.Arrangement, true)), 0o600); err != nil {
		t.Fatal(err)
	}
	if w, err = Open(p, xml); err != nil || len(w.Places) != 4 || musicxml.Is(w.Chart()) {
		t.Errorf("%v", err)
	}
	long := filepath.Join(dir, "long.txt")
	if err := os.WriteFile(long, []byte(loop+strings.Repeat("\n\\la la", progress.LongestChart/6)), 0o600); err != nil {
		t.Fatal(err)
	}
	for path, says := range map[string]string{dir: "no file with a chart", filepath.Join(dir, "none"): "no such file", long: "at most 24576 bytes"} {
		if _, err := Open(p, path); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v, want %q", path, err, says)
		}
	}
}
