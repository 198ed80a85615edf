package drills

import (
	"cmp"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"

	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// keyAdd gives a key and a chord of it and asks which note of the key can be added, or which one clashes.
type keyAdd struct{}

func (keyAdd) About() About {
	return About{ID: "key-add", Title: "Know which notes of the key a chord can take"}
}

// The targets are a chord of a key, by its degree, and one of two questions.
const (
	canAdd  = "add-to-"
	clashes = "clash-with-"
)

// degreesAsked are the degrees whose triads are asked for: all but the diminished one.
var degreesAsked = map[bool][]int{false: {1, 4, 5, 6, 2, 3}, true: {1, 4, 5, 6, 7, 3}}

func (keyAdd) Targets(on *Instrument) []Target {
	var out []Target
	for _, question := range []string{canAdd, clashes} {
		for _, minor := range []bool{false, true} {
			k := theory.Key{Minor: minor}
			for _, degree := range degreesAsked[minor] {
				c := k.Triads()[degree-1]
				_, clash := besides(k, c)
				if question == clashes && len(clash) != 1 {
					continue
				}
				id := fmt.Sprintf("%s%s-%d", question, modeOf(k), degree)
				words := map[string]string{canAdd: "what %s in a %s key can take", clashes: "what clashes with %s in a %s key"}[question]
				out = append(out, Target{ID: id, Name: fmt.Sprintf(words, k.Numeral(c), modeOf(k))})
			}
		}
	}
	return out
}

// besides divides the notes of a key that a chord does not have: those that sit well with it, and those that
// clash, a semitone above one of its notes (common practice, no source). They come from the root up.
func besides(k theory.Key, c theory.Chord) (sit, clash []theory.Note) {
	for _, n := range k.Notes() {
		switch {
		case slices.Contains(c.Tones(), n):
		case below(c, n) != nil:
			clash = append(clash, n)
		default:
			sit = append(sit, n)
		}
	}
	byHeight(c, sit)
	byHeight(c, clash)
	return sit, clash
}

// below returns the tone of a chord that lies a semitone below a note, nil if none does.
func below(c theory.Chord, n theory.Note) *theory.Note {
	for _, t := range c.Tones() {
		if (n.Class()-t.Class()+12)%12 == 1 {
			return &t
		}
	}
	return nil
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
	right, offered []theory.Note
	marked         theory.Note // the right one among those offered
}

// layings returns the chord on a degree of each key, and which notes are right there.
func layings(question string, minor bool, degree int) []laid {
	var out []laid
	for _, k := range plainKeys(minor) {
		p := laid{key: k, chord: k.Triads()[degree-1]}
		sit, clash := besides(k, p.chord)
		p.right = sit
		if question == clashes {
			p.right = clash
		}
		out = append(out, p)
	}
	return out
}

// notesOffered is how many notes there are to choose from.
const notesOffered = 4

// layNotes draws the notes to choose from, which of them is right, and then a key in which it is. Every one of them
// is right in some key in which the others are not: so no note is known for one that is right more often. Another of
// them is of that key too, so that it is not enough to know the key; but for one of the four, at the most: the note
// that clashes lies at the flat end of its key, and of the sharpest of four there is none.
func layNotes(question string, minor bool, degree int, rng *rand.Rand) (laid, error) {
	all := layings(question, minor, degree)
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
	return laid{}, fmt.Errorf("no key has notes to choose from for %s on degree %d", question, degree)
}

// tells reports whether one of the notes offered is right and no other, under whatever letter.
func (p laid) tells(marked theory.Note, offered []theory.Note) bool {
	return slices.Contains(p.right, marked) && !slices.ContainsFunc(offered, func(n theory.Note) bool {
		return n != marked && slices.ContainsFunc(p.right, n.Same)
	})
}

// doubtful reports whether another of the notes offered is of the key.
func (p laid) doubtful(marked theory.Note, offered []theory.Note) bool {
	return slices.ContainsFunc(offered, func(n theory.Note) bool { return n != marked && p.key.Contains(n) })
}

func (d keyAdd) Ask(r Request) (*Question, error) {
	var question, mode string
	var degree int
	for _, word := range []string{canAdd, clashes} {
		if rest, ok := strings.CutPrefix(r.Target, word); ok {
			question = word
			mode, _, _ = strings.Cut(rest, "-")
			degree = int(rest[len(rest)-1] - '0')
		}
	}
	if !isTarget(d.Targets(r.On), r.Target) {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	p, err := layNotes(question, mode == "minor", degree, r.Rand)
	if err != nil {
		return nil, err
	}
	k, c := p.key, p.chord
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: fmt.Sprintf("In %s, on %s: which note of the key can be added?", k, c),
		Voice:  drawVoice(r.On, r.Rand),
	}
	if question == clashes {
		q.Prompt = fmt.Sprintf("In %s, on %s: which note of the key clashes?", k, c)
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
		return given{id: n.ASCII(), label: n.String(), result: rightIf(slices.Contains(p.right, n))}, nil
	}
	q.explain = func(g given, verdict *Verdict) {
		said := notes(g.id)[0]
		verdict.say(p.says(said))
		if !slices.Contains(p.right, said) {
			verdict.say(fits(k, c, p.marked))
		}
		verdict.say(summing(k, c))
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

// says says of a note that was given how it stands to the chord: under another letter than the key has it, too.
func (p laid) says(n theory.Note) string {
	in := slices.IndexFunc(p.key.Notes(), n.Same)
	if in < 0 || p.key.Contains(n) {
		return fits(p.key, p.chord, n)
	}
	own := p.key.Notes()[in]
	if slices.Contains(p.right, own) {
		return fmt.Sprintf("%s is the right pitch under the wrong letter: in %s it is %s.", n, p.key, own)
	}
	return fmt.Sprintf("%s is written %s in %s. %s", n, own, p.key, fits(p.key, p.chord, own))
}

// fits says how a note stands to a chord of a key.
func fits(k theory.Key, c theory.Chord, n theory.Note) string {
	switch under := below(c, n); {
	case slices.Contains(c.Tones(), n):
		return fmt.Sprintf("%s is in %s already.", n, c)
	case !k.Contains(n):
		return fmt.Sprintf("%s is not a note of %s.", n, k)
	case under != nil:
		return fmt.Sprintf("%s, %s, lies a semitone above %s, %s: it clashes.", n, role(c, n), *under, role(c, *under))
	}
	return fmt.Sprintf("%s, %s of %s, is a note of %s, and lies a semitone above none of the chord's: it sits well.", n, role(c, n), c, k)
}

// summing lists what can be added to a chord of a key and what clashes.
func summing(k theory.Key, c theory.Chord) string {
	sit, clash := besides(k, c)
	line := fmt.Sprintf("%s in %s can take %s", c, k, andWords(written(sit)))
	if len(clash) > 0 {
		line += fmt.Sprintf("; %s %s", andWords(written(clash)), map[bool]string{true: "clashes", false: "clash"}[len(clash) == 1])
	}
	return line + "."
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
