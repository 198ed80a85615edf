package drills

import (
	"fmt"
	"slices"
	"strings"

	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// spell gives the name of a chord and asks for its notes, spelled; or plays the chord and one note of it and
// asks which tone that is.
type spell struct{}

func (spell) About() About { return About{ID: "spell", Title: "Spell a chord, and know its tones"} }

// toneGroup is a group of chords of which the same tones are asked for.
type toneGroup struct {
	id, name     string
	kinds, tones []string
}

// tonesHeard are the tones asked for by ear: those of a triad and those of a seventh chord. A target is a group
// and a tone, so that all tones of a chord are asked for alike.
var tonesHeard = []toneGroup{
	{"triad", "a triad", []string{"major", "minor"}, []string{"root", "third", "fifth"}},
	{"seventh", "a seventh chord", []string{"dominant", "major-seventh", "minor-seventh"}, []string{"root", "third", "fifth", "seventh"}},
}

// toneNumbers are the numbers of the tones above the root.
var toneNumbers = map[string]int{"root": 1, "third": 3, "fifth": 5, "seventh": 7}

// toneID is the id of a target by ear.
func toneID(group, tone string) string { return tone + "-of-" + group }

func (spell) Targets(on *Instrument) []Target {
	var out []Target
	for _, row := range chordKinds {
		k := mustKind(row.id)
		out = append(out, Target{ID: k.ID, Name: "the notes of " + an(k.Name) + " chord", Near: row.near})
	}
	for _, g := range tonesHeard {
		if tooMany(mustKind(g.kinds[0]), on.Tuning) {
			continue
		}
		for _, tone := range g.tones {
			t := Target{ID: toneID(g.id, tone), Name: fmt.Sprintf("the %s of %s, heard", tone, g.name), Ears: true}
			for _, other := range g.tones {
				if other != tone {
					t.Near = append(t.Near, toneID(g.id, other))
				}
			}
			out = append(out, t)
		}
	}
	return out
}

func (d spell) Ask(r Request) (*Question, error) {
	if tone, group, ok := strings.Cut(r.Target, "-of-"); ok {
		return d.askTone(r, group, tone)
	}
	k, ok := theory.KindByID(r.Target)
	if !ok {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	all := rootsOf(k)
	c := theory.NewChord(all[r.Rand.IntN(len(all))], k)
	var label, typed []string
	for _, n := range c.Tones() {
		label, typed = append(label, n.String()), append(typed, n.ASCII())
	}
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: fmt.Sprintf("Which notes make up %s?", titled(c)),
		Form:   Notes,
		answer: c,
		Voice:  drawVoice(r.On, r.Rand),
		expected: Choice{
			ID: strings.Join(typed, " "), Label: strings.Join(label, " "), Spoken: strings.Join(label, " "), Typed: strings.Join(typed, " "),
		},
	}
	backwards := slices.Clone(typed)
	slices.Reverse(backwards)
	q.Accepts = []string{strings.Join(backwards, ", "), strings.ToLower(q.expected.Typed)}
	q.read = func(text string) (given, error) {
		notes, err := read.Notes(text)
		if err != nil {
			return given{}, err
		}
		return markNotes(c, notes), nil
	}
	q.explain = func(g given, verdict *Verdict) {
		said, err := read.Notes(g.id)
		if err != nil {
			return
		}
		verdict.say(spelling(c, said)...)
		for _, h := range r.On.shapes(c)[:min(1, len(r.On.shapes(c)))] {
			if v, err := h.voice(r.On); err == nil {
				verdict.Shapes = []Reveal{{Caption: titled(c), Voicing: v}}
				verdict.Asked = []Sound{played("", v, synth.Strum, nil)}
				if missing := v.Missing(); len(missing) > 0 {
					verdict.say(fmt.Sprintf("The shape %s leaves out %s.", v.Shape, andWords(roles(missing))))
				}
			}
		}
	}
	return q, nil
}

// markNotes marks the notes that were given for a chord, in whatever order.
func markNotes(c theory.Chord, said []theory.Note) given {
	var label, typed []string
	foreign, spelledRight := 0, 0
	for _, n := range said {
		label, typed = append(label, n.String()), append(typed, n.ASCII())
		if !slices.Contains(c.Tones(), n) {
			foreign++
		}
	}
	for _, n := range c.Tones() {
		if slices.Contains(said, n) {
			spelledRight++
		}
	}
	g := given{id: strings.Join(typed, " "), label: strings.Join(label, " "), result: progress.Partly}
	switch {
	case foreign == 0 && spelledRight == len(c.Tones()):
		g.result = progress.Right
	case spelledRight == 0:
		g.result = progress.Wrong
	}
	return g
}

// spelling says of each tone of a chord what it is, and of each note that was given and is not one of them,
// why not: the right pitch under another letter, or another key.
func spelling(c theory.Chord, said []theory.Note) []string {
	var roles, lines []string
	for n, note := range c.Tones() {
		roles = append(roles, fmt.Sprintf("%s is %s", note, c.Kind.Formula[n].Role()))
	}
	lines = append(lines, andWords(roles)+".")
	named := map[theory.Note]bool{}
	for _, note := range said {
		if slices.Contains(c.Tones(), note) || named[note] {
			continue
		}
		named[note] = true
		n := slices.IndexFunc(c.Tones(), note.Same)
		if n < 0 {
			lines = append(lines, fmt.Sprintf("%s is not in the chord %s.", note, c))
			continue
		}
		tone := c.Tones()[n]
		lines = append(lines, fmt.Sprintf("%s is the right pitch with the wrong letter: %s of %s is written with the letter %s, so %s.",
			note, c.Kind.Formula[n].Role(), c.Root, tone.Letter, tone))
	}
	var missed []string
	for _, note := range c.Tones() {
		if !slices.ContainsFunc(said, note.Same) {
			missed = append(missed, note.String())
		}
	}
	if len(missed) > 0 {
		lines = append(lines, fmt.Sprintf("%s %s missing.", andWords(missed), map[bool]string{true: "was", false: "were"}[len(missed) == 1]))
	}
	return lines
}

// toneOf is a shape and one of its strings.
type toneOf struct {
	held
	voicing fret.Voicing
	string  fret.StringTone
}

// askTone plays a chord, then one note of it.
func (d spell) askTone(r Request, group, tone string) (*Question, error) {
	g := slices.IndexFunc(tonesHeard, func(g toneGroup) bool { return g.id == group && slices.Contains(g.tones, tone) })
	if g < 0 {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	tones := tonesHeard[g].tones
	var choices []Target
	for _, t := range tones {
		choices = append(choices, Target{ID: toneID(group, t)})
	}
	r.settle(choices)
	tone, _, _ = strings.Cut(r.Target, "-of-")
	kind := mustKind(tonesHeard[g].kinds[r.Rand.IntN(len(tonesHeard[g].kinds))])
	options := func(reach float64) [][]toneOf {
		out := make([][]toneOf, len(tones))
		for _, h := range r.On.shapesOf(kind, reach) {
			v, err := h.voice(r.On)
			if err != nil {
				continue
			}
			for _, s := range v.Strings {
				if n := slices.IndexFunc(tones, func(t string) bool { return toneNumbers[t] == s.Interval.Number }); s.Fret != fret.Muted && n >= 0 {
					out[n] = append(out[n], toneOf{h, v, s})
				}
			}
		}
		return out
	}
	t := r.On.Tuning
	drawn, ok := match(r, slices.Index(tones, tone), options,
		func(o toneOf) feature {
			return feature{sounding(o.shape), lowest(t, o.shape), 100*higher(o.voicing, o.string) + o.string.Pitch.MIDI()}
		},
		func(o toneOf) feature {
			return feature{sounding(o.shape), lowest(t, o.shape), higher(o.voicing, o.string)}
		},
		func(o toneOf) feature { return feature{sounding(o.shape), lowest(t, o.shape)} },
		func(o toneOf) feature { return feature{sounding(o.shape), higher(o.voicing, o.string)} },
		func(o toneOf) feature { return feature{sounding(o.shape)} },
	)
	if !ok {
		return nil, noShape(r.On, kind)
	}
	v, how := drawn.voicing, drawWay(r.Rand)
	note := []synth.Sounding{{String: drawn.string.Number, Pitch: drawn.string.Pitch}}
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: fmt.Sprintf("%s chord, then one note of it. Which tone of the chord is it?", capital(an(kind.Name))),
		Sounds: []Sound{played("chord", v, how, r.Rand), {Label: "note", Notes: note, Score: notesHand(r.Rand).Block(note)}},
		Voice:  drawVoice(r.On, r.Rand),
	}
	var offered []Choice
	for _, t := range tones {
		offered = append(offered, Choice{ID: toneID(group, t), Label: "the " + t, Spoken: "the " + t, Typed: t})
	}
	q.offer(r.Target, offered...)
	q.Accepts = []string{drawn.string.Interval.Role()}
	if number := fmt.Sprint(toneNumbers[tone]); number == "7" {
		q.Accepts = append(q.Accepts, number)
	}
	q.read = func(text string) (given, error) {
		i, err := read.Degree(text)
		for n, t := range tones {
			own := kind.Formula[n]
			if sameWords(text, own.Role()) || err == nil && i.Number == toneNumbers[t] {
				return q.chosen(q.Choices[n]), nil
			}
		}
		return given{}, errUnread
	}
	q.explain = func(g given, verdict *Verdict) {
		verdict.Shapes = []Reveal{{Caption: titled(v.Chord), Voicing: v, Mark: drawn.string.Number}}
		verdict.say(fmt.Sprintf("The note was %s, on the %s string: %s of %s.", drawn.string.Pitch.Note, t.StringCalled(drawn.string.Number), drawn.string.Interval.Role(), v.Chord))
		if g.right() {
			return
		}
		verdict.TakenFor = g.id
		for _, s := range v.Strings {
			if s.Fret != fret.Muted && toneID(group, tones[slices.Index(kind.Formula, s.Interval)]) == g.id {
				notes := []synth.Sounding{{String: s.Number, Pitch: s.Pitch}}
				verdict.say(fmt.Sprintf("%s is %s, on the %s string.", capital(s.Interval.Role()), s.Pitch.Note, t.StringCalled(s.Number)))
				verdict.Other = []Sound{q.Sounds[0], {Label: s.Interval.Role(), Notes: notes, Score: synth.Hand{}.Block(notes)}}
				break
			}
		}
	}
	return q, nil
}

// higher counts the strings that sound higher than one.
func higher(v fret.Voicing, than fret.StringTone) int {
	n := 0
	for _, p := range v.Pitches() {
		if p.MIDI() > than.Pitch.MIDI() {
			n++
		}
	}
	return n
}
