package drills

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"time"

	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// progressionEar sets a key with its tonic chord, plays three or four chords of it and asks for their numerals;
// its later targets tell the numerals and ask which of the chords has a note more, and which.
type progressionEar struct{}

func (progressionEar) About() About {
	return About{ID: "progression-ear", Title: "Hear where chords stand in their key", Ears: true}
}

// progression is a row of degrees in a mode.
type progression struct {
	degrees string
	minor   bool
}

// progressions are the rows of chords that are asked for, by the degrees their roots stand on (common practice,
// no source). In minor the fifth degree carries the major chord, with the raised seventh of the key.
var progressions = []progression{
	{"1 4 5", false}, {"1 5 4", false}, {"1 5 1", false}, {"1 4 1", false},
	{"1 6 4", false}, {"1 6 5", false}, {"2 5 1", false}, {"1 2 5", false},
	{"1 4 5 1", false}, {"1 5 6 4", false}, {"1 6 4 5", false}, {"6 4 1 5", false},
	{"1 4 1 5", false}, {"1 6 2 5", false}, {"1 4 6 5", false}, {"4 5 3 6", false},
	{"1 4 5", true}, {"1 7 6", true}, {"1 6 7", true}, {"1 4 1", true}, {"1 5 1", true},
}

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

// coloured begins the id of a target that asks for the note more.
const coloured = "with-a-"

// id is the progression's target.
func (p progression) id() string {
	id := strings.ReplaceAll(p.degrees, " ", "-")
	if p.minor {
		return "minor-" + id
	}
	return id
}

// progressionOf returns the place of a target's progression in the table, -1 if it has none.
func progressionOf(target string) int {
	return slices.IndexFunc(progressions, func(p progression) bool { return p.id() == target })
}

func (d progressionEar) Targets(on *Instrument) []Target {
	var out []Target
	for n, p := range progressions {
		t := Target{ID: progressions[n].id(), Name: d.numerals(theory.Key{Minor: p.minor}, chordsOf(n, theory.Key{Minor: p.minor}))}
		for m := range progressions {
			if m != n && differingDegrees(n, m) == 1 {
				t.Near = append(t.Near, progressions[m].id())
			}
		}
		out = append(out, t)
	}
	if len(on.Tuning.Strings) >= 4 {
		for _, c := range colours {
			t := Target{ID: coloured + c.id, Name: "which chord of a progression has " + c.words}
			for _, other := range colours {
				if other.id != c.id {
					t.Near = append(t.Near, coloured+other.id)
				}
			}
			out = append(out, t)
		}
	}
	return out
}

// differingDegrees counts the places in which two progressions differ; many if they are not of one length and mode.
func differingDegrees(n, m int) int {
	a, b := progressions[n], progressions[m]
	if a.minor != b.minor || len(a.degrees) != len(b.degrees) {
		return len(a.degrees)
	}
	count := 0
	for i := range a.degrees {
		if a.degrees[i] != b.degrees[i] {
			count++
		}
	}
	return count
}

// chordsOf returns the chords of a progression in a key.
func chordsOf(n int, k theory.Key) []theory.Chord {
	var out []theory.Chord
	for _, w := range strings.Fields(progressions[n].degrees) {
		degree, err := strconv.Atoi(w)
		if err != nil {
			panic("drills: progressions: " + err.Error())
		}
		c := k.Triads()[degree-1]
		if k.Minor && degree == 5 {
			c.Kind = mustKind("major")
		}
		out = append(out, c)
	}
	return out
}

// numerals writes chords as numerals of a key: I IV V.
func (progressionEar) numerals(k theory.Key, chords []theory.Chord) string {
	var out []string
	for _, c := range chords {
		out = append(out, k.Numeral(c))
	}
	return strings.Join(out, " ")
}

// row is a progression as it is played: a key, the shape of its tonic and one for each chord, each as near to the
// one before as can be.
type row struct {
	key    theory.Key
	tonic  fret.Voicing
	chords []fret.Voicing
}

// lowest returns the lowest note of a row, as a MIDI number.
func (w row) lowest() int {
	low := 1 << 30
	for _, v := range w.chords {
		low = min(low, lowest(v.Tuning, v.Shape))
	}
	return low
}

