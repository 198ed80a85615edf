package fret_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// What is said of a swap follows from the pitches alone, on tunings that nobody plays too: which string moves, what it sounded and
// sounds, whether another string still has that, whether it is the lowest now, and which tone it rubs against.
func TestSwapsSayWhatSounds(t *testing.T) {
	rng := rand.New(rand.NewPCG(28, 11))
	count, rubbing, lowest, suspending := 0, 0, 0, 0
	for range 120 {
		on := anyTuning(t, rng)
		for range 25 {
			s := make(fret.Shape, len(on.Strings))
			for i := range s {
				if s[i] = rng.IntN(5); rng.IntN(8) == 0 {
					s[i] = fret.Muted
				}
			}
			names := fret.Names(on, s, theory.Context{})
			if len(names) == 0 {
				continue
			}
			c := names[0].Chord
			for _, w := range fret.Swaps(on, s, c, nil) {
				count++
				at := len(s) - w.String
				was, is := on.MIDI(at, w.From[at]), on.MIDI(at, w.To[at])
				still, low, against := false, is, false
				sounding, err := fret.Voice(on, w.To, w.Chord)
				if err != nil {
					t.Fatal(err)
				}
				for i, f := range w.To {
					if i != at && w.From[i] != f {
						t.Errorf("%s: %s to %s moves string %d too", on.Name, w.From, w.To, on.StringNumber(i))
					}
					if f == fret.Muted || i == at {
						continue
					}
					m := on.MIDI(i, f)
					still, low = still || (m-was)%12 == 0, min(low, m)
					if w.Rubbing() && (m-c.Root.Class()-w.Rubs.Semitones)%12 == 0 {
						apart := ((is-m)%12 + 12) % 12
						against = apart == 1 || apart == 11 && w.Rubs.Number == w.Adds.Number
					}
					if !w.Rubbing() && ((is-m)%12+12)%12 == 1 && !sounding.Strings[i].Foreign {
						t.Errorf("%s: %s to %s lies a semitone above string %d, which is not said", on.Name, w.From, w.To, on.StringNumber(i))
					}
				}
				if (was-c.Root.Class()-w.GivesUp.Semitones)%12 != 0 || (is-c.Root.Class()-w.Adds.Semitones)%12 != 0 {
					t.Errorf("%s: %s to %s of %s gives up %s and adds %s", on.Name, w.From, w.To, c, w.GivesUp, w.Adds)
				}
				if w.Spare != still || w.Lowest != (low == is) || w.Rubbing() != against {
					t.Errorf("%s: %s to %s of %s: spare %v, lowest %v, rubs against %s", on.Name, w.From, w.To, c, w.Spare, w.Lowest, w.Rubs)
				}
				for what, has := range map[*int]bool{&rubbing: w.Rubbing(), &lowest: w.Lowest, &suspending: !w.Spare} {
					if has {
						*what++
					}
				}
			}
		}
	}
	if count < 1500 || rubbing < 100 || lowest < 100 || suspending < 50 {
		t.Errorf("%d swaps, %d rub, %d are the lowest, %d suspend", count, rubbing, lowest, suspending)
	}
}

// anyTuning draws three to eight strings, each at most a seventh above or a fourth below the one before it.
func anyTuning(t *testing.T, rng *rand.Rand) *fret.Tuning {
	var open []string
	for midi := 40 + rng.IntN(20); len(open) < 3 || len(open) < 8 && rng.IntN(3) > 0; midi = max(33, min(81, midi+rng.IntN(17)-5)) {
		open = append(open, fmt.Sprintf("%s%d", strings.Fields("C C# D Eb E F F# G Ab A Bb B")[midi%12], midi/12-1))
	}
	on, err := fret.ParseTuning(strings.Join(open, " "))
	if err != nil {
		t.Fatal(err)
	}
	return on
}
