package harmony

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sparetone/drills"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/read"
)

// colourRow is a note that a chord of a progression may have more.
type colourRow struct {
	id, words, number string
	up                theory.Interval // above the root; the key has the last word on its size
}

// colours are the notes that may have come in.
var colours = []colourRow{
	{"ninth", "a ninth", "9", theory.MajorNinth},
	{"sixth", "a sixth", "6", theory.MajorSixth},
	{"seventh", "a seventh", "7", theory.MajorSeventh},
}

// askColour tells the numerals and asks which of the chords has a note added, and which. Two chords stand among
// the choices with two notes each.
func (d ProgressionEar) askColour(r drills.Request, colour colourRow) (*drills.Question, error) {
	at := func(id string) int {
		task, _ := rowTasks.Of(id)
		return slices.IndexFunc(colours, func(row colourRow) bool { return row.id == task.colour.id })
	}
	c := at(r.Target)
	pair := []int{c, (c + 1 + r.Rand.IntN(len(colours)-1)) % len(colours)}
	if among := r.Among(); among != nil {
		pair = []int{at(among[0]), at(among[1])}
	}
	slices.Sort(pair)
	r.Settle([]drills.Target{{ID: rowTask{colour: &colours[pair[0]]}.ID()}, {ID: rowTask{colour: &colours[pair[1]]}.ID()}})
	c = at(r.Target)
	rows, fits, err := rowToColour(&r, pair)
	switch {
	case err != nil:
		return nil, err
	case len(fits) < 2:
		return d.askColour(r, colours[c]) // pick again: some rows have no two chords that take both
	}
	places := fair.SomeOf(fits, 2, r.Rand)
	place := places[r.Rand.IntN(2)]
	with := func(plain row, place, colour int) (row, bool) {
		before := plain.chords[place]
		kind, _ := colouredKind(plain.key, before.Chord, colour)
		v, ok := neck.NearestKnown(r.On, theory.NewChord(before.Chord.Root, kind), before.Shape)
		out := plain
		out.chords = slices.Clone(plain.chords)
		out.chords[place] = v
		return out, ok
	}
	// Each of the four choices with every way to lay out the row.
	type laidOut struct{ plain, row row }
	options := func(reach float64) [][]laidOut {
		var plains []row
		for _, in := range rows {
			if !isWithin(r.On, in.key, reach) {
				continue
			}
			plains = append(plains, layOut(r.On, in.key, in.chords, reach)...)
		}
		out := make([][]laidOut, 0, len(places)*len(pair))
		for _, p := range places {
			for _, i := range pair {
				var list []laidOut
				for _, plain := range plains {
					if w, ok := with(plain, p, i); ok {
						list = append(list, laidOut{plain, w})
					}
				}
				out = append(out, list)
			}
		}
		return out
	}
	var looks []func(laidOut) fair.Feature
	for _, look := range heardRow {
		looks = append(looks, func(l laidOut) fair.Feature { return look(l.row) })
	}
	picked, ok := fair.Match(r, slices.Index(places, place)*len(pair)+slices.Index(pair, c), options, looks...)
	if !ok {
		return nil, fmt.Errorf("%s has no shapes for a progression that a hand can hold", r.On.Tuning.Name)
	}
	plain, w := picked.plain, picked.row
	k, chords := plain.key, chordsIn(plain.chords)
	how := r.How()
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askColour(k, chords),
		Sounds: w.sounds(how, r.Rand),
		Voice:  r.Voice(),
	}
	right := colourAt{place, c}
	var offered []drills.Choice
	var among []colourAt
	for _, p := range places {
		for _, i := range pair {
			a := colourAt{p, i}
			offered, among = append(offered, drills.Choice{ID: a.typed(), Said: sayColour(k, chords, a.chord, colours[a.colour].words), Typed: a.typed()}), append(among, a)
		}
	}
	q.Offer(right.typed(), offered...)
	q.Accepts = []string{fmt.Sprintf("%d %s", place+1, colours[c].number), fmt.Sprintf("chord %d with %s", place+1, colours[c].words)}
	q.Answers = drills.Answers[colourAt]{
		Offered: among,
		Read:    func(text string) (colourAt, error) { return readColour(text, len(chords)) },
		Mark: func(a colourAt) drills.Given {
			return drills.Given{ID: a.typed(), Said: sayColourAlone(a.chord, colours[a.colour].words), Result: drills.RightIf(a == right)}
		},
		Explain: func(a colourAt, g drills.Given, verdict *drills.Verdict) {
			v := w.chords[place]
			verdict.Shapes = []drills.Reveal{
				{Caption: wording.Plain(plain.chords[place].Chord), Voicing: plain.chords[place]},
				{Caption: wording.Titled(v.Chord), Voicing: v},
			}
			verdict.Short = sayColourWas(place, chords[place], v.Chord)
			verdict.Say(verdict.Short)
			if g.Right() {
				return
			}
			if a.colour != c {
				verdict.TakenFor = rowTask{colour: &colours[a.colour]}.ID()
			}
			if _, fits := colouredKind(k, chords[a.chord], a.colour); fits {
				if other, ok := with(plain, a.chord, a.colour); ok {
					verdict.Say(sayAnswerWouldBe(other.chords))
					verdict.Other = other.sounds(how, nil)
					for _, v := range other.chords {
						verdict.Show(wording.Chord(v.Chord), v)
					}
					verdict.Contrast = drills.Contrast{Right: verdict.Asked[1:], Given: verdict.Other[1:]}
				}
			}
		},
	}
	return q, nil
}

