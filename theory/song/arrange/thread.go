package arrange

import (
	"cmp"
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// Thread is a string that may keep one note through all chords of a song.
type Thread struct {
	String int // its number
	Fret   int
	Note   theory.Note // as the first chord spells it
	In     []Knot      // each chord once, in the order in which they first come
	Effort float64     // what all its shapes ask of the hand
}

// Knot is what the note of a thread is in a chord.
type Knot struct {
	Of     theory.Chord // the plain chord
	Chord  theory.Chord // what it becomes where the note is added
	Tone   theory.Interval
	Shape  fret.Shape
	Effort float64
}

// mostThreads is how many threads are offered.
const mostThreads = 4

// threads returns the threads of chords, of which each has candidates, those that ask least of the hand first. A chord alone
// has none.
func threads(t *fret.Tuning, chords []theory.Chord, candidates [][]candidate) (out []Thread) {
	if len(chords) < 2 {
		return nil
	}
	for i := range t.Strings {
		for f := 0; f <= fret.DefaultHand.MaxFret; f++ {
			th := Thread{String: t.StringNumber(i), Fret: f}
			for n, c := range chords {
				k, ok := knot(t, c, candidates[n], i, f)
				if !ok {
					break
				}
				th.In, th.Effort = append(th.In, k), th.Effort+k.Effort
			}
			if len(th.In) == len(chords) {
				th.Note = chords[0].Root.Up(th.In[0].Tone)
				out = append(out, th)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Thread) int { return cmp.Compare(a.Effort, b.Effort) })
	return out[:min(mostThreads, len(out))]
}

// knot returns the easiest shape of a chord that has a string at a fret.
func knot(t *fret.Tuning, c theory.Chord, candidates []candidate, i, f int) (best Knot, ok bool) {
	for _, cand := range candidates {
		effort := float64(cand.effort) / 100
		if cand.grip.shape[i] != f || ok && effort >= best.Effort {
			continue
		}
		chord := c
		if cand.colour != nil {
			chord = cand.colour.Chord
		}
		v, err := fret.Voice(t, cand.grip.shape, chord)
		if err != nil {
			continue
		}
		best, ok = Knot{c, chord, v.Strings[i].Interval, cand.grip.shape, effort}, true
	}
	return best, ok
}
