package arrange

import (
	"sparetone/theory/fret"
)

// Movement is what a fretting hand does from one shape to the next. Fingers are those of fret.Found.
type Movement struct {
	Lifted, Set, Slid, Kept int // fingers; one that goes to another string is lifted and set
	SlidBy                  int // frets that fingers slide, added up
	BarresSet, BarresLifted int
	Shift                   int // frets that the hand is moved along the neck
}

// weights are what the parts of a movement cost, in hundredths. From judgement: no study of changes on small fretted
// instruments was found to take them from.
var weights = struct{ lift, set, slide, slideFret, setBarre, liftBarre, shift int }{
	lift:      50,  // a finger comes off by itself as the hand opens
	set:       100, // the measure of all others: a finger has to find its string and fret
	slide:     40,  // a finger that stays on its string is a guide and finds its fret by it
	slideFret: 20,  // the further, the less exactly
	setBarre:  120, // more than a finger: it has to lie flat and press on several strings
	liftBarre: 40,  // the wrist turns back
	shift:     30,  // each fret that the whole hand moves: the eye leaves the strings
}

// Cost returns what a movement costs, in hundredths of a finger that is set.
func (m Movement) Cost() int {
	w := weights
	return w.lift*m.Lifted + w.set*m.Set + w.slide*m.Slid + w.slideFret*m.SlidBy + w.setBarre*m.BarresSet +
		w.liftBarre*m.BarresLifted + w.shift*m.Shift
}

// Plus adds two movements up.
func (m Movement) Plus(o Movement) Movement {
	return Movement{
		m.Lifted + o.Lifted, m.Set + o.Set, m.Slid + o.Slid, m.Kept + o.Kept, m.SlidBy + o.SlidBy,
		m.BarresSet + o.BarresSet, m.BarresLifted + o.BarresLifted, m.Shift + o.Shift,
	}
}

// FingersOnHand is how many fingers stop strings.
const FingersOnHand = 4

// grip is a shape as a hand holds it: of each finger the fret, 0 if it is not down, and the strings under it as bits.
type grip struct {
	shape   fret.Shape
	fret    [FingersOnHand]int8
	strings [FingersOnHand]uint16
	at      int // fret at which the index finger would lie, 0 if nothing is stopped
}

// gripOf returns how a shape is held with fingers as fret.Found has them.
func gripOf(s fret.Shape, fingers []int) grip {
	g := grip{shape: s}
	for i, finger := range fingers {
		if finger > 0 {
			g.fret[finger-1] = int8(s[i])
			g.strings[finger-1] |= 1 << i
		}
	}
	for f := FingersOnHand - 1; f >= 0; f-- {
		if g.fret[f] > 0 {
			g.at = max(1, int(g.fret[f])-f)
		}
	}
	return g
}

// move returns what a hand does from one grip to another.
func (g *grip) move(to *grip) (m Movement) {
	for f := range FingersOnHand {
		from, next := g.fret[f], to.fret[f]
		wide, wider := many(g.strings[f]), many(to.strings[f])
		shared := g.strings[f]&to.strings[f] != 0
		switch {
		case from == 0 && next == 0:
			continue
		case from == 0:
			m.Set++
		case next == 0:
			m.Lifted++
		case from == next && shared:
			m.Kept++
		case shared:
			m.Slid++
			m.SlidBy += max(int(next-from), int(from-next))
		default:
			m.Lifted++
			m.Set++
		}
		held := from > 0 && next > 0 && shared
		if wider && !(held && wide) {
			m.BarresSet++
		}
		if wide && !(held && wider) {
			m.BarresLifted++
		}
	}
	if g.at > 0 && to.at > 0 {
		m.Shift = max(g.at-to.at, to.at-g.at)
	}
	return m
}

// many reports whether more than one string lies under a finger.
func many(strings uint16) bool { return strings&(strings-1) != 0 }
