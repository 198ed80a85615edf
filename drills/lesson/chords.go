package lesson

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"sparetone/drills/catalogue"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
	"sparetone/theory/song/musicxml"
)

// instrument is what the lesson's shapes are written for.
func instrument(t *fret.Tuning) *neck.Instrument {
	return &neck.Instrument{Tuning: t, Voices: synth.Voices(), Hand: fret.DefaultHand}
}

// askedKinds are the kinds of chord that a drill asks for on an instrument.
func askedKinds(on *neck.Instrument) (kinds []*theory.Kind) {
	build, _ := catalogue.ByID("build")
	for _, t := range build.Targets(on) {
		if k, ok := theory.KindByID(t.ID); ok {
			kinds = append(kinds, k)
		}
	}
	return kinds
}

// nearestChord returns the chord on the same root that has the most tones in common with one, and the fewest others, among those that
// can be played on an instrument and are asked.
func nearestChord(c theory.Chord, on *neck.Instrument) (theory.Chord, bool) {
	best, most := theory.Chord{}, -100
	for _, k := range askedKinds(on) {
		near, worth := theory.NewChord(c.Root, k), 0
		for _, tone := range k.Formula {
			if _, has := c.Kind.Tone(tone); has {
				worth += 3
			} else {
				worth -= 2
			}
		}
		if _, ok := on.Easiest(near); ok && worth > most {
			best, most = near, worth
		}
	}
	return best, most > -100
}

func (r *reading) chords(v value) *fault {
	if f := r.texts("chords", v, mostChords); f != nil {
		return f
	}
	on := instrument(r.Tuning)
	for _, one := range v.list {
		c, err := read.Chord(one.text)
		if err != nil {
			return &fault{one.at, err.Error()}
		}
		if !c.Bass.Same(c.Root) {
			return &fault{one.at, fmt.Sprintf("%s: a lesson asks for chords whatever the bass; write %s", c.FullSymbol(), theory.NewChord(c.Root, c.Kind))}
		}
		if slices.ContainsFunc(r.Chords, func(h neck.HeldChord) bool { return h.Kind == c.Kind && h.Root.Same(c.Root) }) {
			return &fault{one.at, fmt.Sprintf("%s is named twice: once is enough", c)}
		}
		if says := unplayable(c, on); says != "" {
			return &fault{one.at, says}
		}
		r.add(theory.NewChord(c.Root, c.Kind))
	}
	return nil
}

// unplayable says why a chord cannot be asked on an instrument, and what is nearest; empty if it can.
func unplayable(c theory.Chord, on *neck.Instrument) string {
	why := ""
	if !slices.Contains(askedKinds(instrument(fret.Tunings()[0])), c.Kind) {
		why = fmt.Sprintf("%s: no drill asks for that kind of chord", c)
	} else if _, ok := on.Easiest(c); !ok || !slices.Contains(askedKinds(on), c.Kind) {
		why = fmt.Sprintf("%s has no shape on %s that a hand can hold", c, on.Tuning.Name)
	} else {
		return ""
	}
	if near, ok := nearestChord(c, on); ok {
		return fmt.Sprintf("%s; the nearest is %s", why, near)
	}
	return why + "; leave it out"
}

// add adds a chord, unless it is there.
func (l *Lesson) add(c theory.Chord) *neck.HeldChord {
	for i := range l.Chords {
		if l.Chords[i].Kind == c.Kind && l.Chords[i].Root.Same(c.Root) {
			return &l.Chords[i]
		}
	}
	l.Chords = append(l.Chords, neck.HeldChord{Chord: c})
	return &l.Chords[len(l.Chords)-1]
}

// addShape adds a shape of a chord, unless it is there.
func (l *Lesson) addShape(c theory.Chord, s fret.Shape) {
	h := l.add(c)
	if !slices.ContainsFunc(h.Shapes, func(o fret.Shape) bool { return slices.Equal(o, s) }) {
		h.Shapes = append(h.Shapes, s)
	}
}

func (r *reading) shapes(v value) *fault {
	if f := r.texts("shapes", v, mostShapes); f != nil {
		return f
	}
	said, met := len(r.Chords) > 0, map[string]bool{}
	for _, one := range v.list {
		from, to, moves := strings.Cut(one.text, ">")
		before, f := r.shape(one, from)
		if f != nil {
			return f
		}
		if id := before.String() + ">" + to; met[id] {
			return &fault{one.at, fmt.Sprintf("%s is there twice: once is enough", theory.Clip(one.text))}
		} else {
			met[id] = true
		}
		if !moves {
			c, says := r.named(before, said, "")
			if says != "" {
				return &fault{one.at, says}
			}
			r.addShape(c, before)
			continue
		}
		after, f := r.shape(one, to)
		if f != nil {
			return f
		}
		m, says := r.move(before, after, said)
		if says != "" {
			return &fault{one.within(r.text, strings.TrimSpace(to)), says}
		}
		r.addShape(m.Plain, m.From)
		r.addShape(m.Coloured, m.To)
		r.Moves = append(r.Moves, m)
	}
	return nil
}

