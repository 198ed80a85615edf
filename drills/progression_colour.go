package drills

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

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

// colourOf returns the place in the table of what a target asks for.
func colourOf(target string) int {
	return slices.IndexFunc(colours, func(row colourRow) bool { return coloured+row.id == target })
}

// coloured begins the id of a target that asks for the note added.
const coloured = "with-a-"

// askColour tells the numerals and asks which of the chords has a note added, and which. Two chords stand among
// the choices with two notes each.
func (d progressionEar) askColour(r Request, colour string) (*Question, error) {
	c := slices.IndexFunc(colours, func(row colourRow) bool { return row.id == colour })
	if c < 0 {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	pair := []int{c, (c + 1 + r.Rand.IntN(len(colours)-1)) % len(colours)}
	if r.Anew != nil && r.Anew.among != nil {
		pair = []int{colourOf(r.Anew.among[0]), colourOf(r.Anew.among[1])}
	}
	slices.Sort(pair)
	r.settle([]Target{{ID: coloured + colours[pair[0]].id}, {ID: coloured + colours[pair[1]].id}})
	c = colourOf(r.Target)
	colour = colours[c].id
	n := r.Rand.IntN(slices.IndexFunc(progressions, func(p progression) bool { return p.minor }))
	k := keys(false, r.Rand)[0]
	chords := chordsOf(n, k)
	var fits []int
	for i, chord := range chords {
		_, one := colouredKind(k, chord, pair[0])
		_, two := colouredKind(k, chord, pair[1])
		if one && two {
			fits = append(fits, i)
		}
	}
	if len(fits) < 2 {
		return d.askColour(r, colour) // draw again: some rows have no two chords that take both
	}
	places := someOf(fits, 2, r.Rand)
	place := places[r.Rand.IntN(2)]
	with := func(plain row, place, colour int) (row, bool) {
		kind, _ := colouredKind(k, chords[place], colour)
		v, ok := nearestKnown(r.On, theory.NewChord(chords[place].Root, kind), plain.chords[place].Shape)
		out := plain
		out.chords = slices.Clone(plain.chords)
		out.chords[place] = v
		return out, ok
	}
	// Each of the four choices with every way to lay out the row.
	type laidOut struct{ plain, row row }
	options := func(reach float64) [][]laidOut {
		out := make([][]laidOut, 0, len(places)*len(pair))
		for _, p := range places {
			for _, i := range pair {
				var list []laidOut
				for _, plain := range layOut(r.On, k, chords, reach) {
					if w, ok := with(plain, p, i); ok {
						list = append(list, laidOut{plain, w})
					}
				}
				out = append(out, list)
			}
		}
		return out
	}
	var looks []func(laidOut) feature
	for _, look := range heardRow {
		looks = append(looks, func(l laidOut) feature { return look(l.row) })
	}
	drawn, ok := match(r, slices.Index(places, place)*len(pair)+slices.Index(pair, c), options, looks...)
	if !ok {
		return nil, fmt.Errorf("%s has no shapes for a progression that a hand can hold", r.On.Tuning.Name)
	}
	plain, w := drawn.plain, drawn.row
	how := drawWay(r.Rand)
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: fmt.Sprintf("The tonic, then %s. Which chord has a note added, and which note?", strings.ReplaceAll(d.numerals(k, chords), " ", ", ")),
		Sounds: w.sounds(how, r.Rand),
		Voice:  drawVoice(r.On, r.Rand),
	}
	var offered []Choice
	for _, p := range places {
		for _, i := range pair {
			id := fmt.Sprintf("%d %s", p+1, colours[i].id)
			label := fmt.Sprintf("chord %d, %s, with %s", p+1, k.Numeral(chords[p]), colours[i].words)
			offered = append(offered, Choice{ID: id, Label: label, Spoken: label, Typed: id})
		}
	}
	q.offer(fmt.Sprintf("%d %s", place+1, colour), offered...)
	q.Accepts = []string{fmt.Sprintf("%d %s", place+1, colours[c].number), fmt.Sprintf("chord %d with %s", place+1, colours[c].words)}
	q.read = func(text string) (given, error) {
		p, i, ok := readColour(text, len(chords))
		if !ok {
			return given{}, errUnread
		}
		g := given{
			id:     fmt.Sprintf("%d %s", p+1, colours[i].id),
			label:  fmt.Sprintf("chord %d with %s", p+1, colours[i].words),
			result: rightIf(p == place && i == c),
		}
		return g, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		v := w.chords[place]
		verdict.Shapes = []Reveal{
			{Caption: plain.chords[place].Chord.String() + ", plain", Voicing: plain.chords[place]},
			{Caption: titled(v.Chord), Voicing: v},
		}
		added := v.Chord.Kind.Formula[len(v.Chord.Kind.Formula)-1]
		verdict.say(fmt.Sprintf("Chord %d was %s with %s, %s, added: %s.", place+1, chords[place], v.Chord.Root.Up(added), added.Role(), v.Chord))
		p, i, ok := readColour(g.id, len(chords))
		if g.right() || !ok {
			return
		}
		if i != c {
			verdict.TakenFor = coloured + colours[i].id
		}
		if _, fits := colouredKind(k, chords[p], i); fits {
			if other, ok := with(plain, p, i); ok {
				verdict.say(fmt.Sprintf("Your answer would have been %s.", d.names(other.chords)))
				verdict.Other = other.sounds(how, nil)
			}
		}
	}
	return q, nil
}

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

// readColour reads which chord, counted from 0, has which colour.
func readColour(text string, chords int) (place, colour int, ok bool) {
	place, colour = -1, -1
	for _, w := range strings.Fields(read.Words(text)) {
		if w == "chord" || w == "with" || w == "a" || w == "has" {
			continue
		}
		i := slices.IndexFunc(colours, func(row colourRow) bool { return w == row.id || w == row.number || w == row.number+"th" })
		n, err := strconv.Atoi(strings.TrimRight(w, "sthrnd"))
		switch {
		case err == nil && n >= 1 && n <= chords && place < 0:
			place = n - 1
		case i >= 0 && colour < 0:
			colour = i
		default:
			return 0, 0, false
		}
	}
	return place, colour, place >= 0 && colour >= 0
}
