package drills

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// keyAdd gives a key and a chord of it and asks which note of the scale sits with the chord, or which one rubs.
type keyAdd struct{}

func (keyAdd) About() About {
	return About{ID: "key-add", Title: "Know which notes of the key a chord can take", Terse: true}
}

// The targets are a chord of a key, by its degree, and one of two questions: what sits, and what rubs.
const (
	canAdd = "add-to-"
	rubs   = "clash-with-"
)

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
	id := fmt.Sprintf("%s-%d", modeOf(theory.Key{Minor: a.minor}), a.degree)
	if a.raised {
		id += "-raised"
	}
	return id
}

// in returns the chord in a key.
func (a keyChord) in(k theory.Key) theory.Chord {
	c := k.Triads()[a.degree-1]
	if a.raised {
		c.Kind = mustKind("major")
	}
	return c
}

// scale returns the scale that is meant in a key, and its name.
func (a keyChord) scale(k theory.Key) ([]theory.Note, string) {
	if a.raised {
		return k.HarmonicNotes(), k.Tonic.String() + " harmonic minor"
	}
	return k.Notes(), k.ScaleName()
}

func (keyAdd) Targets(on *Instrument) []Target {
	var out []Target
	for _, question := range []string{canAdd, rubs} {
		for _, a := range keyChords {
			k := theory.Key{Minor: a.minor}
			notes, _ := a.scale(k)
			_, rubbing := besides(notes, a.in(k))
			if question == rubs && len(rubbing) != 1 {
				continue
			}
			words := map[string]string{canAdd: "what %s in a %s key takes without rubbing", rubs: "what rubs against %s in a %s key"}[question]
			out = append(out, Target{ID: question + a.id(), Name: fmt.Sprintf(words, k.Numeral(a.in(k)), modeOf(k))})
		}
	}
	return out
}

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

// plainKeys are the keys of a mode that have no more than five sharps or flats.
func plainKeys(minor bool) []theory.Key {
	var out []theory.Key
	for _, n := range rootsOf(mustKind(modeOf(theory.Key{Minor: minor}))) {
		k := theory.Key{Tonic: n, Minor: minor}
		signs := 0
		for _, n := range k.Notes() {
			signs += max(int(n.Alter), -int(n.Alter))
		}
		if signs <= 5 {
			out = append(out, k)
		}
	}
	return out
}

// role names a note as what it would be in a chord: a second is a ninth.
func role(c theory.Chord, n theory.Note) string {
	i := c.Root.To(n)
	if i.Number == 2 {
		i = i.Plus(theory.Octave)
	}
	return i.Role()
}

// laid is a chord in a key with notes to choose from.
type laid struct {
	key            theory.Key
	chord          theory.Chord
	scale          []theory.Note
	scaleName      string
	right, offered []theory.Note
	marked         theory.Note // the right one among those offered
}

// layings returns a chord of each key in which its notes are written as players like to read them, and which notes are
// right there.
func layings(question string, a keyChord) []laid {
	var out []laid
	for _, k := range plainKeys(a.minor) {
		p := laid{key: k, chord: a.in(k)}
		p.scale, p.scaleName = a.scale(k)
		sit, rubbing := besides(p.scale, p.chord)
		p.right = sit
		if question == rubs {
			p.right = rubbing
		}
		if !oddlyWritten(p.chord) || !a.raised {
			out = append(out, p)
		}
	}
	return out
}

// notesOffered is how many notes there are to choose from.
const notesOffered = 4