// shape reads a shape that a hand can hold.
func (r *reading) shape(v value, typed string) (fret.Shape, *fault) {
	at := v.within(r.text, strings.TrimSpace(typed))
	if strings.TrimSpace(typed) == "" {
		return nil, &fault{v.at, "a move has a shape on either side of >, such as 2010>0010"}
	}
	s, err := fret.ParseShape(strings.TrimSpace(typed))
	if err == nil {
		err = r.Tuning.Check(s)
	}
	if err != nil {
		return nil, &fault{at, fmt.Sprintf("%v; a shape has a fret for each string, such as %s", err, example(r.Tuning))}
	}
	if _, _, _, holds := fret.Finger(s); !holds || span(s) > widest {
		return nil, &fault{at, fmt.Sprintf("four fingers cannot hold %s; say one that a hand can hold", s)}
	}
	return s, nil
}

// widest is the most frets between the lowest stop and the highest that any hand is taken to reach (theory/fret/reach.go).
const widest = 5

// span counts the frets from the lowest stop of a shape to the highest.
func span(s fret.Shape) int {
	low, high := 0, 0
	for _, f := range s {
		if f > 0 && (low == 0 || f < low) {
			low = f
		}
		high = max(high, f)
	}
	return high - low
}

// example is a shape of a C chord on a tuning.
func example(t *fret.Tuning) string {
	c, _ := read.Chord("C")
	if s, ok := instrument(t).Easiest(c); ok {
		return s.String()
	}
	return strings.Repeat("0", len(t.Strings))
}

// named returns what a shape is called: the first of its names that is one of the chords, where any are said; else the first that is
// asked. It says why there is none.
func (r *reading) named(s fret.Shape, said bool, as string) (c theory.Chord, says string) {
	names := fret.Names(r.Tuning, s, theory.Context{Key: r.Key, All: true})
	var called []string
	for _, n := range names {
		if as != "" && n.Chord.Kind.ID != as {
			continue
		}
		own := slices.ContainsFunc(r.Chords, func(h neck.HeldChord) bool { return h.Kind == n.Chord.Kind && h.Root.Same(n.Chord.Root) })
		if c := theory.NewChord(n.Chord.Root, n.Chord.Kind); (own || !said) && unplayable(c, instrument(r.Tuning)) == "" && whole(r.Tuning, s, c) {
			return c, ""
		}
		if len(called) < 3 {
			called = append(called, n.Chord.String())
		}
	}
	switch {
	case called == nil:
		return c, fmt.Sprintf("%s on %s is no chord that is asked; say a shape of one of the lesson's chords", s, r.Tuning.Name)
	case said:
		return c, fmt.Sprintf("%s on %s is %s, and that is none of the lesson's chords: add it to chords, or leave the shape out", s, r.Tuning.Name, strings.Join(called, " or "))
	}
	return c, fmt.Sprintf("%s on %s is %s, and no drill asks for that; say another shape", s, r.Tuning.Name, strings.Join(called, " or "))
}

// whole reports whether a shape sounds all tones of a chord, but for the fifth of one of five: no more is left out in questions.
func whole(t *fret.Tuning, s fret.Shape, c theory.Chord) bool {
	v, err := fret.Voice(t, s, c)
	if err != nil {
		return false
	}
	for _, tone := range v.Missing() {
		if len(c.Kind.Formula) < 5 || tone != theory.PerfectFifth {
			return false
		}
	}
	return !slices.ContainsFunc(v.Strings, func(s fret.StringTone) bool { return s.Foreign })
}

