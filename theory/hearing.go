package theory

import (
	"math/bits"
	"slices"
	"sync"
)

// Naming a set of pitches takes one table, made once: for each of the 4096 sets of pitch classes above a root,
// the kinds that it may be, complete or with tones left out that may be. The pitches are looked at from each of
// the twelve roots in turn; whatever the table holds there is a right name. For example G C E A is, from
// C, the set R 3 5 6, which is C6, and from A the set R ♭3 5 ♭7, which is Am7.
//
// A name of which tones are left out is right only if no complete chord of the same root sounds. Two are listed beside
// it all the same: a chord without its third, an eleventh or a thirteenth without its ninth, and a sharp eleventh where the
// fifth is left out, which has the notes of a flat five (beside).

// classes is a set of pitch classes: bit 0 is C, or the root if it is seen from one.
type classes uint16

// from returns the set as it is seen from a root.
func (s classes) from(root int) classes { return (s>>root | s<<(12-root)) & 0xfff }

// hearing is one kind that a set of pitch classes above a root may be.
type hearing struct {
	kind    *Kind
	without ToneSet
	why     reason
	cost    int32
	also    bool // listed beside a complete chord of its root
}

// hearings lists what each set of pitch classes above a root may be: those of set s are
// all[first[s]:first[s+1]].
type hearings struct {
	all   []hearing
	first [4097]uint16
}

func (h *hearings) of(s classes) (from, to uint16) { return h.first[s], h.first[s+1] }

// withoutThird are the IDs of kinds that are named without their third too, and then say so: C7(no3).
var withoutThird = []string{"dominant", "major-seventh", "dominant-ninth", "major-ninth"}

// withoutRoot are the IDs of kinds that players play without their root, the bass or the ear filling it in, and name so:
// common practice, no source.
var withoutRoot = []string{
	"dominant-ninth", "minor-ninth", "major-ninth", "seventh-flat-nine", "seventh-sharp-nine", "dominant-13th",
	"seventh-sharp-five-sharp-nine",
}

var allHearings = sync.OnceValue(func() *hearings {
	var bySet [4096][]hearing
	for place, k := range kinds {
		if slices.Contains(bySpelling, k.ID) {
			continue
		}
		for drop := range 1 << len(k.Omit) {
			h := hearing{kind: k, cost: int32(place)}
			for n, tone := range k.Omit {
				if drop&(1<<n) != 0 {
					h.without |= 1 << slices.Index(k.Formula, tone)
				}
			}
			h.weigh()
			h.also = h.beside()
			if s := k.sounding(h.without); h.enough(s) {
				bySet[s] = append(bySet[s], h)
			}
		}
		if slices.Contains(withoutThird, k.ID) {
			h := hearing{kind: k, cost: int32(place) + costThird, why: thirdMissing, without: 1 << 1, also: true}
			s := k.sounding(h.without)
			bySet[s] = append(bySet[s], h)
		}
	}
	out := &hearings{}
	for s, list := range bySet {
		if slices.ContainsFunc(list, func(h hearing) bool { return h.without == 0 }) {
			list = slices.DeleteFunc(list, func(h hearing) bool { return h.without != 0 && !h.also })
		}
		out.first[s] = uint16(len(out.all))
		out.all = append(out.all, list...)
	}
	out.first[4096] = uint16(len(out.all))
	return out
})

// weigh adds up what the tones cost that are left out, and says why.
func (h *hearing) weigh() {
	for n, tone := range h.kind.Formula {
		if !h.without.Has(n) {
			continue
		}
		switch tone {
		case Unison:
			h.why |= rootMissing
			h.cost += costRootless
			if !h.sounds(3) || !h.sounds(7) || !slices.Contains(withoutRoot, h.kind.ID) {
				h.cost += costRootless
			}
		case PerfectFifth:
			h.why |= fifthMissing
			h.cost += costFifth
			if len(h.kind.Formula) == 4 && !h.kind.plain {
				h.cost += costFifthAdded - costFifth
			}
		case MajorNinth:
			h.why |= toneMissing
			h.cost += costNinth
			if fifth := slices.Index(h.kind.Formula, PerfectFifth); fifth >= 0 && !h.without.Has(fifth) {
				h.cost += costNinthOnly - costNinth
			}
		default:
			h.why |= toneMissing
			h.cost += costTone
		}
	}
}

// beside reports whether an incomplete name is listed though a complete chord of its root sounds: Cm11 beside the exact
// Cm7add11, Cmaj7♯11 beside Cmaj7♭5.
func (h *hearing) beside() bool {
	lacks := func(i Interval) bool { n := slices.Index(h.kind.Formula, i); return n >= 0 && h.without.Has(n) }
	return lacks(MajorNinth) || lacks(PerfectFifth) && slices.Contains(h.kind.Formula, SharpEleventh)
}

// sounding returns the pitch classes above the root, without the tones left out.
func (k *Kind) sounding(without ToneSet) classes {
	var s classes
	for n, tone := range k.Formula {
		if !without.Has(n) {
			s |= 1 << mod(tone.Semitones, 12)
		}
	}
	return s
}

// enough reports whether the tones that sound still carry the name. Two do for a triad without its
// fifth; chords of more tones need three, and four if the root is among those that do not sound.
func (h *hearing) enough(s classes) bool {
	n := bits.OnesCount16(uint16(s))
	switch {
	case h.why&rootMissing != 0:
		return n >= 4
	case len(h.kind.Formula) > 3:
		return n >= 3
	}
	return n >= 2
}

// sounds reports whether a tone of this number is among those that sound.
func (h *hearing) sounds(number int) bool {
	n := slices.IndexFunc(h.kind.Formula, func(i Interval) bool { return i.Number == number })
	return n >= 0 && !h.without.Has(n)
}