// colourAt is an answer: a chord of a row, counted from 0, and an index in the table of colours.
type colourAt struct{ chord, colour int }

// typed writes the answer as it is typed: 2 ninth.
func (a colourAt) typed() string { return fmt.Sprintf("%d %s", a.chord+1, colours[a.colour].id) }

// colouredKind returns the kind of chord that a triad of a key becomes with a colour that is a note of the key.
func colouredKind(k theory.Key, c theory.Chord, colour int) (*theory.Kind, bool) {
	up := colours[colour].up
	if !k.Contains(c.Root.Up(up)) {
		up.Semitones--
	}
	kind, ok := theory.KindByFormula(append(slices.Clone(c.Kind.Formula), up))
	plain := up != theory.MinorNinth && up != theory.MinorSixth
	return kind, ok && plain && k.Contains(c.Root.Up(up))
}

// readColour reads which of so many chords has which colour.
func readColour(text string, chords int) (colourAt, error) {
	a := colourAt{-1, -1}
	for _, w := range strings.Fields(read.Words(text)) {
		if w == "chord" || w == "with" || w == "a" || w == "has" {
			continue
		}
		i := slices.IndexFunc(colours, func(row colourRow) bool { return w == row.id || w == row.number || w == row.number+"th" })
		n, err := strconv.Atoi(strings.TrimRight(w, "sthrnd"))
		switch {
		case err == nil && n >= 1 && n <= chords && a.chord < 0:
			a.chord = n - 1
		case i >= 0 && a.colour < 0:
			a.colour = i
		default:
			return a, drills.ErrUnread
		}
	}
	if a.chord < 0 || a.colour < 0 {
		return a, drills.ErrUnread
	}
	return a, nil
}

// keyedRow is a row of chords in a key, before it has shapes.
type keyedRow struct {
	key    theory.Key
	chords []theory.Chord
}

// rowToColour picks a row of chords, in each key it may be heard in, and says which of them take either of two colours. Of a loop that is
// held to, two at least do.
func rowToColour(r *drills.Request, pair []int) (rows []keyedRow, fits []int, err error) {
	takeBoth := func(k theory.Key, chords []theory.Chord) (fits []int) {
		for i, chord := range chords {
			_, one := colouredKind(k, chord, pair[0])
			_, two := colouredKind(k, chord, pair[1])
			if one && two {
				fits = append(fits, i)
			}
		}
		return fits
	}
	if k, all := heldRows(r.On); all != nil {
		all = slices.DeleteFunc(all, func(row []theory.Chord) bool { return len(takeBoth(k, row)) < 2 })
		if len(all) == 0 {
			return nil, nil, errNotTaught
		}
		chords := all[r.Rand.IntN(len(all))]
		return []keyedRow{{k, chords}}, takeBoth(k, chords), nil
	}
	n := r.Rand.IntN(slices.IndexFunc(progressions, func(p progression) bool { return p.minor }))
	for _, k := range keysOf(r.On, false) {
		rows = append(rows, keyedRow{k, chordsOf(n, k)})
	}
	return rows, takeBoth(rows[0].key, rows[0].chords), nil
}

// longestHeldRow is how many chords of a loop are heard at once.
const longestHeldRow = 4

// heldRows are the stretches of the loop that is held to, as it goes round, of chords that are plain triads of its key; nil if none is
// held to.
func heldRows(on *neck.Instrument) (k theory.Key, rows [][]theory.Chord) {
	hold := on.Hold()
	if hold.Key == nil || len(hold.Loop) == 0 {
		return k, nil
	}
	k, loop := *hold.Key, hold.Loop
	rows = [][]theory.Chord{}
	for first := range loop {
		row := make([]theory.Chord, min(longestHeldRow, len(loop)))
		for n := range row {
			row[n] = loop[(first+n)%len(loop)]
		}
		if !slices.ContainsFunc(row, func(c theory.Chord) bool { return !slices.Contains(k.Triads(), c) }) {
			rows = append(rows, row)
		}
	}
	return k, rows
}