// move returns what one string makes of a shape. It says why that is no move that is asked.
func (r *reading) move(from, to fret.Shape, said bool) (m neck.HeldMove, says string) {
	moved := 0
	for i := range from {
		if from[i] != to[i] {
			moved++
		}
	}
	switch {
	case moved == 0:
		return m, fmt.Sprintf("%s is %s again: one string moves", to, from)
	case moved > 1:
		return m, fmt.Sprintf("from %s to %s move %d strings; one does", from, to, moved)
	}
	var can []string
	why := ""
	for _, plain := range []string{"major", "minor"} {
		c, no := r.named(from, said, plain)
		if no != "" {
			why = no
			continue
		}
		for _, s := range fret.Swaps(r.Tuning, from, c, r.Key) {
			if !chord.IsAddition(c.Kind, s.Chord.Kind) || s.Chord.Without != 0 {
				continue
			}
			if slices.Equal(s.To, to) {
				return neck.HeldMove{Plain: c, Coloured: theory.NewChord(c.Root, s.Chord.Kind), From: from, To: to}, ""
			}
			if len(can) < 4 {
				can = append(can, fmt.Sprintf("%s (%s)", s.To, s.Chord))
			}
		}
	}
	if can == nil {
		return m, fmt.Sprintf("%s is no major or minor chord that one string colours: %s", from, why)
	}
	return m, fmt.Sprintf("%s adds nothing to %s that is asked; one string can make of it %s", to, from, strings.Join(can, ", "))
}

// take takes the chords of a song as the lesson's: each with its plain shape, and the best of its colours.
func (r *reading) take(s song.Song) error {
	a, err := arrange.Arrange(s, arrange.Wishes{Tuning: r.Tuning, Key: r.Key, Rich: rich})
	if err != nil {
		return err
	}
	if r.Key == nil {
		r.Key = &a.Key
	}
	r.arranged(a)
	return nil
}

// rich is how rich a song is of which a lesson is made: half way.
const rich = 5

// overAnother is 1 where a chord of a song stands over another note than its root.
func overAnother(p arrange.Place) int {
	if p.Chord.Bass != p.Chord.Root {
		return 1
	}
	return 0
}

// arranged takes the chords of an arranged song, but for those that no drill asks for. The shapes of a chord are those of where it stands
// over its own root, if it ever does, and its colour is the one that it has on the path, if that is asked for.
func (l *Lesson) arranged(a arrange.Arrangement) {
	on := instrument(a.Tuning)
	places := slices.Clone(a.Places)
	slices.SortStableFunc(places, func(p, o arrange.Place) int { return cmp.Compare(overAnother(p), overAnother(o)) })
	for _, p := range places {
		c := theory.NewChord(p.Chord.Root, p.Chord.Kind)
		if p.Silent || p.Chord.Kind == nil || unplayable(c, on) != "" {
			continue
		}
		if h := l.add(c); len(h.Shapes) == 0 && whole(a.Tuning, p.Plain.Shape, c) {
			h.Shapes = append(h.Shapes, p.Plain.Shape)
		}
		colours := slices.Clone(p.Colours)
		if c := p.Path.Colour; c != nil {
			colours = slices.Insert(colours, 0, *c)
		}
		for _, colour := range colours {
			m := neck.HeldMove{Plain: c, Coloured: theory.NewChord(c.Root, colour.Chord.Kind), From: colour.From, To: colour.Shape}
			if !colour.Good() || !chord.IsAddition(c.Kind, m.Coloured.Kind) || !whole(a.Tuning, m.From, c) || !whole(a.Tuning, m.To, m.Coloured) || unplayable(m.Coloured, on) != "" {
				continue
			}
			if !slices.ContainsFunc(l.Moves, func(o neck.HeldMove) bool { return o.Plain == m.Plain }) { // one is enough for a week
				l.addShape(m.Plain, m.From)
				l.addShape(m.Coloured, m.To)
				l.Moves = append(l.Moves, m)
			}
			break
		}
	}
}

func (r *reading) songs(v value) *fault {
	if f := r.texts("songs", v, mostSongs); f != nil {
		return f
	}
	own := len(r.Chords) > 0
	for _, one := range v.list {
		chart, name := one.text, ""
		if !strings.Contains(chart, "\n") && !strings.Contains(chart, "|") {
			if strings.TrimSpace(chart) == "" {
				return &fault{one.at, sayForm("songs")}
			}
			name = chart
			text, err := r.beside(name)
			if err != nil {
				return &fault{one.at, fmt.Sprintf("the song %s cannot be read: %v; name a chart that lies beside the lesson, or write it between three quotes", theory.Clip(name), err)}
			}
			chart = text
			r.Charts[name] = text
		}
		if len(chart) > longestChart {
			return &fault{one.at, "a song of a lesson has 64 KiB at most"}
		}
		readAs := song.Read
		if musicxml.Is(chart) {
			readAs = musicxml.Read
		}
		s, err := readAs(chart)
		if err != nil {
			where := "the song"
			if name != "" {
				where += " " + theory.Clip(name)
			}
			return &fault{one.at, fmt.Sprintf("%s, %v", where, err)}
		}
		r.Songs = append(r.Songs, Song{name, s})
		if own {
			continue
		}
		if err := r.take(s); err != nil {
			return &fault{one.at, err.Error()}
		}
	}
	return nil
}
