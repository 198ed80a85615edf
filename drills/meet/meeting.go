// Package meet shows a thing before it is asked: its name, what it is like in one sentence, what it is made of, how it sounds
// and how it is held, beside what it will be told from.
package meet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Meeting is one of a drill's targets, shown. It asks nothing.
type Meeting struct {
	Drill, Target string
	Name          say.Text        // what the target is called
	Answer        say.Text        // what it is called among answers, where that is not its name; zero if it is
	Within        say.Text        // the key and chord in which that is the answer; zero where it is in any
	Like          say.Text        // what the target is like, in one sentence; zero where that was said in another drill's meeting
	Facts         []say.Text      // what it is made of, a sentence each, true of what is heard and seen here
	Heard         []Heard         // its sounds, in turn
	Seen          []drills.Reveal // its shapes
	Beside        *Beside         // what it will be told from; nil where there is nothing that it is taken for
	Ears          bool            // it is asked by ear alone
	Known         bool            // it was asked or shown before, and only these shapes of it were not
	Voice         synth.Voice     // plays all the sounds
}

// Beside is what a target will be told from, set against it.
type Beside struct {
	Target   string // of the same drill
	Name     say.Text
	Contrast say.Text // what tells the two apart; zero if no sentence does
	Heard    []Heard  // as many sounds as the target's, or fewer where they begin alike
	Seen     []drills.Reveal
	Answer   bool // it is another answer about the same sound, and shows nothing of what its target asks for
}

// Heard is one sound of a meeting.
type Heard struct {
	Name  say.Text
	Sound drills.Sound
	Shape *fret.Voicing // how it is held; nil where no shape makes it
}

// examples is how many questions are looked at for the one that shows a target best.
const examples = 12

// New makes the meeting of a drill's target, or of AnotherBass, on an instrument: a question in its clearest form, on the shapes that players meet
// first, and its answer. The same target and instrument make the same meeting. The error says why there is none, as that of a
// drill's Ask does.
func New(d drills.Drill, target string, on *neck.Instrument) (Meeting, error) {
	if target == AnotherBass {
		return anotherBass(d, on)
	}
	targets := d.Targets(on)
	at := slices.IndexFunc(targets, func(t drills.Target) bool { return t.ID == target })
	if at < 0 {
		return Meeting{}, fmt.Errorf("%q is nothing that %s asks", target, d.About().ID)
	}
	t := targets[at]
	q, err := example(d, t, on)
	if err != nil {
		return Meeting{}, err
	}
	m, err := of(t, q)
	if err != nil {
		return Meeting{}, err
	}
	if t.Topic.Of == "notes" {
		m.Heard, m.Seen = answersHeard(d, t, on)
	}
	if m.Beside = beside(q, t, q.Solution()); m.Beside != nil && m.Beside.Name.IsZero() {
		m.Beside.Name = nameOf(targets, m.Beside.Target)
	}
	return m, nil
}

// Before makes the meeting of one of a question's targets that is shown just before the question. Where nothing is heard it is about the
// shapes of which one is asked then, all of them, so it does not tell which; else it is as New makes it, with the same errors.
func Before(q *drills.Question, d drills.Drill, target string, on *neck.Instrument) (Meeting, error) {
	var own, others []*drills.Question
	for _, one := range q.Instead {
		if one.Target == target {
			own = append(own, one)
		} else {
			others = append(others, one)
		}
	}
	if len(own) == 0 {
		return New(d, target, on)
	}
	targets := d.Targets(on)
	t := targets[slices.IndexFunc(targets, func(t drills.Target) bool { return t.ID == target })]
	m, err := of(t, own...)
	if err == nil && len(others) > 0 {
		m.Beside = besideThose(own[0], t, others)
		m.Beside.Name = nameOf(targets, m.Beside.Target)
	}
	return m, err
}

func nameOf(targets []drills.Target, id string) say.Text {
	return targets[slices.IndexFunc(targets, func(t drills.Target) bool { return t.ID == id })].Name
}

