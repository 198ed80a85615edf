package drills

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// progressionEar sets a key with its tonic chord, plays three or four chords of it and asks for their numerals;
// its later targets tell the numerals and ask which of the chords has a note added, and which.
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
	{"1 4 5", true}, {"1 7 6", true}, {"1 6 7", true}, {"1 4 1", true}, {"1 5 1", true}, {"2 5 1", true}, {"1 2 5", true},
}

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
	if len(on.Tuning.Strings) < 3 {
		return nil
	}
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
	choices = r.settle(choices)
	n = progressionOf(r.Target)
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
		offered = append(offered, Choice{ID: t.ID, Label: t.Name, Spoken: d.spoken(t.ID), Typed: strings.ReplaceAll(t.Name, "°", "o")})
	}
	q.offer(r.Target, offered...)
	q.Accepts = []string{strings.ReplaceAll(progressions[n].degrees, " ", "-"), strings.ReplaceAll(q.expected.Typed, " ", "-"), strings.ToLower(q.expected.Typed)}
	q.read = func(text string) (given, error) { return d.read(text, n, alike) }
	q.explain = func(g given, verdict *Verdict) {
		verdict.say(d.inKey(w.key, w.chords), d.raised(w.key, w.chords))
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
			verdict.say("Your answer would have been " + d.names(rows[0].chords) + ".")
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

func (progressionEar) names(chords []fret.Voicing) string {
	var out []string
	for _, v := range chords {
		out = append(out, v.Chord.String())
	}
	return strings.Join(out, ", ")
}

// inKey says what each chord is in the key, each once.
func (d progressionEar) inKey(k theory.Key, chords []fret.Voicing) string {
	var out []string
	for _, v := range chords {
		if s := fmt.Sprintf("%s is %s", k.Numeral(v.Chord), v.Chord); !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	return fmt.Sprintf("In %s, %s. You heard %s.", k, andWords(out), d.names(chords))
}

// raised says which chord of a minor key has its raised seventh, "" if none has.
func (progressionEar) raised(k theory.Key, chords []fret.Voicing) string {
	for _, v := range chords {
		for _, n := range v.Chord.Tones() {
			if k.Standing(n) == theory.RaisedSeventh {
				return fmt.Sprintf("%s has %s, the raised seventh of %s.", k.Numeral(v.Chord), n, k)
			}
		}
	}
	return ""
}

// spoken writes a progression in words: one, six minor, five.
func (progressionEar) spoken(id string) string {
	n := progressionOf(id)
	k := theory.Key{Minor: progressions[n].minor}
	var out []string
	for _, c := range chordsOf(n, k) {
		word := read.Cardinal(k.Tonic.To(c.Root).Number)
		if c.Kind != mustKind("major") {
			word += " " + c.Kind.Name
		}
		out = append(out, word)
	}
	return strings.Join(out, ", ")
}

// read understands a progression by its numerals, whatever their case and what stands between them, or by its
// degrees as numbers.
func (d progressionEar) read(text string, n int, alike []Target) (given, error) {
	said := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" ,-–→\t", r) })
	for i, w := range said {
		if degree, ok := read.Number(w); ok {
			said[i] = strconv.Itoa(degree)
		} else {
			said[i] = strings.TrimRight(strings.TrimSuffix(w, "dim"), "°o")
		}
	}
	for m := range progressions {
		i := slices.IndexFunc(alike, func(t Target) bool { return t.ID == progressions[m].id() })
		if i < 0 {
			continue
		}
		if slices.Equal(said, strings.Fields(strings.ToLower(strings.ReplaceAll(alike[i].Name, "°", "")))) || slices.Equal(said, strings.Fields(progressions[m].degrees)) {
			return given{id: alike[i].ID, label: alike[i].Name, result: rightIf(m == n)}, nil
		}
	}
	return given{}, errUnread
}
