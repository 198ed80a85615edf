// Package harmony has the drills about chords and keys: how a chord is spelled, where it wants to go, rows of chords in a key, and
// which notes of a key a chord can take.
package harmony

import (
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Spell gives the name of a chord and asks for its notes, spelled; or plays the chord and one note of it and
// asks which tone that is.
type Spell struct{}

func (Spell) About() drills.About {
	return drills.About{ID: "spell", Title: "Spell a chord, and know its notes"}
}

// toneGroup is a group of chords of which the same tones are asked for.
type toneGroup struct {
	id, name string
	kinds    []string
	tones    []chordTone
}

// chordTone is a tone of a chord, whichever third or seventh the chord has.
type chordTone struct {
	name   string
	number int // of the interval above the root
}

// The tones of a chord.
var (
	rootTone    = chordTone{"root", 1}
	thirdTone   = chordTone{"third", 3}
	fifthTone   = chordTone{"fifth", 5}
	seventhTone = chordTone{"seventh", 7}
)

// tonesHeard are the tones asked for by ear: those of a triad and those of a seventh chord. A target is a group
// and a tone, so that all tones of a chord are asked for alike.
var tonesHeard = []*toneGroup{
	{"triad", "a triad", []string{"major", "minor"}, []chordTone{rootTone, thirdTone, fifthTone}},
	{"seventh", "a seventh chord", []string{"dominant", "major-seventh", "minor-seventh"}, []chordTone{rootTone, thirdTone, fifthTone, seventhTone}},
}

// spellTask is a target: a kind of chord of which the notes are asked for, or a tone of a group of chords that is heard.
type spellTask struct {
	kind  *theory.Kind
	near  []string
	group *toneGroup // nil where a kind is asked for
	tone  chordTone
}

// spellTasks are all the targets.
var spellTasks = drills.Tasks(func() (all []spellTask) {
	for _, row := range chord.AskedKinds {
		all = append(all, spellTask{kind: chord.Kind(row.ID), near: row.Near})
	}
	for _, g := range tonesHeard {
		for _, tone := range g.tones {
			all = append(all, spellTask{group: g, tone: tone})
		}
	}
	return all
}())

func (s spellTask) ID() string {
	if s.group == nil {
		return s.kind.ID
	}
	return s.tone.name + "-of-" + s.group.id
}

// others are the ids of the other tones of the group.
func (s spellTask) others() []string {
	var out []string
	for _, tone := range s.group.tones {
		if tone != s.tone {
			out = append(out, spellTask{group: s.group, tone: tone}.ID())
		}
	}
	return out
}

func (Spell) Targets(on *neck.Instrument) []drills.Target {
	var out []drills.Target
	for _, s := range spellTasks.All {
		switch {
		case s.group == nil:
			out = append(out, drills.Target{ID: s.ID(), Topic: drills.KindTopic(s.kind), Name: sayNotesOf(s.kind), Near: s.near})
		case !chord.TooMany(chord.Kind(s.group.kinds[0]), on.Tuning):
			out = append(out, drills.Target{ID: s.ID(), Topic: drills.Topic{Of: "tone", ID: s.tone.name}, Name: sayToneOf(s.tone.name, s.group.name), Near: s.others(), Ears: true})
		}
	}
	return out
}

func (Spell) Rungs(target string) []drills.Rung {
	if task, ok := spellTasks.Of(target); ok && task.group != nil {
		return drills.ChordRungs
	}
	return drills.OneRung
}

func (d Spell) Ask(r drills.Request) (*drills.Question, error) {
	task, ok := spellTasks.Of(r.Target)
	if !ok {
		return nil, drills.NoSuchTarget(r.Target)
	}
	if task.group != nil {
		return d.askTone(r, task)
	}
	k := task.kind
	all := r.On.RootsFor(k)
	if first := r.On.FirstShapes(k); r.First && len(first) > 0 {
		all = nil
		for _, h := range first {
			all = append(all, h.Chord.Root)
		}
	} else if held := heldRoots(r.On, all, k); r.First && len(held) > 0 { // what is shown before it has a shape
		all = held
	}
	c := theory.NewChord(all[r.Rand.IntN(len(all))], k)
	typed := writeNotes(c.Tones(), " ")
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askNotes(c),
		Form:   drills.Notes,
		Answer: c,
		Voice:  r.Voice(),
	}
	q.Expect(drills.Choice{ID: typed, Said: wording.Notes(c.Tones()), Typed: typed})
	backwards := c.Tones()
	slices.Reverse(backwards)
	q.Accepts = []string{writeNotes(backwards, ", "), strings.ToLower(typed)}
	q.Answers = drills.Answers[[]theory.Note]{
		Read: read.Notes,
		Mark: func(notes []theory.Note) drills.Given { return markNotes(c, notes) },
		Explain: func(notes []theory.Note, _ drills.Given, verdict *drills.Verdict) {
			lines := spelling(c, notes)
			verdict.Short = lines[0]
			if len(lines) > 1 {
				verdict.Short = lines[1] // what is amiss
			}
			verdict.Say(lines...)
			verdict.Contrast = spelledOut(c, notes)
			for _, h := range r.On.Shapes(c)[:min(1, len(r.On.Shapes(c)))] {
				if v, err := h.Voice(r.On); err == nil {
					verdict.Shapes = []drills.Reveal{{Caption: wording.Titled(c), Voicing: v}}
					verdict.Asked = []drills.Sound{drills.Played(say.Text{}, v, synth.Strum)}
					if missing := v.Missing(); len(missing) > 0 {
						verdict.Say(sayShapeLeavesOut(v.Shape, missing))
					}
				}
			}
		},
	}
	return q.BeforeFirst(r), nil
}

