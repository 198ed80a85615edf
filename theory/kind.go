package theory

// Kind is a kind of chord: a row of the table in kinds.go. Kinds are compared by pointer; there is
// one of each.
type Kind struct {
	ID      string     // stable name for files and scripts: lower case, words joined by hyphens
	Name    string     // plain English, as in "C " + Name
	Symbols []string   // what is written after the root; the first is the one we write, as typed (ASCII)
	Formula []Interval // the tones above the root, root first, in the order a formula is read
	Omit    []Interval // tones that may be left out when strings are short, in the order they go
}

// Kinds returns the table, most common kinds first. It must not be changed.
func Kinds() []*Kind { return kinds }

// KindByID finds a kind by its stable name.
func KindByID(id string) (*Kind, bool) {
	k, ok := kindByID[id]
	return k, ok
}

// Tone returns the tone of the formula that has the same pitch class as i, as the formula spells it.
func (k *Kind) Tone(i Interval) (Interval, bool) {
	for _, t := range k.Formula {
		if mod(t.Semitones-i.Semitones, 12) == 0 {
			return t, true
		}
	}
	return Interval{}, false
}

// kindByID indexes the table by ID.
var kindByID = func() map[string]*Kind {
	m := make(map[string]*Kind, len(kinds))
	for _, k := range kinds {
		m[k.ID] = k
	}
	return m
}()

// KindByFormula finds the kind with exactly these tones above the root, whatever their octave and order.
func KindByFormula(tones []Interval) (*Kind, bool) {
	want := simpleSet(tones)
	for _, k := range kinds {
		if simpleSet(k.Formula) == want {
			return k, true
		}
	}
	return nil, false
}

// simpleSet is a set of spelled intervals without their octaves: for each number 1 to 7, five bits
// of which one or more say by how much it is altered.
func simpleSet(tones []Interval) uint64 {
	var set uint64
	for _, i := range tones {
		set |= 1 << (5*((i.Number-1)%7) + i.Alteration() + 2)
	}
	return set
}
