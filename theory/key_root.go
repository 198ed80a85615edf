package theory

import "strings"

// The root of a chord is spelled in a key by what the chord is there, not by the scale's letters alone. A chord of the
// key has the key's letters. So has one with an office in it: an applied dominant or leading-tone chord, one borrowed
// from the other mode, the Neapolitan. Whatever has none is spelled with the fewest accidentals. The table below holds
// these spellings, after Kostka and Payne, Tonal Harmony, and Aldwell and Schachter, Harmony and Voice Leading, from
// memory; testdata/theory/degrees.tsv has the same by hand, with the reasons, and a test compares every cell.

// family is what of a kind decides how its root is spelled: its third, fifth and seventh.
type family int8

const (
	majors      family = iota // a major third, or none, without a major seventh
	minors                    // a minor third and a perfect fifth
	dimTriad                  // a minor third and a diminished fifth
	augmenteds                // a major third and an augmented fifth
	majorSevens               // a major third and a major seventh
	halfDim7th                // a diminished triad and a minor seventh
	dim7th                    // a diminished triad and a diminished seventh
)

// diminished reports whether the family has a diminished triad.
func (f family) diminished() bool { return f == dimTriad || f == halfDim7th || f == dim7th }

// familyOf tells a kind's family from its formula.
func familyOf(f []Interval) family {
	has := simpleSet(f)
	is := func(i Interval) bool { return has&simpleSet([]Interval{i}) != 0 }
	switch {
	case is(MinorThird) && is(DiminishedFifth) && is(DimSeventh):
		return dim7th
	case is(MinorThird) && is(DiminishedFifth) && is(MinorSeventh):
		return halfDim7th
	case is(MinorThird) && is(DiminishedFifth):
		return dimTriad
	case is(MinorThird):
		return minors
	case is(MajorThird) && is(AugmentedFifth):
		return augmenteds
	case is(MajorSeventh):
		return majorSevens
	}
	return majors
}

// office is where a root stands in a key: its interval above the tonic; and whether that spelling is no more than a
// wish, which the plainest spelling overrules.
type office struct {
	above Interval // the zero Interval where the plainest spelling is used
	wish  bool
}

// officeTable reads seven columns, in the order of the families, for each of the twelve semitones above the tonic: an
// interval, with ? if it is a wish, or ~.
func officeTable(rows [12]string) (out [12][7]office) {
	for above, row := range rows {
		for f, cell := range strings.Fields(row) {
			if cell == "~" {
				continue
			}
			o := office{wish: cell[len(cell)-1] == '?'}
			if o.wish {
				cell = cell[:len(cell)-1]
			}
			o.above = formula(cell)[0]
			out[above][f] = o
		}
	}
	return out
}

// majors, minors, dimTriad, augmenteds, majorSevens, halfDim7th, dim7th
var (
	officesInMajor = officeTable([12]string{
		"P1  P1  P1? P1  P1  P1? P1?",
		"m2  ~   A1  ~   m2  A1  A1",
		"M2  M2  M2  M2? M2? M2  M2?",
		"m3  ~   A2  ~   m3  A2  A2",
		"M3  M3  M3  M3? M3? M3  M3",
		"P4  P4  P4? P4? P4  P4? P4?",
		"~   ~   A4  ~   ~   A4  A4",
		"P5  P5  P5? P5  P5  P5? P5?",
		"m6  ~   A5  ~   m6  A5  A5",
		"M6  M6  M6? M6? M6? M6? M6?",
		"m7  ~   ~   ~   m7  ~   A6",
		"M7  M7? M7  M7? M7? M7  M7",
	})
	officesInMinor = officeTable([12]string{
		"P1  P1  P1? P1  P1  P1? P1?",
		"m2  ~   ~   ~   m2  ~   ~",
		"M2  M2  M2  M2? M2? M2  M2",
		"m3  m3? m3? m3  m3  m3? m3?",
		"M3? ~   M3  ~   ~   M3  M3",
		"P4  P4  P4? P4? P4  P4? P4?",
		"d5? ~   A4  ~   ~   A4  A4",
		"P5  P5  P5  P5  P5  P5? P5?",
		"m6  m6? m6? m6? m6  m6? m6?",
		"M6? ~   M6  ~   ~   M6  M6",
		"m7  m7? m7? m7? m7? m7? m7?",
		"d8? d8? M7  d8? d8? M7  M7",
	})
)

