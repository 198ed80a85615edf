package catalogue

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/ear"
	"sparetone/drills/trial"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// The record and what is opened up keep the order in which notes are plucked, whatever strings they lie on.
func TestNotesComeInTheOrderPlucked(t *testing.T) {
	on, heard := trial.Instrument(t, "ukulele"), map[string]int{}
	rng := rand.New(rand.NewPCG(4, 44))
	for range 200 {
		q, err := ear.Interval{}.Ask(drills.Request{Target: "m3", On: on, Reach: 1, Rand: rng})
		if err != nil {
			t.Fatal(err)
		}
		way := ""
		switch {
		case strings.Contains(q.Prompt.Screen(), "going up"):
			way = "up"
		case strings.Contains(q.Prompt.Screen(), "going down"):
			way = "down"
		default:
			continue
		}
		heard[way]++
		first, then := q.Sounds[0].Plucked()[0].Pitch, q.Sounds[0].Plucked()[1].Pitch
		if (then.MIDI() > first.MIDI()) != (way == "up") {
			t.Fatalf("%s has %s, then %s", q.Prompt, first, then)
		}
		if want := q.Prompt.Screen() + " " + first.String() + " " + then.String(); q.Text() != want {
			t.Fatalf("recorded as %q, want %q", q.Text(), want)
		}
		if opened := q.Sounds[0].Opened().Score.Plucks; opened[0].Pitch != first || opened[1].At <= opened[0].At {
			t.Fatalf("%s %s, then %s; opened up it begins with %s", q.Prompt, first, then, opened[0].Pitch)
		}
	}
	if heard["up"] < 20 || heard["down"] < 20 {
		t.Fatalf("heard %v", heard)
	}
	// An upstroke begins on the other side.
	c, err := read.Chord("C")
	if err != nil {
		t.Fatal(err)
	}
	v, err := fret.Voice(on.Tuning, fret.Shape{0, 0, 0, 3}, c)
	if err != nil {
		t.Fatal(err)
	}
	up := drills.Played(say.Text{}, v, synth.Up)
	if first := up.Plucked()[0].String; first != 1 {
		t.Errorf("an upstroke begins on string %d", first)
	}
	// The root of C as 0003 lies on the third string and on the first; the lower is heard first, then the others.
	if !up.Rooted() {
		t.Fatal("C has no root")
	}
	var from []int
	for _, p := range up.OpenedFromRoot().Score.Plucks {
		from = append(from, p.String)
	}
	if want := []int{3, 1, 2, 4}; !slices.Equal(from, want) {
		t.Errorf("from the root strings %v sound, want %v", from, want)
	}
}

// Every sound, of a question and of what is heard after an answer to it, says which notes it plucks.
func TestSoundsSayWhatTheyPluck(t *testing.T) {
	on := trial.Ukulele(t)
	others := 0
	for _, d := range All() {
		trial.AskAll(t, d, on, 3, func(q *drills.Question) {
			sounds := slices.Clone(q.Sounds)
			for _, text := range []string{q.Expected().Typed, "1", "2", "3", "C", "0 0 0 0", "R R R R"} {
				if v, err := q.Mark(text); err == nil {
					sounds = slices.Concat(sounds, v.Asked, v.Other)
					others += len(v.Other)
				}
			}
			for _, s := range sounds {
				for _, p := range s.Score.Plucks {
					if !slices.ContainsFunc(s.Notes, func(n synth.Sounding) bool { return n.String == p.String && n.Pitch == p.Pitch }) {
						t.Errorf("%s/%s: string %d is plucked at %v, which is none of the notes %v", q.Drill, q.Target, p.String, p.Pitch, s.Notes)
					}
				}
			}
		})
	}
	if others == 0 {
		t.Error("nothing was heard of what was answered instead")
	}
}