// of makes the meeting of a target from questions that ask for it, but for what it is told from. Its error says that nothing is written
// about it.
func of(t drills.Target, asked ...*drills.Question) (Meeting, error) {
	like, ok := likes[t.Topic]
	if !ok {
		return Meeting{}, fmt.Errorf("nothing is written about the %s %s", t.Topic.Of, t.Topic.ID)
	}
	m := Meeting{Drill: asked[0].Drill, Target: t.ID, Name: t.Name, Like: like, Voice: asked[0].Voice, Ears: t.Ears || isByEar(asked[0].Drill)}
	for _, q := range asked {
		right := q.Solution()
		for _, l := range right.Lines {
			if !slices.ContainsFunc(m.Facts, l.Equal) {
				m.Facts = append(m.Facts, l)
			}
		}
		m.Heard = append(m.Heard, heardIn(q, t)...)
		m.Seen = append(m.Seen, right.Shapes...)
		if slices.Contains(answered, t.Topic.Of) && len(q.Choices) > 0 {
			m.Answer, m.Within = right.Expected, q.Within
		}
	}
	return m, nil
}

// heardIn is what sounds when a question is answered right, in turn: the sounds that it asks about, or else the shape that it is about.
func heardIn(q *drills.Question, t drills.Target) []Heard {
	right := q.Solution()
	out := heard(right.Asked, right.Shapes, right.Expected, t.Topic)
	if len(out) == 0 && len(right.Shapes) > 0 {
		out = heard(drills.Once(synth.Strum, drills.Soundings(right.Shapes[0].Voicing)), right.Shapes, t.Name, t.Topic)
	}
	for n, h := range out {
		switch {
		case t.Topic.Of == "tone" && n > 0:
			out[n].Name = right.Expected
		case t.Topic.Of == "doubled":
			in := h.Name
			if h.Shape != nil {
				in = wording.Chord(h.Shape.Chord)
			}
			if out[n].Name = sayIn(in, right.Expected); t.Telling { // a note; else strings
				out[n].Name = sayDoubledIn(in, right.Expected)
			}
		case q.Drill == "shape-name": // its other names come when it is known by this one
			out[n].Name = right.Expected
		}
	}
	return out
}

// isByEar reports whether a drill cannot be done without sound.
func isByEar(drill string) bool {
	d, ok := catalogue.ByID(drill)
	return ok && d.About().Ears
}

// answered are the kinds of topic whose answers are called otherwise than what is asked for.
var answered = []string{"resolution", "key"}

// writing are the drills whose answers are what stands under a shape.
var writing = []string{"shape-tones", "spell", "doubled"}

// Written reports whether notes and degrees have to stand under its shapes, since they are what is asked for.
func (m *Meeting) Written() bool { return slices.Contains(writing, m.Drill) }

// example asks for a target in its clearest form: of several questions the one whose shapes lie lowest and whose notes are the easiest
// to read.
func example(d drills.Drill, t drills.Target, on *neck.Instrument) (*drills.Question, error) {
	var best *drills.Question
	least, targets := math.MaxInt, d.Targets(on)
	for seed := range uint64(tries(t)) {
		r := drills.Request{Target: t.ID, On: on, Clarity: drills.Clearest, Rand: drills.QuestionRand(d.About().ID, t.ID, seed)}
		r.Clarity.OneRoot = setApart(t) && d.Rungs(t.ID)[0].Clarity.OneRoot
		if at := slices.IndexFunc(t.Near, func(id string) bool { return drills.IsTarget(targets, id) }); at >= 0 {
			r.Against, r.InPlay = t.Near[at], []string{t.ID, t.Near[at]}
		}
		q, err := d.Ask(r)
		if err != nil {
			return nil, err
		}
		v := q.Solution()
		if t.Topic.Of == "pair" && !showsTwoKinds(v) {
			continue
		}
		h := hardness(v)
		if b := beside(q, t, v); t.Topic.Of == "kind" && b != nil && !oneMoves(v.Shapes, b.Seen) {
			h += movedHardness
		}
		if setApart(t) && len(v.Shapes) > 0 {
			if first := v.Shapes[0].Voicing.Chord.Kind.ID; first == t.Topic.ID || strings.HasSuffix(t.Topic.ID, "-or-"+first) {
				h += plainLastHardness
			}
			if !oneMoves(v.Shapes[:1], v.Shapes) {
				h += movedHardness
			}
		}
		if h < least {
			best, least = q, h
		}
	}
	if best == nil {
		return nil, fmt.Errorf("no question of %s shows both kinds of %s", d.About().ID, t.ID)
	}
	return best, nil
}

