package harmony

import (
	"cmp"
	"fmt"
	"math/rand/v2"
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

// KeyAdd gives a key and a chord of it and asks which note of the scale sits with the chord, or which one rubs.
type KeyAdd struct{}

func (KeyAdd) About() drills.About {
	return drills.About{ID: "key-add", Title: "Know which notes of the key a chord can take", Terse: true}
}

// keyChord is a triad of a key that is asked for.
type keyChord struct {
	minor  bool
	degree int
	raised bool // with the raised seventh: V of a minor key
}

// keyChords are the triads that are asked for. The diminished one of a major key is not: little sits with it.
var keyChords = []keyChord{
	{false, 1, false}, {false, 4, false}, {false, 5, false}, {false, 6, false}, {false, 2, false}, {false, 3, false},
	{true, 1, false}, {true, 4, false}, {true, 5, false}, {true, 6, false}, {true, 7, false}, {true, 3, false},
	{true, 5, true}, {true, 2, false},
}

// id is a chord's part of a target.
func (a keyChord) id() string {
	id := fmt.Sprintf("%s-%d", theory.Key{Minor: a.minor}.Mode(), a.degree)
	if a.raised {
		id += "-raised"
	}
	return id
}

// keyTask is a target: a chord of a key, and one of two questions: what sits with it, and what rubs.
type keyTask struct {
	keyChord
	rubs bool
}

// keyTasks are all the targets. What rubs is asked for where one note does.
var keyTasks = drills.Tasks(func() (all []keyTask) {
	for _, rubs := range []bool{false, true} {
		for _, a := range keyChords {
			k := theory.Key{Minor: a.minor}
			notes, _ := a.scale(k)
			if _, rubbing := besides(notes, a.in(k)); !rubs || len(rubbing) == 1 {
				all = append(all, keyTask{a, rubs})
			}
		}
	}
	return all
}())

func (t keyTask) ID() string {
	if t.rubs {
		return "clash-with-" + t.keyChord.id()
	}
	return "add-to-" + t.keyChord.id()
}

// IsOfMode reports whether a target of key-add is about chords of minor keys, or of major ones.
func IsOfMode(target string, minor bool) bool {
	t, ok := keyTasks.Of(target)
	return ok && t.minor == minor
}

// in returns the chord in a key.
func (a keyChord) in(k theory.Key) theory.Chord {
	c := k.Triads()[a.degree-1]
	if a.raised {
		c.Kind = chord.Kind("major")
	}
	return c
}

// scale returns the notes of the scale that is meant in a key, and the scale.
func (a keyChord) scale(k theory.Key) ([]theory.Note, say.Scale) {
	switch {
	case a.raised:
		return k.HarmonicNotes(), say.Scale{Tonic: k.Tonic, Name: harmonicMinor}
	case k.Minor:
		return k.Notes(), say.Scale{Tonic: k.Tonic, Name: naturalMinor}
	}
	return k.Notes(), say.Scale{Tonic: k.Tonic, Name: k.Mode()}
}

func (KeyAdd) Targets(on *neck.Instrument) []drills.Target {
	var out []drills.Target
	for _, t := range keyTasks.All {
		k := theory.Key{Minor: t.minor}
		name := sayTakes(k, t.in(k))
		if t.rubs {
			name = sayWhatRubs(k, t.in(k))
		}
		out = append(out, drills.Target{ID: t.ID(), Topic: drills.Topic{Of: "key", ID: t.ID()}, Name: name})
	}
	return out
}

func (KeyAdd) Rungs(string) []drills.Rung { return drills.OneRung }

// besides divides the notes of a scale that a chord does not have: those that sit with it, and those that rub against
// one of its notes. They come from the root up.
func besides(scale []theory.Note, c theory.Chord) (sit, rubbing []theory.Note) {
	for _, n := range scale {
		if slices.Contains(c.Tones(), n) {
			continue
		}
		if _, ok := c.Rubs(n); ok {
			rubbing = append(rubbing, n)
		} else {
			sit = append(sit, n)
		}
	}
	byHeight(c, sit)
	byHeight(c, rubbing)
	return sit, rubbing
}

// byHeight sorts notes by how far they lie above a chord's root.
func byHeight(c theory.Chord, notes []theory.Note) {
	height := func(n theory.Note) int { return (n.Class() - c.Root.Class() + 12) % 12 }
	slices.SortFunc(notes, func(a, b theory.Note) int { return height(a) - height(b) })
}

// How many sharps or flats a key has at the most that is asked about, and that is asked about first.
const (
	mostSigns      = 5
	mostSignsFirst = 2
)

// plainKeys are the keys of a mode that have no more than so many sharps or flats.
func plainKeys(minor bool, mostSigns int) []theory.Key {
	var out []theory.Key
	for _, n := range chord.RootsOf(chord.Kind(theory.Key{Minor: minor}.Mode())) {
		k := theory.Key{Tonic: n, Minor: minor}
		signs := 0
		for _, n := range k.Notes() {
			signs += max(int(n.Alter), -int(n.Alter))
		}
		if signs <= mostSigns {
			out = append(out, k)
		}
	}
	return out
}

// chordsInKeys returns a chord of each key in which its notes are written as players like to read them, and which notes are
// right there.
func chordsInKeys(t keyTask, mostSigns int) []chordInKey {
	var out []chordInKey
	for _, k := range plainKeys(t.minor, mostSigns) {
		p := chordInKey{key: k, chord: t.in(k)}
		p.scale, p.named = t.scale(k)
		sit, rubbing := besides(p.scale, p.chord)
		p.right = sit
		if t.rubs {
			p.right = rubbing
		}
		for _, n := range slices.Concat(p.right, p.raised()) {
			p.good[n.Class()] = true
		}
		if !chord.OddlyWritten(p.chord) || !t.raised {
			out = append(out, p)
		}
	}
	return out
}

// notesOffered is how many notes there are to choose from. Four that are all written in each of the keys in which one of them is
// right are hardly to be found, in minor keys none.
const notesOffered = 3

// triesForOneHeld is how often notes are picked to find some of which the chord has one at the most.
const triesForOneHeld = 200

// layout is the keys in which notes may be laid out for a target, and the notes that are right in any of them, from C up.
type layout struct {
	target string
	keys   []chordInKey
	known  []theory.Note
}

func newLayout(t keyTask, mostSigns int) *layout {
	l := &layout{target: t.ID(), keys: chordsInKeys(t, mostSigns)}
	for _, p := range l.keys {
		for _, n := range p.right {
			if !slices.Contains(l.known, n) {
				l.known = append(l.known, n)
			}
		}
	}
	slices.SortFunc(l.known, func(a, b theory.Note) int { return cmp.Or(a.Class()-b.Class(), int(a.Letter)-int(b.Letter)) })
	return l
}

// pick picks the notes to choose from, which of them is right, and then a key in which it is. Every one of them
// is right in some key in which the others are not: so no note is known for one that is right more often. Another of
// them is of that key too, so that it is not enough to know the key; but for one of them, at the most: the note
// that rubs lies at the flat end of its key, and of the sharpest there is none. One of them at the most is of the chord itself, where
// that can be found in a few tries: what is left of two would be known by knowing the chord.
func (l *layout) pick(rng *rand.Rand) (chordInKey, error) {
	for n := range 1000 {
		mostHeld := 1
		if n >= triesForOneHeld {
			mostHeld = notesOffered
		}
		offered := fair.SomeOf(l.known, notesOffered, rng)
		at := rng.IntN(len(offered))
		if keys := l.keysFor(offered, mostHeld); keys != nil {
			p := l.keys[keys[at][rng.IntN(len(keys[at]))]]
			p.offered, p.marked = offered, offered[at]
			return p, nil
		}
	}
	return chordInKey{}, fmt.Errorf("no key has notes to choose from for %s", l.target)
}

// keysFor lists, for each of the notes offered, the keys in which it is right, by their places; nil if these are not as pick wants them.
func (l *layout) keysFor(offered []theory.Note, mostHeld int) [][]int {
	keys, without := make([][]int, len(offered)), 0
	for i, marked := range offered {
		var fits, doubtful []int
		for at := range l.keys {
			if p := &l.keys[at]; p.tells(marked, offered, mostHeld) {
				if fits = append(fits, at); p.doubtful(marked, offered) {
					doubtful = append(doubtful, at)
				}
			}
		}
		if len(fits) == 0 {
			return nil
		}
		if keys[i] = doubtful; doubtful == nil {
			keys[i] = fits
			if without++; without > 1 {
				return nil
			}
		}
	}
	return keys
}

// tells reports whether one of the notes offered is right and no other, under whatever letter. The raised sixth and
// seventh of a minor key are notes of the key: they are not offered as wrong ones. Nor is what nobody writes in the key,
// nor more than so many notes that the chord has already.
func (p *chordInKey) tells(marked theory.Note, offered []theory.Note, mostHeld int) bool {
	if !slices.Contains(p.right, marked) {
		return false
	}
	held := 0
	for _, n := range offered {
		if n != marked && p.good[n.Class()] || !p.writes(n) {
			return false
		}
		if slices.Contains(p.chord.Tones(), n) {
			held++
		}
	}
	return held <= mostHeld
}

// writes reports whether a note may stand in the key as it is spelled: a note of the scale under its own letter, and no sharp where
// the key has flats, nor a flat where it has sharps.
func (p *chordInKey) writes(n theory.Note) bool {
	if own := slices.IndexFunc(p.scale, n.Same); own >= 0 {
		return p.scale[own] == n
	}
	return !slices.ContainsFunc(p.key.Notes(), func(of theory.Note) bool { return of.Alter*n.Alter < 0 })
}

// raised returns the raised sixth and seventh of a minor key; none of a major one.
func (p chordInKey) raised() []theory.Note {
	if !p.key.Minor {
		return nil
	}
	return []theory.Note{p.key.Tonic.Up(theory.MajorSixth), p.key.Tonic.Up(theory.MajorSeventh)}
}

// doubtful reports whether another of the notes offered is of the scale.
func (p *chordInKey) doubtful(marked theory.Note, offered []theory.Note) bool {
	return slices.ContainsFunc(offered, func(n theory.Note) bool { return n != marked && slices.Contains(p.scale, n) })
}

func (d KeyAdd) Ask(r drills.Request) (*drills.Question, error) {
	task, ok := keyTasks.Of(r.Target)
	if !ok {
		return nil, drills.NoSuchTarget(r.Target)
	}
	signs := mostSigns
	if r.First {
		signs = mostSignsFirst
	}
	p, err := layHeld(r.On, task, signs, r.Rand)
	for ; err != nil && signs < mostSigns; signs++ {
		p, err = layHeld(r.On, task, signs+1, r.Rand)
	}
	if err != nil {
		return nil, err
	}
	c := p.chord
	q := &drills.Question{
		Drill:   d.About().ID,
		Target:  r.Target,
		Prompt:  askSits(p),
		Voice:   r.Voice(),
		Within:  sayWithin(p),
		Subject: p.named.Tonic.ASCII() + " " + p.named.Name + " " + c.Symbol(),
	}
	if task.rubs {
		q.Prompt = askRubs(p)
	}
	q.Offer(p.marked.ASCII(), noteChoices(p.offered)...)
	for _, n := range p.right {
		q.Accepts = append(q.Accepts, n.ASCII(), strings.ToLower(n.ASCII()))
	}
	q.Answers = drills.Answers[theory.Note]{
		Offered: p.offered,
		Read: func(text string) (theory.Note, error) {
			n, err := read.Note(text)
			if err != nil {
				return n, drills.ErrUnread
			}
			return n, nil
		},
		Mark: func(n theory.Note) drills.Given {
			g := drills.Given{ID: n.ASCII(), Said: wording.Note(n), Result: drills.RightIf(slices.Contains(p.right, n))}
			if !g.Right() && !slices.Contains(p.scale, n) && slices.Contains(p.raised(), n) {
				g.Result = progress.Partly // of the key, if not of this scale
			}
			return g
		},
		Explain: func(n theory.Note, g drills.Given, verdict *drills.Verdict) {
			verdict.Short = p.briefly(n)
			verdict.Say(p.says(n))
			if !slices.Contains(p.right, n) {
				verdict.Say(p.fits(p.marked))
			}
			verdict.Say(p.summing())
			d.show(r.On, c, p.marked, verdict)
			if g.Right() {
				return
			}
			other := drills.Verdict{}
			d.show(r.On, c, n, &other)
			if len(verdict.Asked) > 0 {
				verdict.Other = other.Asked
			}
			verdict.Contrast = drills.Contrast{Right: d.added(verdict, *verdict, c, p.marked), Given: d.added(verdict, other, c, n)}
		},
	}
	return q.BeforeFirst(r), nil
}

// show lets a chord be seen and heard plain and with a note added, where such a chord has a name and a shape.
func (KeyAdd) show(on *neck.Instrument, c theory.Chord, added theory.Note, verdict *drills.Verdict) {
	shapes := on.Shapes(c)
	if len(shapes) == 0 {
		return
	}
	plain, err := shapes[0].Voice(on)
	if err != nil {
		return
	}
	verdict.Shapes = []drills.Reveal{{Caption: wording.Plain(c), Voicing: plain}}
	kind, ok := theory.KindByFormula(append(slices.Clone(c.Kind.Formula), c.Root.To(added)))
	if !ok {
		return
	}
	with, ok := neck.NearestWhole(on, theory.NewChord(c.Root, kind), plain.Shape) // what is spoken of is to sound
	if !ok {
		return
	}
	verdict.Shapes = append(verdict.Shapes, drills.Reveal{Caption: wording.Titled(with.Chord), Voicing: with})
	for _, s := range with.Strings {
		if s.Fret != fret.Muted && s.Pitch.Note.Same(added) {
			verdict.Shapes[1].Mark = s.Number
		}
	}
	verdict.Asked = []drills.Sound{drills.Played(wording.LabelPlain, plain, synth.Strum), drills.Played(labelWithNote(added), with, synth.Strum)}
}

// added is a chord with a note added, as one side of a contrast: in the shape in which it was shown if it was, or else with the note
// in place of one that can be spared. Its shape is added to those of a verdict.
func (KeyAdd) added(to *drills.Verdict, shown drills.Verdict, c theory.Chord, n theory.Note) []drills.Sound {
	if len(shown.Asked) == 2 {
		with := shown.Shapes[1]
		to.Show(with.Caption, with.Voicing)
		return shown.Asked[1:]
	}
	if len(to.Shapes) == 0 {
		return nil
	}
	with, ok := withNote(to.Shapes[0].Voicing, n)
	if !ok {
		return nil
	}
	caption := labelChordWith(c, n)
	to.Show(caption, with)
	return []drills.Sound{drills.Played(caption, with, synth.Strum)}
}

// withNote is a voicing with a note in place of one that can be spared: one that is doubled, or else the highest.
func withNote(v fret.Voicing, n theory.Note) (fret.Voicing, bool) {
	best, at := fret.Muted, -1
	spare := func(i int) bool { return v.Strings[i].Doubled || len(v.Doubled()) == 0 && higher(v, v.Strings[i]) == 0 }
	for i, s := range v.Strings {
		if s.Fret == fret.Muted || !spare(i) {
			continue
		}
		for f := range v.Tuning.Frets + 1 {
			if f > 0 && f <= v.Tuning.Start(i) || v.Tuning.MIDI(i, f)%12 != n.Class() {
				continue
			}
			if at < 0 || neck.Distance(f, s.Fret) < neck.Distance(best, v.Shape[at]) {
				best, at = f, i
			}
		}
	}
	if at < 0 {
		return fret.Voicing{}, false
	}
	shape := slices.Clone(v.Shape)
	shape[at] = best
	with, err := fret.Voice(v.Tuning, shape, v.Chord)
	return with, err == nil
}

// briefly says of a note that was given what the whole of says and fits does, in one sentence.
func (p chordInKey) briefly(n theory.Note) say.Text {
	if !slices.Contains(p.scale, n) || slices.Contains(p.chord.Tones(), n) {
		return p.says(n)
	}
	if tone, rubbing := p.chord.Rubs(n); rubbing {
		return sayRubsBriefly(p, n, tone)
	}
	return saySitsBriefly(p, n)
}

// says says of a note that was given how it stands to the chord: under another letter than the scale has it, too.
func (p chordInKey) says(n theory.Note) say.Text {
	in := slices.IndexFunc(p.scale, n.Same)
	if in < 0 || p.scale[in] == n {
		return p.fits(n)
	}
	if own := p.scale[in]; slices.Contains(p.right, own) {
		return sayOtherLetter(p, n, own)
	}
	return sayWritten(p, n, p.scale[in], p.fits(p.scale[in]))
}

// fits says how a note stands to the chord.
func (p chordInKey) fits(n theory.Note) say.Text {
	tone, rubbing := p.chord.Rubs(n)
	switch standing := p.key.Standing(n); {
	case slices.Contains(p.chord.Tones(), n):
		return sayAlreadyIn(p, n)
	case standing == theory.Outside:
		return sayNotOfKey(p, n)
	case !slices.Contains(p.scale, n) && standing == theory.OfScale:
		return sayNaturalSeventh(p, n)
	case !slices.Contains(p.scale, n):
		return sayNotOfScale(p, n, standing)
	case rubbing && p.chord.Kind.Adds(p.chord.Root.To(n)):
		return sayRubsAndAdded(p, n, tone)
	case rubbing:
		return sayRubs(p, n, tone)
	}
	return saySits(p, n)
}

// summing lists what sits with the chord and what rubs; and of a minor key what it has beside the scale.
func (p chordInKey) summing() say.Text {
	sit, rubbing := besides(p.scale, p.chord)
	line := sayTakesNotes(p, sit)
	if len(rubbing) > 0 {
		line = sayTakesAndRubs(p, sit, rubbing)
	}
	if beside := slices.DeleteFunc(p.raised(), func(n theory.Note) bool { return slices.Contains(p.scale, n) }); len(beside) > 0 {
		line = sayAlsoHas(p, line, beside)
	}
	return line
}

// noteChoices are notes as answers.
func noteChoices(notes []theory.Note) []drills.Choice {
	var out []drills.Choice
	for _, n := range notes {
		out = append(out, drills.Choice{ID: n.ASCII(), Said: wording.Note(n), Typed: n.ASCII()})
	}
	return out
}

// ChordOfKey returns the chord that a target asks about in the key that is held to; false for any key, and for what is no such target.
func ChordOfKey(on *neck.Instrument, target string) (theory.Chord, bool) {
	task, ok := keyTasks.Of(target)
	if !ok {
		return theory.Chord{}, false
	}
	k, inKey := on.HeldKey(task.minor)
	if !inKey {
		return theory.Chord{}, false
	}
	return task.in(k), true
}

// laysTried is how many times notes are laid out to find some in the key that is held to. Twelve keys come about equally often.
const laysTried = 150

// layHeld lays out the notes of a question about a key, in the key and of a chord that may be asked.
func layHeld(on *neck.Instrument, t keyTask, mostSigns int, rng *rand.Rand) (p chordInKey, err error) {
	k, inKey := on.HeldKey(t.minor)
	may := func(p *chordInKey) bool { return (!inKey || p.key.Tonic.Same(k.Tonic)) && on.MayAsk(p.chord) }
	l := newLayout(t, mostSigns)
	if !slices.ContainsFunc(l.keys, func(p chordInKey) bool { return may(&p) }) {
		return p, errNotTaught
	}
	for range laysTried {
		if p, err = l.pick(rng); err != nil || may(&p) {
			return p, err
		}
	}
	return p, errNotTaught
}

// errNotTaught is the error of a question about a key of which no chord may be asked.
var errNotTaught = say.Wrong("what is taught here has no such chord of a key")
