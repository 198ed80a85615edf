package catalogue

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/ear"
	"sparetone/drills/neck"
	"sparetone/drills/shapes"
	"sparetone/drills/trial"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// Within an item root, voicing, register, voice and hand vary, so that the kind is learnt and not one sound.
func TestOneItemSoundsInManyWays(t *testing.T) {
	on, d := trial.Ukulele(t), ear.Chord{}
	for _, target := range []string{"major", "minor-seventh", "diminished-seventh"} {
		rng := rand.New(rand.NewPCG(1, 8))
		pitches, lowestNotes, voices, ways := map[string]bool{}, map[int]bool{}, map[string]bool{}, map[string]bool{}
		for range 200 {
			q, err := d.Ask(drills.Request{Target: target, On: on, Reach: 1, Rand: rng})
			if err != nil {
				t.Fatal(err)
			}
			low := 1 << 30
			for _, n := range q.Sounds[0].Notes {
				low = min(low, n.Pitch.MIDI())
			}
			pitches[q.Text()], lowestNotes[low], voices[q.Voice.Name()] = true, true, true
			s := q.Sounds[0].Score
			ways[fmt.Sprint(s.Length, s.Plucks[0].String)] = true
		}
		if len(pitches) < 20 || len(lowestNotes) < 5 || len(voices) != len(on.Voices) || len(ways) < 3 {
			t.Errorf("%s: %d voicings, %d registers, %d voices, %d ways in 200 questions", target, len(pitches), len(lowestNotes), len(voices), len(ways))
		}
	}
}

// A beginner meets the few easiest shapes; they widen with the reach, and no hand is asked for more than it can do.
func TestShapesWidenWithReachAndCanBeHeld(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar", "mandolin"} {
		on := trial.Instrument(t, name)
		for _, k := range drills.KindTargets(on) {
			last := 0
			for _, reach := range []float64{0, 0.5, 1} {
				shapes := on.ShapesOf(chord.Kind(k.ID), reach)
				if len(shapes) < last {
					t.Errorf("%s %s: %d shapes at reach %v, %d before", name, k.ID, len(shapes), reach, last)
				}
				last = len(shapes)
				for _, h := range shapes {
					_, _, effort, ok := fret.Finger(h.Shape)
					if !ok || effort > neck.MostEffort {
						t.Errorf("%s %s: %s asks for %.1f at reach %v", name, k.ID, h.Shape, effort, reach)
					}
				}
			}
		}
	}
	on := trial.Ukulele(t)
	first := map[string]bool{}
	for _, h := range on.ShapesOf(chord.Kind("major"), 0) {
		first[h.Chord.Symbol()+" "+h.Shape.String()] = true
	}
	// The shapes that players learn first: common practice, no source.
	for _, want := range []string{"C 0003", "F 2010", "G 0232", "A 2100", "D 2220"} {
		if !first[want] {
			t.Errorf("%s is not among the first shapes %v", want, first)
		}
	}
}

// The two chords of same-or-not lie on different roots: nobody is to answer by the root alone.
func TestTwoChordsLieOnTwoRoots(t *testing.T) {
	on, d := trial.Ukulele(t), ear.SameOrNot{}
	for _, target := range d.Targets(on) {
		if target.Topic.Of == "notes" {
			continue
		}
		for seed := range uint64(20) {
			v := trial.Ask(t, d, target.ID, on, seed).Solution()
			if a, b := v.Shapes[0].Voicing.Chord, v.Shapes[1].Voicing.Chord; a.Root.Same(b.Root) {
				t.Errorf("%s seed %d: %s and %s", target.ID, seed, a, b)
			}
		}
	}
}

// Once first meetings are over a root is written in one way among the choices of a question, F♯ or G♭, and in two only where either way would give
// one of the chords more of C♭, F♭, E♯, B♯ and double signs than the other way does.
func TestARootIsWrittenInOneWay(t *testing.T) {
	on, d := trial.Ukulele(t), shapes.Name{}
	ways := map[int]int{}
	for _, target := range d.Targets(on) {
		for seed := range uint64(60) {
			q, err := d.Ask(drills.Request{Target: target.ID, On: on, Reach: neck.NewReach, Rand: drills.QuestionRand(d.About().ID, target.ID, seed)})
			if err != nil {
				t.Fatal(err)
			}
			byRoot := map[int][]theory.Chord{}
			for _, choice := range q.Choices {
				c, err := read.Chord(choice.Typed)
				if err != nil {
					t.Fatal(err)
				}
				byRoot[c.Root.Class()] = append(byRoot[c.Root.Class()], c)
			}
			if len(byRoot) != 2 {
				t.Errorf("%s seed %d: %d roots among the choices", target.ID, seed, len(byRoot))
			}
			for _, c := range byRoot {
				if c[0].Root == c[1].Root {
					ways[1]++
					continue
				}
				ways[2]++
				if odd(c[0].Root, c[1].Kind) <= odd(c[1].Root, c[1].Kind) || odd(c[1].Root, c[0].Kind) <= odd(c[0].Root, c[0].Kind) {
					t.Errorf("%s seed %d: %s beside %s", target.ID, seed, c[0], c[1])
				}
			}
		}
	}
	if ways[2] == 0 || ways[1] <= ways[2] {
		t.Errorf("%d in one way, %d in two", ways[1], ways[2])
	}
}

// What is asked alone, as a weak spot is, stands beside what lies near it, and not beside what nobody has met.
func TestAloneBesideWhatIsNear(t *testing.T) {
	on := trial.Ukulele(t)
	for _, d := range []drills.Drill{ear.Chord{}, ear.Interval{}, ear.AddedNote{}} {
		for _, target := range d.Targets(on) {
			if len(target.Near) == 0 {
				continue
			}
			for seed := range uint64(5) {
				q, err := d.Ask(drills.Request{Target: target.ID, On: on, InPlay: []string{target.ID}, Rand: drills.QuestionRand(d.About().ID, target.ID, seed)})
				if err != nil {
					t.Fatal(err)
				}
				for _, c := range q.Choices {
					if c.ID != target.ID && !slices.Contains(target.Near, c.ID) {
						t.Errorf("%s/%s stands beside %s", d.About().ID, target.ID, c.ID)
					}
				}
			}
		}
	}
}

// odd counts the notes of a chord that are written as nobody likes to read them.
func odd(root theory.Note, k *theory.Kind) (n int) {
	for _, tone := range theory.NewChord(root, k).Tones() {
		if chord.IsOdd(tone) {
			n++
		}
	}
	return n
}
