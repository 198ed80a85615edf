package song

import (
	"cmp"
	"slices"

	"sparetone/theory"
	"sparetone/theory/say"
)

// KeyFound is a key that a song may be in, and what speaks for it.
type KeyFound struct {
	Key    theory.Key
	Of     int             // how many of the chords are of the key
	All    int             // of so many
	Begins bool            // the first chord is the tonic's
	Ends   bool            // the last chord is the tonic's
	Leads  [2]theory.Chord // a dominant and the tonic that it goes to, if the song has them
	score  int
}

// What speaks for a key, and how strongly. From judgement; TestKeysAreFound has progressions of which the key is plain.
const (
	whollyOfKey  = 30 // for the share of chords that are of the key with all their tones
	triadOfKey   = 14 // for the share of which the triad is, as of C7 in C
	endsOnTonic  = 8
	beginsOnIt   = 4
	leadsToTonic = 3 // the dominant goes to the tonic
	leadsBy7     = 3 // more where it has its seventh
	noTonic      = 8 // against a key of which the tonic's chord does not come
)

// MostSharps is how many sharps or flats a key has at the most.
const MostSharps = 7

// FindKey returns the key that chords in turn are in most likely, and the runner-up. It reports false without chords.
func FindKey(chords []theory.Chord) (best, next KeyFound, ok bool) {
	if len(chords) == 0 {
		return best, next, false
	}
	var all []KeyFound
	for _, minor := range []bool{false, true} {
		for letter := theory.C; letter <= theory.B; letter++ {
			for alter := int8(-1); alter <= 1; alter++ {
				k := theory.Key{Tonic: theory.Note{Letter: letter, Alter: alter}, Minor: minor}
				if s := k.Signature(); s >= -MostSharps && s <= MostSharps {
					all = append(all, judge(k, chords))
				}
			}
		}
	}
	slices.SortStableFunc(all, func(a, b KeyFound) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(signs(a.Key), signs(b.Key)))
	})
	return all[0], all[1], true
}

// signs returns how many sharps or flats a key has.
func signs(k theory.Key) int { return max(k.Signature(), -k.Signature()) }

// judge weighs what speaks for a key.
func judge(k theory.Key, chords []theory.Chord) KeyFound {
	f := KeyFound{Key: k, All: len(chords)}
	triads, tonic := 0, false
	for n, c := range chords {
		switch {
		case k.Holds(c):
			f.Of++
		case k.Holds(triadOf(c)):
			triads++
		}
		is := isTonic(k, c)
		tonic = tonic || is
		if next := chords[(n+1)%len(chords)]; isTonic(k, next) && n+1 < len(chords) && isDominant(k, c) {
			if seventh := hasSeventh(c); f.Leads[0].Kind == nil || seventh && !hasSeventh(f.Leads[0]) {
				f.Leads = [2]theory.Chord{c, next}
			}
		}
	}
	f.Begins, f.Ends = isTonic(k, chords[0]), isTonic(k, chords[len(chords)-1])
	f.score = (whollyOfKey*f.Of + triadOfKey*triads) * 10 / len(chords)
	for _, says := range []struct {
		so     bool
		weight int
	}{
		{f.Begins, beginsOnIt}, {f.Ends, endsOnTonic}, {f.Leads[0].Kind != nil, leadsToTonic},
		{f.Leads[0].Kind != nil && hasSeventh(f.Leads[0]), leadsBy7}, {!tonic, -noTonic},
	} {
		if says.so {
			f.score += 10 * says.weight
		}
	}
	return f
}

// isTonic reports whether a chord stands on the tonic with the third of the mode.
func isTonic(k theory.Key, c theory.Chord) bool {
	third := theory.MajorThird
	if k.Minor {
		third = theory.MinorThird
	}
	own, ok := c.Kind.Tone(third)
	return c.Root == k.Tonic && ok && own == third && k.Holds(triadOf(c))
}

// isDominant reports whether a chord leads to the tonic from the fifth degree: it has a major third.
func isDominant(k theory.Key, c theory.Chord) bool {
	third, ok := c.Kind.Tone(theory.MajorThird)
	return ok && third == theory.MajorThird && c.Root == k.Tonic.Up(theory.PerfectFifth)
}

// hasSeventh reports whether a chord has a minor seventh.
func hasSeventh(c theory.Chord) bool {
	seventh, ok := c.Kind.Tone(theory.MinorSeventh)
	return ok && seventh == theory.MinorSeventh
}

// triadOf returns the triad that a chord is built on, with its third and fifth; a chord that has none of its kind is
// returned as it is.
func triadOf(c theory.Chord) theory.Chord {
	var tones []theory.Interval
	for _, tone := range c.Kind.Formula {
		if tone.Number == 1 || tone.Number == 3 || tone.Number == 5 {
			tones = append(tones, tone)
		}
	}
	if k, ok := theory.KindByFormula(tones); ok {
		return theory.NewChord(c.Root, k)
	}
	return c
}

// Reason says what speaks for a key.
func (f KeyFound) Reason() say.Text {
	facts := []say.Text{say.Of("{} of {} are of it", say.Number(f.Of), say.Count{N: f.All, One: "chord", Many: "chords"})}
	switch {
	case f.Begins && f.Ends:
		facts = append(facts, say.Of("the song begins and ends on its tonic"))
	case f.Begins:
		facts = append(facts, say.Of("the song begins on its tonic"))
	case f.Ends:
		facts = append(facts, say.Of("the song ends on its tonic"))
	}
	if f.Leads[0].Kind != nil {
		facts = append(facts, say.Of("{} leads to {}", say.Chord(f.Leads[0]), say.Chord(f.Leads[1])))
	}
	return say.Of("{}", say.Commas(facts...))
}