// strings counts the strings that sound in a row, chord by chord.
func (w row) strings() int {
	n := 0
	for _, v := range append([]fret.Voicing{w.tonic}, w.chords...) {
		n += sounding(v.Shape)
	}
	return n
}

// heardRow are the features of a row that is heard: how many strings sound, and how low.
var heardRow = []func(row) feature{
	func(w row) feature { return feature{w.strings(), w.lowest()} },
	func(w row) feature { return feature{w.strings()} },
	func(w row) feature { return feature{0, w.lowest()} },
}

// keysTried is how many keys a progression is laid out in before one is drawn.
const keysTried = 4

// keys draws some keys.
func keys(minor bool, rng *rand.Rand) []theory.Key {
	all := rootsOf(mustKind(modeOf(theory.Key{Minor: minor})))
	var out []theory.Key
	for _, n := range rng.Perm(len(all))[:keysTried] {
		out = append(out, theory.Key{Tonic: all[n], Minor: minor})
	}
	return out
}

// layOut finds shapes for chords in a key, from each shape of its tonic that is within reach.
func layOut(on *Instrument, k theory.Key, chords []theory.Chord, reach float64) []row {
	var out []row
	for _, h := range within([][]held{on.shapes(k.Triads()[0])}, reach, func(h held) float64 { return h.effort }) {
		tonic, err := h.voice(on)
		if err != nil {
			continue
		}
		w := row{key: k, tonic: tonic}
		last := h.shape
		for _, c := range chords {
			v, ok := nearestKnown(on, c, last)
			if !ok {
				break
			}
			w.chords = append(w.chords, v)
			last = v.Shape
		}
		if len(w.chords) == len(chords) {
			out = append(out, w)
		}
	}
	return out
}

// nearestKnown returns the one of a chord's easier shapes that lies nearest to another shape.
func nearestKnown(on *Instrument, c theory.Chord, from fret.Shape) (fret.Voicing, bool) {
	shapes := on.shapes(c)
	if len(shapes) == 0 {
		return fret.Voicing{}, false
	}
	v, err := slices.MinFunc(shapes, func(a, b held) int { return travel(a.shape, from) - travel(b.shape, from) }).voice(on)
	return v, err == nil
}

// sounds returns what a row sounds like: the tonic, then the chords.
func (w row) sounds(how synth.How, rng *rand.Rand) []Sound {
	play := func(label string, v fret.Voicing) Sound {
		s := played(label, v, how, nil)
		s.Score = synth.Hand{Tempo: chordTempo, Ring: chordRing, Rand: rng}.Play(how, s.Notes)
		return s
	}
	out := []Sound{play("key", w.tonic)}
	for n, v := range w.chords {
		out = append(out, play(fmt.Sprintf("chord %d", n+1), v))
	}
	return out
}

func (d progressionEar) Ask(r Request) (*Question, error) {
	if colour, ok := strings.CutPrefix(r.Target, coloured); ok {
		return d.askColour(r, colour)
	}
	n := progressionOf(r.Target)
	if n < 0 {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	// Only rows of the same length in the same mode stand together.
	var alike []Target
	for m, t := range d.Targets(r.On)[:len(progressions)] {
		if progressions[m].minor == progressions[n].minor && len(progressions[m].degrees) == len(progressions[n].degrees) {
			alike = append(alike, t)
		}
	}
	choices, err := draw(alike, r, never)
	if err != nil {
		return nil, err
	}
	tried := keys(progressions[n].minor, r.Rand)
	options := func(reach float64) (out [][]row) {
		for _, t := range choices {
			var rows []row
			for _, k := range tried {
				rows = append(rows, layOut(r.On, k, chordsOf(progressionOf(t.ID), k), reach)...)
			}
			out = append(out, rows)
		}
		return out
	}
	w, ok := match(r, placeOf(choices, r.Target), options, heardRow...)
	if !ok {
		return nil, fmt.Errorf("%s has no shapes for %s that a hand can hold", r.On.Tuning.Name, r.Target)
	}
	how := drawWay(r.Rand)
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: fmt.Sprintf("The tonic of a %s key, then %d chords. Which are they?", modeOf(w.key), len(w.chords)),
		Sounds: w.sounds(how, r.Rand),
		Voice:  drawVoice(r.On, r.Rand),
	}
	var offered []Choice
	for _, t := range choices {
		offered = append(offered, Choice{ID: t.ID, Label: t.Name, Spoken: t.Name, Typed: t.Name})
	}
	q.offer(r.Target, offered...)
	q.Accepts = []string{strings.ReplaceAll(progressions[n].degrees, " ", "-"), strings.ReplaceAll(q.expected.Typed, " ", "-"), strings.ToLower(q.expected.Typed)}
	q.read = func(text string) (given, error) { return d.read(text, n, alike) }
	q.explain = func(g given, verdict *Verdict) {
		verdict.say(d.inKey(w.key, w.chords))
		for _, v := range w.chords {
			verdict.Shapes = append(verdict.Shapes, Reveal{Caption: w.key.Numeral(v.Chord) + ", " + v.Chord.String(), Voicing: v})
		}
		m := progressionOf(g.id)
		if g.right() || m < 0 {
			return
		}
		verdict.TakenFor = g.id
		chords := chordsOf(m, w.key)
		if rows := layOut(r.On, w.key, chords, r.Reach); len(rows) > 0 {
			verdict.say("Your answer would be " + d.names(rows[0].chords) + ".")
			verdict.Other = rows[0].sounds(how, nil)
		}
	}
	return q, nil
}