// signHardness is how many frets further up an accidental weighs as (from judgement).
const signHardness = 2

// silentHardness is the same for a question of which nothing can be heard, and for one of which nothing can be seen (from judgement).
const silentHardness = 24

// movedHardness is the same for a chord that is not told by one string from what it is set against.
const movedHardness = 6

// plainLastHardness is the same for two chords of which the coloured one, or that of the less plain kind, is heard first.
const plainLastHardness = 12

// setApart reports whether a target is two chords that are told apart: met on one root, the plainer first.
func setApart(t drills.Target) bool { return t.Topic.Of == "pair" || t.Topic.Of == "addition" }

// tries returns how many questions are looked at: more where of two chords on one root only one string is to differ, and of two notes, which
// lie anywhere on the neck and are the first that a beginner sees there: of so many some are open strings.
func tries(t drills.Target) int {
	switch {
	case t.Topic.Of == "notes":
		return 16 * examples
	case setApart(t):
		return 4 * examples
	}
	return examples
}

// muteHardness is the same for a string that is kept silent after one that sounds, as players seldom do it on purpose.
const muteHardness = 3

// muted is how many strings a chord's shape keeps silent after the first that sounds; a strum begins after the others.
func muted(s fret.Shape) (count int) {
	if neck.Sounding(s) < 3 {
		return 0
	}
	begun := false
	for _, f := range s {
		if begun = begun || f != fret.Muted; begun && f == fret.Muted {
			count++
		}
	}
	return count
}

// hardness is how far up the neck what was asked lies, how many strings are kept silent, how many accidentals its roots have, and whether it
// can be heard.
func hardness(v drills.Verdict) int {
	sum := 0
	if len(v.Asked) == 0 {
		sum += silentHardness
	}
	if len(v.Shapes) == 0 {
		sum += silentHardness
	}
	for _, r := range v.Shapes {
		sum += slices.Max(r.Voicing.Shape) + muteHardness*muted(r.Voicing.Shape)
		sum += signHardness * max(int(r.Voicing.Chord.Root.Alter), -int(r.Voicing.Chord.Root.Alter))
	}
	return sum
}

// oneMoves reports whether between the last of some shapes and of others, of chords on one root, just one string moves. Where there is
// none of either it does not matter.
func oneMoves(shapes, others []drills.Reveal) bool {
	if len(shapes) == 0 || len(others) == 0 {
		return true
	}
	return onlyMoved(&shapes[len(shapes)-1].Voicing, &others[len(others)-1].Voicing) != 0
}

// answersHeard is an example of each answer that a target of two notes has, called by it.
func answersHeard(d drills.Drill, t drills.Target, on *neck.Instrument) (heard []Heard, seen []drills.Reveal) {
	least := map[string]int{}
	found := map[string]Heard{}
	var order []drills.Choice
	for seed := range uint64(tries(t)) {
		q, err := d.Ask(drills.Request{Target: t.ID, On: on, Clarity: drills.Clearest, Rand: drills.QuestionRand(d.About().ID, t.ID, seed)})
		if err != nil {
			continue
		}
		v := q.Solution()
		h, id := hardness(v), q.Expected().ID
		if was, ok := least[id]; ok && was <= h {
			continue
		}
		one := Heard{Name: q.Expected().Said, Sound: v.Asked[0]}
		if t.ID == "higher-note" {
			one.Name = sayHigher(one.Name)
		}
		if len(v.Shapes) > 0 {
			one.Shape = &v.Shapes[0].Voicing
		}
		least[id], found[id], order = h, one, q.Choices
	}
	for _, c := range order {
		one, ok := found[c.ID]
		if !ok {
			continue
		}
		heard = append(heard, one)
		if one.Shape != nil {
			seen = append(seen, drills.Reveal{Caption: one.Name, Voicing: *one.Shape})
		}
	}
	return heard, seen
}

