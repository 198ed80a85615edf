package drills

import (
	"fmt"
	"slices"

	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// shapeName shows a fret shape and asks for its name.
type shapeName struct{}

func (shapeName) About() About {
	return About{ID: "shape-name", Title: "Name a shape by sight"}
}

func (shapeName) Targets(on *Instrument) []Target { return kindTargets(on) }

// Ask offers two roots with two kinds each, so that neither the roots nor the kinds among the choices
// tell which is right.
func (d shapeName) Ask(r Request) (*Question, error) {
	kinds, err := draw(d.Targets(r.On), r, kindsClash)
	if err != nil {
		return nil, err
	}
	v, err := findShape(r.On, mustKind(r.Target), r.Rand)
	if err != nil {
		return nil, err
	}
	names := rightNames(v)
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: "Which chord is this?",
		Shown:  &v,
		Voice:  drawVoice(r.On, r.Rand),
		right:  v.Chord.Symbol(),
	}
	// draw puts the kind it is set against first among those it keeps, but lists them in order: find it.
	other := r.Against
	if !slices.ContainsFunc(kinds, func(t Target) bool { return t.ID == other }) || other == r.Target {
		rest := slices.DeleteFunc(slices.Clone(kinds), func(t Target) bool { return t.ID == r.Target })
		other = rest[r.Rand.IntN(len(rest))].ID
	}
	for _, n := range r.Rand.Perm(len(roots)) {
		grid := []theory.Chord{
			v.Chord, theory.NewChord(v.Chord.Root, mustKind(other)),
			theory.NewChord(roots[n], v.Chord.Kind), theory.NewChord(roots[n], mustKind(other)),
		}
		if roots[n] == v.Chord.Root || slices.ContainsFunc(grid[1:], func(c theory.Chord) bool { return isNamed(names, c) }) {
			continue
		}
		for _, c := range grid {
			q.Choices = append(q.Choices, Choice{ID: c.Symbol(), Label: c.String(), Spoken: theory.Spoken(c.Root) + " " + c.Kind.Name, Typed: c.Symbol()})
		}
		break
	}
	r.Rand.Shuffle(len(q.Choices), func(i, j int) { q.Choices[i], q.Choices[j] = q.Choices[j], q.Choices[i] })
	q.read = func(text string) (given, bool) {
		c, err := theory.ParseChord(text)
		if err != nil {
			return given{}, false
		}
		g := given{id: c.Symbol(), label: c.String(), right: isNamed(names, c)}
		if g.right && (!c.Root.Same(v.Chord.Root) || c.Kind != v.Chord.Kind) {
			g.note = fmt.Sprintf("%s is another right name of these notes.", c)
		}
		return g, true
	}
	q.explain = func(g given, verdict *Verdict) {
		verdict.Shapes = []Reveal{{Caption: v.Chord.String() + ", " + v.Chord.Kind.Name, Voicing: v}}
		verdict.Asked = []Sound{played("", v, synth.Strum, nil)}
		if c, err := theory.ParseChord(g.id); !g.right && err == nil {
			verdict.TakenFor = c.Kind.ID
			if c.Root.Same(v.Chord.Root) && c.Kind != v.Chord.Kind {
				verdict.Lines = append(verdict.Lines, differ(v, c.Kind)...)
			} else {
				verdict.Lines = append(verdict.Lines, lacking(v, c)...)
			}
			if near, ok := nearestShape(r.On, c, v.Shape); ok {
				verdict.Shapes = append(verdict.Shapes, Reveal{Caption: c.String() + ", " + c.Kind.Name, Voicing: near})
				verdict.Other = []Sound{played("", near, synth.Strum, nil)}
			}
		}
		verdict.say(spares(v), leftOut(v))
	}
	return q, nil
}

// rightNames returns the names of what a shape sounds whose root sounds too.
func rightNames(v fret.Voicing) []theory.Chord {
	var out []theory.Chord
	for _, n := range fret.Names(v.Tuning, v.Shape, theory.Context{}) {
		if !rootless(n.Chord) {
			out = append(out, n.Chord)
		}
	}
	return out
}

// isNamed reports whether a chord is one of the names, however its root is spelled and whatever bass
// it is written over.
func isNamed(names []theory.Chord, c theory.Chord) bool {
	return slices.ContainsFunc(names, func(n theory.Chord) bool { return n.Kind == c.Kind && n.Root.Same(c.Root) })
}

// lacking says which of a chord's tones a voicing does not sound, and which of its notes are none of
// them.
func lacking(v fret.Voicing, c theory.Chord) []string {
	var missing, foreign []string
	for _, tone := range c.Kind.Formula {
		n := c.Root.Up(tone)
		if !slices.ContainsFunc(v.Pitches(), func(p theory.Pitch) bool { return p.Same(n) }) && !slices.Contains(c.Kind.Omit, tone) {
			missing = append(missing, fmt.Sprintf("%s, %s", n, tone.Role()))
		}
	}
	for _, p := range v.Pitches() {
		if _, ok := c.Kind.Tone(c.Root.To(p.Note)); !ok && !slices.Contains(foreign, p.Note.String()) {
			foreign = append(foreign, p.Note.String())
		}
	}
	var lines []string
	if len(missing) > 0 {
		lines = append(lines, fmt.Sprintf("%s needs %s; no string sounds %s.", c, andWords(missing), map[bool]string{true: "it", false: "them"}[len(missing) == 1]))
	}
	if len(foreign) > 0 {
		is := map[bool]string{true: "is", false: "are"}[len(foreign) == 1]
		lines = append(lines, fmt.Sprintf("%s %s not in %s.", andWords(foreign), is, c))
	}
	return lines
}
