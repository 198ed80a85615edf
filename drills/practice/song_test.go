package practice

import (
	"slices"
	"testing"

	"sparetone/drills/neck"
	"sparetone/theory/fret"
)

const loop = "title: Loop\nkey: C\ntempo: 100\n| C | Am | F | G7 |"

// A song is practised by its own chords, shapes and moves, and by ear in its loop; what is learnt counts for items that the course has as
// well.
func TestASongIsPractised(t *testing.T) {
	p, _ := appOf(t)
	w, err := p.NewSong(loop)
	if err != nil {
		t.Fatal(err)
	}
	way := OfSong(w)
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