// layNotes draws the notes to choose from, which of them is right, and then a key in which it is. Every one of them
// is right in some key in which the others are not: so no note is known for one that is right more often. Another of
// them is of that key too, so that it is not enough to know the key; but for one of the four, at the most: the note
// that rubs lies at the flat end of its key, and of the sharpest of four there is none.
func layNotes(question string, a keyChord, rng *rand.Rand) (laid, error) {
	all := layings(question, a)
	var known []theory.Note
	for _, p := range all {
		for _, n := range p.right {
			if !slices.Contains(known, n) {
				known = append(known, n)
			}
		}
	}
	slices.SortFunc(known, func(a, b theory.Note) int { return cmp.Or(a.Class()-b.Class(), int(a.Letter)-int(b.Letter)) })
	for range 1000 {
		offered := someOf(known, notesOffered, rng)
		n := rng.IntN(len(offered))
		keys, without := make([][]laid, len(offered)), 0
		for i, marked := range offered {
			fits := slices.DeleteFunc(slices.Clone(all), func(p laid) bool { return !p.tells(marked, offered) })
			keys[i] = slices.DeleteFunc(slices.Clone(fits), func(p laid) bool { return !p.doubtful(marked, offered) })
			if len(keys[i]) == 0 {
				keys[i] = fits
				without++
			}
		}
		if without > 1 || slices.ContainsFunc(keys, func(k []laid) bool { return len(k) == 0 }) {
			continue
		}
		p := keys[n][rng.IntN(len(keys[n]))]
		p.offered, p.marked = offered, offered[n]
		return p, nil
	}
	return laid{}, fmt.Errorf("no key has notes to choose from for %s%s", question, a.id())
}

// tells reports whether one of the notes offered is right and no other, under whatever letter. The raised sixth and
// seventh of a minor key are notes of the key: they are not offered as wrong ones.
func (p laid) tells(marked theory.Note, offered []theory.Note) bool {
	return slices.Contains(p.right, marked) && !slices.ContainsFunc(offered, func(n theory.Note) bool {
		return n != marked && (slices.ContainsFunc(p.right, n.Same) || slices.ContainsFunc(p.raised(), n.Same))
	})
}

// raised returns the raised sixth and seventh of a minor key; none of a major one.
func (p laid) raised() []theory.Note {
	if !p.key.Minor {
		return nil
	}
	return []theory.Note{p.key.Tonic.Up(theory.MajorSixth), p.key.Tonic.Up(theory.MajorSeventh)}
}

// doubtful reports whether another of the notes offered is of the scale.
func (p laid) doubtful(marked theory.Note, offered []theory.Note) bool {
	return slices.ContainsFunc(offered, func(n theory.Note) bool { return n != marked && slices.Contains(p.scale, n) })
}

func (d keyAdd) Ask(r Request) (*Question, error) {
	if !isTarget(d.Targets(r.On), r.Target) {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	question, words := canAdd, "In %s, on the chord %s: which note of the scale sits without rubbing?"
	if strings.HasPrefix(r.Target, rubs) {
		question, words = rubs, "In %s, on the chord %s: which note of the scale rubs against it?"
	}
	n := slices.IndexFunc(keyChords, func(a keyChord) bool { return question+a.id() == r.Target })
	p, err := layNotes(question, keyChords[n], r.Rand)
	if err != nil {
		return nil, err
	}
	c := p.chord
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: fmt.Sprintf(words, p.scaleName, c),
		Voice:  drawVoice(r.On, r.Rand),
	}
	q.offer(p.marked.ASCII(), noteChoices(p.offered)...)
	for _, n := range p.right {
		q.Accepts = append(q.Accepts, n.ASCII(), strings.ToLower(n.ASCII()))
	}
	q.read = func(text string) (given, error) {
		n, err := read.Note(text)
		if err != nil {
			return given{}, errUnread
		}
		g := given{id: n.ASCII(), label: n.String(), result: rightIf(slices.Contains(p.right, n))}
		if !g.right() && !slices.Contains(p.scale, n) && slices.Contains(p.raised(), n) {
			g.result = progress.Partly // of the key, if not of this scale
		}
		return g, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		said := notes(g.id)[0]
		verdict.say(p.says(said))
		if !slices.Contains(p.right, said) {
			verdict.say(p.fits(p.marked))
		}
		verdict.say(p.summing())
		d.show(r.On, c, p.marked, verdict)
		if asked := verdict.Asked; !g.right() && len(asked) > 0 {
			other := Verdict{}
			d.show(r.On, c, said, &other)
			verdict.Other = other.Asked
		}
	}
	return q, nil
}