// modeOf is the mode of a key in a word, which is the id of its tonic chord's kind as well.
func modeOf(k theory.Key) string {
	if k.Minor {
		return "minor"
	}
	return "major"
}

// chordRing is how long each chord of a progression rings.
const chordRing = 1300 * time.Millisecond

func (progressionEar) names(chords []fret.Voicing) string {
	var out []string
	for _, v := range chords {
		out = append(out, v.Chord.String())
	}
	return strings.Join(out, " ")
}

// inKey says what each chord is in the key, each once.
func (d progressionEar) inKey(k theory.Key, chords []fret.Voicing) string {
	var out []string
	for _, v := range chords {
		if s := fmt.Sprintf("%s is %s", k.Numeral(v.Chord), v.Chord); !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return fmt.Sprintf("In %s %s: %s.", k, andWords(out), d.names(chords))
}

// read understands a progression by its numerals, whatever their case and what stands between them, or by its
// degrees as figures.
func (d progressionEar) read(text string, n int, alike []Target) (given, error) {
	said := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" ,-–\t", r) })
	for m := range progressions {
		i := slices.IndexFunc(alike, func(t Target) bool { return t.ID == progressions[m].id() })
		if i < 0 {
			continue
		}
		if slices.Equal(said, strings.Fields(strings.ToLower(alike[i].Name))) || slices.Equal(said, strings.Fields(progressions[m].degrees)) {
			return given{id: alike[i].ID, label: alike[i].Name, result: rightIf(m == n)}, nil
		}
	}
	return given{}, errUnread
}

// askColour tells the numerals and asks which of the chords has a note more, and which. Two chords stand among
// the choices with two notes each.
func (d progressionEar) askColour(r Request, colour string) (*Question, error) {
	c := slices.IndexFunc(colours, func(row colourRow) bool { return row.id == colour })
	if c < 0 {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	pair := []int{c, (c + 1 + r.Rand.IntN(len(colours)-1)) % len(colours)}
	slices.Sort(pair)
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
		Prompt: fmt.Sprintf("The tonic, then %s. Which chord has a note more, and which?", d.numerals(k, chords)),
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
			{Caption: v.Chord.String() + ", " + v.Chord.Kind.Name, Voicing: v},
		}
		added := v.Chord.Kind.Formula[len(v.Chord.Kind.Formula)-1]
		verdict.say(fmt.Sprintf("Chord %d, %s, had %s as well, %s: it was %s.", place+1, chords[place], v.Chord.Root.Up(added), added.Role(), v.Chord))
		p, i, ok := readColour(g.id, len(chords))
		if g.right() || !ok {
			return
		}
		if i != c {
			verdict.TakenFor = coloured + colours[i].id
		}
		if _, fits := colouredKind(k, chords[p], i); fits {
			if other, ok := with(plain, p, i); ok {
				verdict.say(fmt.Sprintf("Your answer would be %s.", d.names(other.chords)))
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
	for _, w := range strings.Fields(words(text)) {
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