// heldRoots are those of some roots on which a kind of chord has a shape.
func heldRoots(on *neck.Instrument, roots []theory.Note, k *theory.Kind) []theory.Note {
	return slices.DeleteFunc(slices.Clone(roots), func(root theory.Note) bool { return len(on.Shapes(theory.NewChord(root, k))) == 0 })
}

// writeNotes writes notes as they are typed.
func writeNotes(notes []theory.Note, between string) string {
	out := make([]string, len(notes))
	for i, n := range notes {
		out[i] = n.ASCII()
	}
	return strings.Join(out, between)
}

// markNotes marks the notes that were given for a chord, in whatever order.
func markNotes(c theory.Chord, said []theory.Note) drills.Given {
	foreign, spelledRight := 0, 0
	for _, n := range said {
		if !slices.Contains(c.Tones(), n) {
			foreign++
		}
	}
	for _, n := range c.Tones() {
		if slices.Contains(said, n) {
			spelledRight++
		}
	}
	g := drills.Given{ID: writeNotes(said, " "), Said: wording.Notes(said), Result: progress.Partly}
	switch {
	case foreign == 0 && spelledRight == len(c.Tones()):
		g.Result = progress.Right
	case spelledRight == 0:
		g.Result = progress.Wrong
	}
	return g
}

// spelling says of each tone of a chord what it is, and of each note that was given and is not one of them,
// why not: the right pitch under another letter, or another key.
func spelling(c theory.Chord, said []theory.Note) []say.Text {
	lines := []say.Text{wording.EachTone(c, c.Kind.Formula)}
	named := map[theory.Note]bool{}
	for _, note := range said {
		if slices.Contains(c.Tones(), note) || named[note] {
			continue
		}
		named[note] = true
		n := slices.IndexFunc(c.Tones(), note.Same)
		if n < 0 {
			lines = append(lines, wording.NotIn(c, []theory.Note{note}))
			continue
		}
		lines = append(lines, sayWrongLetter(c, note, c.Kind.Formula[n]))
	}
	var missed []theory.Note
	for _, note := range c.Tones() {
		if !slices.ContainsFunc(said, note.Same) {
			missed = append(missed, note)
		}
	}
	if len(missed) > 0 {
		lines = append(lines, sayMissed(missed))
	}
	return lines
}

// spelledOut sets the notes of a chord, one after the other from its root up, against those that were given, where they sound
// otherwise.
func spelledOut(c theory.Chord, said []theory.Note) drills.Contrast {
	sameSounds := func(a, b []theory.Note) bool {
		return !slices.ContainsFunc(a, func(n theory.Note) bool { return !slices.ContainsFunc(b, n.Same) })
	}
	if len(said) == 0 || sameSounds(c.Tones(), said) && sameSounds(said, c.Tones()) {
		return drills.Contrast{}
	}
	return drills.Contrast{Right: rising(wording.Notes(c.Tones()), c.Root, c.Tones()), Given: rising(wording.Notes(said), c.Root, said)}
}

// spelledOctave is the octave in which notes that are spelled out begin.
const spelledOctave = 4

// rising is notes one after the other, each above the one before, the first at a root or above it.
func rising(label say.Text, root theory.Note, notes []theory.Note) []drills.Sound {
	last := theory.Pitch{Note: root, Octave: spelledOctave}.MIDI() - 1
	var out []synth.Sounding
	for _, n := range notes {
		p := theory.Pitch{Note: n, Octave: spelledOctave - 1}
		for p.MIDI() <= last {
			p.Octave++
		}
		out, last = append(out, synth.Sounding{String: 1, Pitch: p}), p.MIDI()
	}
	return []drills.Sound{{Label: label, Notes: out, Score: synth.Hand{Tempo: drills.FastestNotes}.Rising(out)}}
}