// show lets a chord be seen and heard plain and with a note added, where such a chord has a name and a shape.
func (keyAdd) show(on *Instrument, c theory.Chord, added theory.Note, verdict *Verdict) {
	shapes := on.shapes(c)
	if len(shapes) == 0 {
		return
	}
	plain, err := shapes[0].voice(on)
	if err != nil {
		return
	}
	verdict.Shapes = []Reveal{{Caption: c.String() + ", plain", Voicing: plain}}
	kind, ok := theory.KindByFormula(append(slices.Clone(c.Kind.Formula), c.Root.To(added)))
	if !ok {
		return
	}
	with, ok := nearestWhole(on, theory.NewChord(c.Root, kind), plain.Shape) // what is spoken of is to sound
	if !ok {
		return
	}
	verdict.Shapes = append(verdict.Shapes, Reveal{Caption: titled(with.Chord), Voicing: with})
	for _, s := range with.Strings {
		if s.Fret != fret.Muted && s.Pitch.Note.Same(added) {
			verdict.Shapes[1].Mark = s.Number
		}
	}
	verdict.Asked = []Sound{played("plain", plain, synth.Strum, nil), played("with "+added.String(), with, synth.Strum, nil)}
}

// says says of a note that was given how it stands to the chord: under another letter than the scale has it, too.
func (p laid) says(n theory.Note) string {
	in := slices.IndexFunc(p.scale, n.Same)
	if in < 0 || p.scale[in] == n {
		return p.fits(n)
	}
	own := p.scale[in]
	if slices.Contains(p.right, own) {
		return fmt.Sprintf("%s is the right pitch with the wrong letter: in %s it is %s.", n, p.scaleName, own)
	}
	return fmt.Sprintf("%s is written %s in %s. %s", n, own, p.scaleName, p.fits(own))
}

// fits says how a note stands to the chord.
func (p laid) fits(n theory.Note) string {
	tone, rubbing := p.chord.Rubs(n)
	switch standing := p.key.Standing(n); {
	case slices.Contains(p.chord.Tones(), n):
		return fmt.Sprintf("%s is already in the chord %s.", n, p.chord)
	case standing == theory.Outside:
		return fmt.Sprintf("%s is not a note of %s.", n, p.key)
	case !slices.Contains(p.scale, n):
		return fmt.Sprintf("%s is a note of %s, but not of %s: it is %s.", n, p.key, p.scaleName, standingWords(p.key, n))
	case rubbing:
		return rubbingWords(p.chord, n, tone)
	}
	return fmt.Sprintf("%s, %s of the chord %s, is a note of %s, and no note of the chord lies a semitone below it: it sits without rubbing.", n, role(p.chord, n), p.chord, p.scaleName)
}

// standingWords says what a note is in a minor key: the raised seventh, or the natural one beside it.
func standingWords(k theory.Key, n theory.Note) string {
	if s := k.Standing(n); s != theory.OfScale {
		return s.String()
	}
	return "the natural seventh"
}

// rubbingWords says what a note rubs against, and whether players add it.
func rubbingWords(c theory.Chord, n theory.Note, tone theory.Interval) string {
	own := "it is seldom added"
	if c.Kind.Adds(c.Root.To(n)) {
		own = "players add it for that"
	}
	return fmt.Sprintf("%s, %s, lies a semitone above %s, %s: it rubs, and %s.", n, role(c, n), c.Root.Up(tone), tone.Role(), own)
}

// summing lists what sits with the chord and what rubs; and of a minor key what it has beside the scale.
func (p laid) summing() string {
	sit, rubbing := besides(p.scale, p.chord)
	line := fmt.Sprintf("In %s the chord %s takes %s without rubbing", p.scaleName, p.chord, andWords(written(sit)))
	if len(rubbing) > 0 {
		line += fmt.Sprintf("; %s %s", andWords(written(rubbing)), map[bool]string{true: "rubs", false: "rub"}[len(rubbing) == 1])
	}
	line += "."
	if beside := slices.DeleteFunc(p.raised(), func(n theory.Note) bool { return slices.Contains(p.scale, n) }); len(beside) > 0 {
		var words []string
		for _, n := range beside {
			words = append(words, fmt.Sprintf("%s, %s", n, p.key.Standing(n)))
		}
		line += fmt.Sprintf(" %s also has %s.", p.key, strings.Join(words, ", and "))
	}
	return line
}

func written(notes []theory.Note) []string {
	var out []string
	for _, n := range notes {
		out = append(out, n.String())
	}
	return out
}

// noteChoices are notes as answers.
func noteChoices(notes []theory.Note) []Choice {
	var out []Choice
	for _, n := range notes {
		out = append(out, Choice{ID: n.ASCII(), Label: n.String(), Spoken: theory.Spoken(n), Typed: n.ASCII()})
	}
	return out
}
