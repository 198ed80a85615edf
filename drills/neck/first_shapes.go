package neck

import (
	"cmp"
	"slices"

	"sparetone/drills/chord"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// FirstShapes returns the shapes of a kind that are asked first, the textbook's of each chord; where there is no table of what players
// are taught, the easiest low ones of the common chords.
func (i *Instrument) FirstShapes(k *theory.Kind) []Held {
	if i.IsHeldToChords() {
		return i.heldFirst(k)
	}
	return i.TaughtShapes(k).Few()
}

// TaughtShapes returns what players are taught of a kind of chord.
func (i *Instrument) TaughtShapes(k *theory.Kind) Taught {
	i.neck.lock.Lock()
	defer i.neck.lock.Unlock()
	if out, known := i.neck.taught[k]; known {
		return out
	}
	lessons := fret.Lessons(i.Tuning)
	var out Taught
	if len(lessons) == 0 {
		out = i.lowShapes(k)
	}
	for _, l := range lessons {
		if l.Chord.Kind != k {
			continue
		}
		h := Held{Chord: theory.NewChord(chord.WrittenAs(l.Chord.Root, chord.RootsOf(k)), k), Shape: l.Shapes[0]}
		_, _, h.Effort, _ = fret.Finger(h.Shape)
		if v, err := h.Voice(i); err != nil || !asked(v) {
			continue
		}
		if l.First {
			out.first = append(out.first, h)
		} else {
			out.later = append(out.later, h)
		}
	}
	slices.SortStableFunc(out.later, func(a, b Held) int { return cmp.Compare(a.Effort, b.Effort) })
	if i.neck.taught == nil {
		i.neck.taught = map[*theory.Kind]Taught{}
	}
	i.neck.taught[k] = out
	return out
}

// commonChords are the chords that players meet first whatever they play: the open ones of a guitar and of a ukulele, which most songs
// for beginners are made of (common practice, no source).
var commonChords = map[string][]theory.Note{
	"major":    chord.MustNotes("C F G A D E"),
	"minor":    chord.MustNotes("A D E"),
	"dominant": chord.MustNotes("G"),
}

// lowFrets is how far up the neck low shapes reach at the most.
const lowFrets = 4

// lowShapes returns what stands for the textbook where there is none: of each chord of a kind the shape that players would learn first,
// the common chords apart from the rest; with a capo those that are common without it, for it is shapes that are learned. Chords that have
// no low shape are left out.
func (i *Instrument) lowShapes(k *theory.Kind) (out Taught) {
	for _, root := range chord.RootsOf(k) {
		low := slices.DeleteFunc(i.easiest(theory.NewChord(root, k), 0), func(h Held) bool { return slices.Max(h.Shape) > lowFrets })
		switch isCommon := slices.ContainsFunc(commonChords[k.ID], func(n theory.Note) bool { return (n.Class()+i.Tuning.Capoed)%12 == root.Class() }); {
		case len(low) == 0:
		case isCommon:
			out.first = append(out.first, opened(slices.MinFunc(low, learnedBefore), low))
		default:
			out.later = append(out.later, opened(slices.MinFunc(low, learnedBefore), low))
		}
	}
	slices.SortStableFunc(out.first, func(a, b Held) int { return cmp.Compare(a.Effort, b.Effort) })
	return out
}

// oneFinger is the effort of a finger that is down (fret.Finger).
const oneFinger = 1

// opened returns the shape that differs by one string, which is open in it and was silent or stopped by a finger more; the other if there
// is none. What rings need not be kept silent, and a finger less is learned before, though an open string beside a high stop costs an effort:
// D is 0234 on a banjo, not 4234, and Em 04323 on a charango, not x4323 (common practice, no source).
func opened(h Held, among []Held) Held {
	best := h
	for _, other := range among {
		differ := 0
		for n, f := range h.Shape {
			if o := other.Shape[n]; o != f {
				differ++
				if o != 0 {
					differ = len(h.Shape)
				}
			}
		}
		rings := Sounding(other.Shape) > Sounding(best.Shape)
		if differ == 1 && (rings || Sounding(best.Shape) == Sounding(h.Shape) && fingersOf(other.Shape) < fingersOf(best.Shape) && other.Effort < h.Effort+oneFinger) {
			best = other
		}
	}
	return best
}

// learnedBefore orders shapes as players learn them: what beginners can hold first, of that what lets the most strings sound, so that
// none has to be kept silent, and then what is easier.
func learnedBefore(a, b Held) int {
	hard := func(h Held) int { return map[bool]int{true: 1}[h.Effort > FirstEffort] }
	return cmp.Or(hard(a)-hard(b), Sounding(b.Shape)-Sounding(a.Shape), cmp.Compare(a.Effort, b.Effort))
}

// fingersOf is how many fingers hold a shape.
func fingersOf(s fret.Shape) int {
	fingers, _, _, _ := fret.Finger(s)
	return slices.Max(fingers)
}