// toneOf is a shape and one of its strings.
type toneOf struct {
	neck.Held
	voicing fret.Voicing
	string  fret.StringTone
}

// askTone plays a chord, then one note of it.
func (d Spell) askTone(r drills.Request, task spellTask) (*drills.Question, error) {
	group, tones := task.group, task.group.tones
	var choices []drills.Target
	for _, t := range tones {
		choices = append(choices, drills.Target{ID: spellTask{group: group, tone: t}.ID()})
	}
	r.Settle(choices)
	task, _ = spellTasks.Of(r.Target)
	kind := chord.Kind(group.kinds[r.Rand.IntN(len(group.kinds))])
	options := fair.RootLowest(r, func(reach float64) [][]toneOf {
		out := make([][]toneOf, len(tones))
		for _, h := range r.On.ShapesOf(kind, reach) {
			v, err := h.Voice(r.On)
			if err != nil {
				continue
			}
			for _, s := range v.Strings {
				if n := slices.IndexFunc(tones, func(t chordTone) bool { return t.number == s.Interval.Number }); s.Fret != fret.Muted && n >= 0 {
					out[n] = append(out[n], toneOf{h, v, s})
				}
			}
		}
		return out
	}, func(o toneOf) neck.Held { return o.Held })
	t := r.On.Tuning
	picked, ok := fair.Match(r, slices.Index(tones, task.tone), options,
		func(o toneOf) fair.Feature {
			return fair.Feature{neck.Sounding(o.Shape), neck.Lowest(t, o.Shape), 100*higher(o.voicing, o.string) + o.string.Pitch.MIDI()}
		},
		func(o toneOf) fair.Feature {
			return fair.Feature{neck.Sounding(o.Shape), neck.Lowest(t, o.Shape), higher(o.voicing, o.string)}
		},
		func(o toneOf) fair.Feature { return fair.Feature{neck.Sounding(o.Shape), neck.Lowest(t, o.Shape)} },
		func(o toneOf) fair.Feature { return fair.Feature{neck.Sounding(o.Shape), higher(o.voicing, o.string)} },
		func(o toneOf) fair.Feature { return fair.Feature{neck.Sounding(o.Shape)} },
	)
	if !ok {
		return nil, neck.NoShape(r.On, kind)
	}
	v, how := picked.voicing, r.How()
	note := []synth.Sounding{{String: picked.string.Number, Pitch: picked.string.Pitch}}
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askTone(kind),
		Sounds: []drills.Sound{r.Plays(labelChord, v, how), {Label: labelNote, Notes: note, Score: r.NotesHand().Block(note)}},
		Voice:  r.Voice(),
	}
	var offered []drills.Choice
	for i, t := range tones {
		offered = append(offered, drills.Choice{ID: choices[i].ID, Said: sayTone(t.name), Typed: t.name})
	}
	q.Offer(r.Target, offered...)
	q.Accepts = []string{picked.string.Interval.Role()}
	if task.tone == seventhTone {
		q.Accepts = append(q.Accepts, "7")
	}
	q.Answers = drills.Answers[int]{ // a place among the tones
		Offered: indexes(tones),
		Read: func(text string) (int, error) {
			i, err := read.Degree(text)
			for n, t := range tones {
				if drills.SameWords(text, kind.Formula[n].Role()) || err == nil && i.Number == t.number {
					return n, nil
				}
			}
			return 0, drills.ErrUnread
		},
		Mark: func(n int) drills.Given {
			return drills.Given{ID: offered[n].ID, Said: offered[n].Said, Result: drills.RightIf(tones[n] == task.tone)}
		},
		Explain: func(n int, g drills.Given, verdict *drills.Verdict) {
			verdict.Shapes = []drills.Reveal{{Caption: wording.Titled(v.Chord), Voicing: v, Mark: picked.string.Number}}
			verdict.Short = sayNoteWas(v, picked.string)
			verdict.Say(verdict.Short)
			if g.Right() {
				return
			}
			verdict.TakenFor = g.ID
			for _, s := range v.Strings {
				if s.Fret != fret.Muted && s.Interval == kind.Formula[n] {
					notes := []synth.Sounding{{String: s.Number, Pitch: s.Pitch}}
					verdict.Say(sayToneIsOn(t, s))
					verdict.Other = []drills.Sound{q.Sounds[0], {Label: labelTone(s.Interval), Notes: notes, Score: synth.Hand{}.Block(notes)}}
					verdict.SetContrast()
					verdict.Contrast.Right[0].Label = labelTone(picked.string.Interval)
					break
				}
			}
		},
	}
	return q, nil
}

// indexes lists the indexes of a list: 0, 1, 2.
func indexes[T any](list []T) []int {
	out := make([]int, len(list))
	for i := range list {
		out[i] = i
	}
	return out
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
