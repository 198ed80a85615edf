package theory

import (
	"slices"
	"strings"
)

// Kind is a kind of chord: a row of the table in kinds.go. Kinds are compared by pointer; there is
// one of each.
type Kind struct {
	ID      string     // stable name for files and scripts: lower case, words joined by hyphens
	Name    string     // plain English, as in "C " + Name
	Symbols []string   // what is written after the root; the first is the one we write, as typed (ASCII)
	Formula []Interval // the tones above the root, root first, in the order a formula is read
	Omit    []Interval // tones that may be left out when strings are short, in the order they go

	toneAt [12]int8 // index in Formula of the tone of each pitch class above the root, -1 where there is none
	index  int      // in the table of kinds, 0 for the commonest
	plain  bool     // a triad or a seventh chord, with a third
	family family
	rootAs [12]Note // how the root of each pitch class is written, so that the chord has the fewest accidentals
}

// row is a row of the table as it is written: symbols and tones are separated by spaces.
type row struct{ id, name, symbols, formula string }

func table(rows []row) []*Kind {
	out := make([]*Kind, len(rows))
	for n, r := range rows {
		k := &Kind{ID: r.id, Name: r.name, Symbols: strings.Split(r.symbols, " "), Formula: formula(r.formula)}
		k.Omit = omissible(k.Formula)
		k.family = familyOf(k.Formula)
		k.plain = isPlain(k.Formula)
		for class := range k.toneAt {
			k.toneAt[class] = int8(slices.IndexFunc(k.Formula, func(i Interval) bool { return mod(i.Semitones, 12) == class }))
			k.rootAs[class] = plainestRoot(class, k.Formula)
		}
		k.index = n
		out[n] = k
	}
	return out
}

// formula reads a row of interval names. It panics on a name that is none: the table is ours.
func formula(names string) []Interval {
	words := strings.Split(names, " ")
	out := make([]Interval, len(words))
	for n, w := range words {
		i, err := ParseInterval(w)
		if err != nil {
			panic("theory: kinds: " + err.Error())
		}
		out[n] = i
	}
	return out
}

// isPlain reports whether a formula is a triad, or a triad and a seventh, with a third.
func isPlain(f []Interval) bool {
	if len(f) < 3 || f[1].Number != 3 || f[2].Number != 5 {
		return false
	}
	return len(f) == 3 || len(f) == 4 && f[3].Number == 7
}

// enoughStrings is how many tones a chord must be cut down to at worst: the strings of the smallest
// instruments.
const enoughStrings = 4

// omissible returns the tones of a formula that may be left out, in the order they go. The perfect fifth goes
// first, but not from a sixth chord, which would be a plain triad of another root; then the root of a chord of five tones
// or more, which the others imply. An eleventh chord may lose its major third, or its ninth if the third is minor, and a thirteenth chord its plain ninth and the
// eleventh that stands over a minor third. If more than four would still be left, the third goes
// too. The tones that give a chord its name, and altered tones, stay. Common practice, no source.
func omissible(f []Interval) []Interval {
	var (
		out   []Interval
		has   = func(i Interval) bool { return slices.Contains(f, i) }
		third = has(MajorThird) || has(MinorThird)
	)
	if has(PerfectFifth) && (third || len(f) >= 4) && !(len(f) == 4 && has(MajorSixth)) {
		out = append(out, PerfectFifth)
	}
	if len(f) >= 5 {
		out = append(out, Unison)
	}
	if len(f) >= 6 && has(Eleventh) && has(MajorThird) {
		out = append(out, MajorThird)
	}
	if len(f) >= 6 && has(MajorNinth) && (has(Thirteenth) || has(Eleventh) && has(MinorThird)) {
		out = append(out, MajorNinth)
	}
	if has(MinorThird) && has(Eleventh) && has(Thirteenth) {
		out = append(out, Eleventh)
	}
	if len(f)-len(out) > enoughStrings && third && !slices.Contains(out, f[1]) {
		out = append(out, f[1])
	}
	return out
}

// roots are the spellings of each pitch class that a chord is written on; the first is the commoner.
var roots = [12][]Note{
	{{C, 0}}, {{D, -1}, {C, 1}}, {{D, 0}}, {{E, -1}, {D, 1}}, {{E, 0}}, {{F, 0}},
	{{F, 1}, {G, -1}}, {{G, 0}}, {{A, -1}, {G, 1}}, {{A, 0}}, {{B, -1}, {A, 1}}, {{B, 0}},
}

// plainestRoot spells a root so that the tones of the formula have the fewest accidentals.
func plainestRoot(class int, f []Interval) Note {
	return slices.MinFunc(roots[class], func(a, b Note) int { return accidentalsOf(a, f) - accidentalsOf(b, f) })
}

func accidentalsOf(root Note, f []Interval) int {
	sum := 0
	for _, i := range f {
		sum += abs(int(root.Up(i).Alter))
	}
	return sum
}

// Kinds returns the table, most common kinds first. It must not be changed.
func Kinds() []*Kind { return kinds }

// KindByID finds a kind by its stable name.
func KindByID(id string) (*Kind, bool) {
	k, ok := kindByID[id]
	return k, ok
}

var kindByID = func() map[string]*Kind {
	m := make(map[string]*Kind, len(kinds))
	for _, k := range kinds {
		m[k.ID] = k
	}
	return m
}()

// KindByFormula finds the kind with exactly these tones above the root, whatever their octave and order.
func KindByFormula(tones []Interval) (*Kind, bool) {
	k, ok := kindByTones[simpleSet(tones)]
	return k, ok
}

var kindByTones = func() map[uint64]*Kind {
	m := make(map[uint64]*Kind, len(kinds))
	for _, k := range kinds {
		m[simpleSet(k.Formula)] = k
	}
	return m
}()

// simpleSet is a set of spelled intervals without their octaves: nine bits for each number from 1 to 7, of
// which one stands for each alteration from four flats to four sharps.
func simpleSet(tones []Interval) uint64 {
	var set uint64
	for _, i := range tones {
		set |= 1 << (9*((i.Number-1)%7) + i.Alteration() + 4)
	}
	return set
}

// Tone returns the tone of the formula that has the same pitch class as i, as the formula spells it.
func (k *Kind) Tone(i Interval) (Interval, bool) {
	n := k.toneAt[mod(i.Semitones, 12)]
	if n < 0 {
		return Interval{}, false
	}
	return k.Formula[n], true
}

// Numbered returns the index in the formula of the first tone with a number, -1 if it has none.
func (k *Kind) Numbered(number int) int {
	return slices.IndexFunc(k.Formula, func(i Interval) bool { return i.Number == number })
}

func abs(n int) int { return max(n, -n) }