// showsTwoKinds reports whether what was asked is chords of more than one kind.
func showsTwoKinds(v drills.Verdict) bool {
	return slices.ContainsFunc(v.Shapes, func(r drills.Reveal) bool { return r.Voicing.Chord.Kind != v.Shapes[0].Voicing.Chord.Kind })
}

// beside is what a target will be told from: the first of what lies near that is among the choices, on the same root if it can be.
func beside(q *drills.Question, t drills.Target, right drills.Verdict) *Beside {
	for _, near := range t.Near {
		var best *Beside
		for _, c := range q.Choices {
			v, err := q.Mark(c.Typed)
			if err != nil || v.TakenFor != near || len(v.Other) == 0 {
				continue
			}
			seen := v.Shapes[min(len(right.Shapes), len(v.Shapes)):]
			b := &Beside{Target: near, Heard: heard(v.Other, v.Shapes, v.Given, t.Topic), Seen: seen}
			if t.Topic.Of == "resolution" { // the chord that was asked about, going elsewhere
				b.Name, b.Answer = v.Given, true
			}
			if t.Topic.Of == "progression" { // what is said of an answer says that it was one
				best = b
				continue
			}
			b.Heard[len(b.Heard)-1].Name = v.Given
			if len(seen) > 0 {
				b.Heard[len(b.Heard)-1].Name = seen[len(seen)-1].Caption
			}
			b.Contrast = contrastIn(v, right)
			if best == nil || sameRoot(seen, right.Shapes) {
				best = b
			}
		}
		if best != nil {
			return best
		}
	}
	return nil
}

// besideThose is what a target will be told from where that is asked for by other questions.
func besideThose(own *drills.Question, t drills.Target, others []*drills.Question) *Beside {
	b := &Beside{Target: others[0].Target}
	for _, q := range others {
		b.Heard = append(b.Heard, heardIn(q, t)...)
		b.Seen = append(b.Seen, q.Solution().Shapes...)
	}
	if v, err := own.Mark(others[0].Expected().Typed); err == nil {
		b.Contrast = contrastIn(v, own.Solution())
	}
	return b
}

// contrastIn is what of the explanation of an answer is not said of the right one as well; zero if nothing is.
func contrastIn(v, right drills.Verdict) say.Text {
	isNew := func(l say.Text) bool { return !slices.ContainsFunc(right.Lines, l.Equal) }
	if i := slices.IndexFunc(v.Lines, isNew); i >= 0 {
		return v.Lines[i]
	}
	return say.Text{}
}

// sameRoot reports whether the last of some shapes and of others is of a chord on one root.
func sameRoot(a, b []drills.Reveal) bool {
	root := func(list []drills.Reveal) theory.Note { return list[len(list)-1].Voicing.Chord.Root }
	return len(a) > 0 && len(b) > 0 && root(a).Same(root(b))
}

// heard gives each of some sounds its name: that of the shape that makes it, or else its label, or else that of the answer. A chord
// of a progression is called by its place as well.
func heard(sounds []drills.Sound, shapes []drills.Reveal, answer say.Text, topic drills.Topic) []Heard {
	out := make([]Heard, len(sounds))
	for i, s := range sounds {
		h := Heard{Name: s.Label, Sound: s}
		if h.Name.IsZero() {
			h.Name = answer
		}
		made := func(r drills.Reveal) bool { return slices.Equal(drills.Soundings(r.Voicing), s.Notes) }
		if at := slices.IndexFunc(shapes, made); at >= 0 {
			h.Shape = &shapes[at].Voicing
			if topic.Of == "progression" {
				h.Name = sayPlaced(s.Label, shapes[at].Caption)
			} else {
				h.Name = shapes[at].Caption
			}
		}
		out[i] = h
	}
	return out
}