// root spells the root of a chord of a kind in the key, from its pitch class.
func (k Key) root(class int, kind *Kind) Note {
	above := mod(class-k.Tonic.Class(), 12)
	o := officesInMajor[above][kind.family]
	if k.Minor {
		o = officesInMinor[above][kind.family]
	}
	plain := k.plainest(class, kind)
	if o.above == (Interval{}) {
		return plain
	}
	n := k.Tonic.Up(o.above)
	switch odd := n.odd(); {
	case k.Holds(NewChord(n, kind)):
		return n
	case n.Alter < -1 || n.Alter > 1 || odd && (o.wish || !k.Contains(n) && !kind.family.diminished()):
		return plain
	case (o.wish || odd) && readability(plain, kind.Formula) < readability(n, kind.Formula):
		return plain
	}
	return n
}

// plainest spells a root so that the chord is read most easily. Of two that are alike it takes the one on the key's
// side: with a sharp in a key of sharps, with a flat in one of flats.
func (k Key) plainest(class int, kind *Kind) Note {
	best := roots[class][0]
	side := k.Signature()
	for _, n := range roots[class][1:] {
		a, b := readability(n, kind.Formula), readability(best, kind.Formula)
		if a < b || a == b && int(n.Alter)*side > 0 {
			best = n
		}
	}
	return best
}

// readability weighs how a chord's notes are written, smaller for the easier: a double accidental counts more than any
// number of E♯, B♯, F♭ and C♭. Other accidentals do not count: a black key has one, whichever way it is written.
func readability(root Note, f []Interval) int {
	sum := 0
	for _, i := range f {
		n := root.Up(i)
		switch {
		case n.Alter < -1 || n.Alter > 1:
			sum += 100
		case n.odd():
			sum++
		}
	}
	return sum
}

// odd reports whether a note is E♯, B♯, F♭ or C♭: a white key under another letter.
func (n Note) odd() bool {
	switch n {
	case Note{E, 1}, Note{B, 1}, Note{F, -1}, Note{C, -1}:
		return true
	}
	return false
}

// degreeAt returns the index in the scale of the note so many semitones above the tonic, from 0, or -1.
func (k Key) degreeAt(above int) int {
	for n, i := range k.scale() {
		if i.Semitones == above {
			return n
		}
	}
	return -1
}

// leadsDiminished reports whether a diminished seventh so many semitones above the tonic is the one of its four roots by
// which it leads: on the raised seventh to I, on the raised fourth to V, and to II in major (♯1), to IV in minor (♯3).
func (k Key) leadsDiminished(above int) bool {
	if k.Minor {
		return above == 11 || above == 6 || above == 4
	}
	return above == 11 || above == 6 || above == 1
}

// bassNote spells the bass under a chord: as the chord has it, unless that is a double accidental or an E♯, B♯, F♭ or C♭
// which the key does not have; and a bass foreign to the chord as the key has it, or else nearest to the root on
// the circle of fifths.
func bassNote(root Note, k *Kind, bass int, key *Key) Note {
	if tone := k.toneAt[mod(bass-root.Class(), 12)]; tone >= 0 {
		n := root.Up(k.Formula[tone])
		if n.Alter >= -1 && n.Alter <= 1 && !n.odd() || key != nil && key.Standing(n) != Outside {
			return n
		}
	} else if key != nil {
		for _, i := range key.scale() {
			if n := key.Tonic.Up(i); n.Class() == bass {
				return n
			}
		}
	}
	best := roots[bass][0]
	for _, n := range roots[bass][1:] {
		if abs(n.fifths()-root.fifths()) < abs(best.fifths()-root.fifths()) {
			best = n
		}
	}
	return best
}

// fifths is how many fifths a note lies above C on the line of fifths, below it if negative.
func (n Note) fifths() int { return [7]int{0, 2, 4, -1, 1, 3, 5}[n.Letter] + 7*int(n.Alter) }
