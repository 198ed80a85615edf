package paper

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// The sharps and flats of the notes and those of the answer are counted apart: A minor has none, though its third is written with a flat.
func TestSignsOfNotesAndOfAnswersAreApart(t *testing.T) {
	on := &neck.Instrument{Tuning: fret.Tunings()[0], Voices: synth.Voices(), Hand: fret.DefaultHand}
	d, _ := catalogue.ByID("shape-tones")
	rng, seen := rand.New(rand.NewPCG(1, 18)), map[float64]int{}
	for range 30 {
		q, err := asking{drill: d, target: "minor"}.ask(on, rng.Uint64())
		if err != nil {
			t.Fatal(err)
		}
		notes := 0.0
		for _, s := range q.Shown.Strings {
			if s.Fret != fret.Muted {
				notes += math.Abs(float64(s.Pitch.Note.Alter))
			}
		}
		typed := float64(strings.Count(q.Expected().Typed, "b"))
		many := func(n float64) float64 {
			if n > 2 {
				return 1
			}
			return 0
		}
		has := traitsOf(q, on)
		for trait, want := range map[int]float64{
			traitSigns: notes / 2, traitAnySign: min(1, notes), traitManySigns: many(notes), traitTyped: typed / 2, traitAnyTyped: 1, traitManyTyped: many(typed),
		} {
			if has[trait] != want {
				t.Errorf("%s, answered %s: trait %d is %v, want %v", q.Text(), q.Expected().Typed, trait, has[trait], want)
			}
		}
		seen[has[traitAnySign]]++
	}
	if seen[0] < 3 || seen[1] < 3 {
		t.Errorf("with and without sharps and flats: %v", seen)
	}
}

// Letters and words are no sharps and flats.
func TestSignsInAnAnswer(t *testing.T) {
	for typed, want := range map[string]int{"b3 5 R b3": 2, "Bb D F": 1, "F# A C# E": 2, "B D F#": 1, "Bb7": 1, "C7b9": 1, "bb7": 2, "Cb Ebb": 3, "doubled third": 0, "0003": 0} {
		if got := signsIn(typed); got != want {
			t.Errorf("%q has %d sharps and flats, want %d", typed, got, want)
		}
	}
}

// taking is candidates of one trait, each with what it costs by itself.
func taking(trait int, of ...[2]float64) (out []candidate) {
	for _, c := range of {
		q := &drills.Question{Subject: string(rune('a' + len(out)))}
		var has traits
		has[trait] = c[0]
		out = append(out, candidate{Question: q, text: q.Subject, has: has, cost: c[1]})
	}
	return out
}

// Two questions are changed together where either alone would make the paper no better: of 1 and 4, where 2 and 3 are wanted, 3 and 4 or 1 and 2
// are as far off.
func TestEvenedChangesTwoTogether(t *testing.T) {
	places := [][]candidate{taking(traitLow, [2]float64{1, 0}, [2]float64{3, 1}), taking(traitLow, [2]float64{4, 0}, [2]float64{2, 1})}
	places[1][0].text, places[1][1].text = "c", "d"
	var wanted [2]traits
	wanted[0][traitLow], wanted[1][traitLow] = 2, 3
	got := evened(places, wanted[:], rand.New(rand.NewPCG(1, 1)))
	if got[0] != places[0][1].Question || got[1] != places[1][1].Question {
		t.Errorf("taken are %s and %s", got[0].Subject, got[1].Subject)
	}
}

// A question that is asked already is taken again only where another would be further off than that is worth.
func TestEvenedAsksNothingTwice(t *testing.T) {
	for other, want := range map[float64]string{costOfAgain - 1: "ab", costOfAgain + 1: "aa"} {
		places := [][]candidate{taking(traitLow, [2]float64{0, 0}), taking(traitLow, [2]float64{0, 0}, [2]float64{0, other})}
		got := evened(places, make([]traits, 2), rand.New(rand.NewPCG(1, 1)))
		if all := got[0].Subject + got[1].Subject; all != want {
			t.Errorf("where another costs %v: %s, want %s", other, all, want)
		}
	}
}

// Whatever is changed for what, the spread is what it would be counted anew.
func TestSpreadFollowsChanges(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 18))
	pick := func() (has traits) {
		for trait := range has {
			has[trait] = float64(rng.IntN(4))
		}
		return has
	}
	const places = 6
	wanted := make([]traits, places)
	for n := range wanted {
		wanted[n] = pick()
	}
	is, s := slices.Clone(wanted), newSpread(wanted)
	for step := range 300 {
		n, next := rng.IntN(places), pick()
		s.change(is[n], next)
		is[n] = next
		want := 0.0
		for trait := range int(traitCount) {
			var have, want1 []float64
			for n := range places {
				have, want1 = append(have, is[n][trait]), append(want1, wanted[n][trait])
			}
			slices.Sort(have)
			slices.Sort(want1)
			for n := range have {
				want += math.Abs(have[n] - want1[n])
			}
		}
		if math.Abs(s.off-want) > 1e-9 {
			t.Fatalf("after %d changes the spread is %v off, counted anew %v", step+1, s.off, want)
		}
	}
}
