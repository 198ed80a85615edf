package harmony

import (
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/read"
)

func chordsTyped(t *testing.T, symbols ...string) (out []theory.Chord) {
	t.Helper()
	for _, s := range symbols {
		c, err := read.Chord(s)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, c)
	}
	return out
}

// Held to the loop of a song, a question which chord was coloured plays chords of the loop as they come, one of them coloured, and its answer
// is right.
func TestColoursOfALoop(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	loop := chordsTyped(t, "C", "G", "Am", "F", "Dm")
	key := theory.Key{Tonic: loop[0].Root}
	hold := neck.Hold{Key: &key, Loop: loop}
	for _, c := range loop {
		hold.Chords = append(hold.Chords, neck.HeldChord{Chord: c})
	}
	held := on.HeldTo(hold)
	rng := rand.New(rand.NewPCG(1, 2))
	begins := map[string]bool{}
	for n := range 120 {
		target := rowTask{colour: &colours[n%len(colours)]}.ID()
		q, err := ProgressionEar{}.Ask(drills.Request{Target: target, On: held, Reach: 1, Rand: rng})
		if err != nil {
			t.Fatal(err)
		}
		v, err := q.Mark(q.Expected().Typed)
		if err != nil || v.Result.String() != "right" {
			t.Fatalf("%s: %v, %v", q.Expected().Typed, v.Result, err)
		}
		heard := q.Sounds[len(q.Sounds)-longestHeldRow:]
		at := slices.IndexFunc(loop, func(c theory.Chord) bool {
			for i, s := range heard {
				if plainIn(s, loop[(slices.Index(loop, c)+i)%len(loop)]) != len(s.Notes) && i != int(q.Expected().Typed[0]-'1') {
					return false
				}
			}
			return true
		})
		if at < 0 {
			t.Fatalf("%s: not of the loop: %s", q.Expected().Typed, q.Text())
		}
		begins[loop[at].String()] = true
	}
	if len(begins) != len(loop) {
		t.Errorf("it begins on %v", begins)
	}
	for _, hold.Loop = range [][]theory.Chord{chordsTyped(t, "C"), chordsTyped(t, "C7", "F7"), chordsTyped(t, "Bdim", "Bdim")} {
		if _, err := (ProgressionEar{}).Ask(drills.Request{Target: "with-a-ninth", On: on.HeldTo(hold), Reach: 1, Rand: rng}); err == nil || err.Error() != errNotTaught.Error() {
			t.Errorf("%v: %v", hold.Loop, err)
		}
	}
}

// plainIn counts the notes of a sound that are of a chord.
func plainIn(s drills.Sound, c theory.Chord) (n int) {
	for _, note := range s.Notes {
		for _, own := range c.Kind.Formula {
			if c.Root.Up(own).Same(note.Pitch.Note) {
				n++
			}
		}
	}
	return n
}
