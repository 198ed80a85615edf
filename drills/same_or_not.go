package drills

import (
	"slices"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// sameOrNot plays two chords on different roots and asks whether they are of one kind; its later targets play
// a plain and a coloured chord and ask which of them has the added note.
type sameOrNot struct{}

func (sameOrNot) About() About {
	return About{ID: "same-or-not", Title: "Tell two notes or two chords apart", Ears: true, Terse: true}
}

// kindPair is two kinds of chord set against each other.
type kindPair struct{ one, other string }

// pairs are the kinds that are set against each other, from the plainest to the closest. Which are confused
// is common practice, no source.
var pairs = []kindPair{
	{"major", "minor"},
	{"major", "suspended-fourth"},
	{"major", "dominant"},
	{"minor", "minor-seventh"},
	{"dominant", "major-seventh"},
	{"dominant", "minor-seventh"},
	{"major", "augmented"},
	{"minor", "diminished"},
	{"added-ninth", "suspended-second"},
	{"added-fourth", "suspended-fourth"},
	{"added-ninth", "major-sixth"},
	{"half-diminished", "diminished-seventh"},
}

// sameTask is a target: two kinds of chord that are set against each other, or, with an addition, a plain chord and a
// coloured one of which it is asked which has the note.
type sameTask struct {
	kindPair
	added addition
	which bool
}

// sameTasks are all the targets.
var sameTasks = tasks(func() (all []sameTask) {
	for _, p := range pairs {
		all = append(all, sameTask{kindPair: p})
	}
	for _, a := range additions {
		all = append(all, sameTask{kindPair{a.plain, a.coloured}, a, true})
	}
	return all
}())

func (s sameTask) id() string {
	if s.which {
		return "which-has-" + s.other
	}
	return s.one + "-or-" + s.other
}

func (s sameTask) topic() Topic {
	if s.which {
		return s.added.topic()
	}
	return Topic{"pair", s.id()}
}

func (s sameTask) kinds() [2]*theory.Kind { return [2]*theory.Kind{mustKind(s.one), mustKind(s.other)} }

func (sameOrNot) Targets(on *Instrument) []Target {
	var out []Target
	for _, n := range noteTasks.all {
		if len(on.Tuning.Strings) > 1 {
			out = append(out, Target{ID: n.id(), Topic: Topic{"notes", n.id()}, Name: n.called})
		}
	}
	for _, s := range sameTasks.all {
		if kinds := s.kinds(); !tooMany(kinds[0], on.Tuning) && !tooMany(kinds[1], on.Tuning) {
			out = append(out, Target{ID: s.id(), Topic: s.topic(), Name: saySameTarget(s)})
		}
	}
	return out
}

// sameness is an answer: of one kind or not, or which of the chords has the note.
type sameness struct {
	id    string
	said  say.Text
	typed string
	also  []string // what else is understood
	shown []string // of that, what papers list
}

var (
	sameKind  = sameness{"same", saySameKind, "same", []string{"yes", "y", "same kind", "one kind"}, []string{"yes", "y"}}
	twoKinds  = sameness{"different", sayTwoKinds, "two", []string{"no", "n", "not", "different", "not the same", "two kinds"}, []string{"no", "n", "not", "different", "two kinds"}}
	theFirst  = sameness{"first", sayTheFirst, "first", []string{"1st", "first one", "first chord"}, []string{"1st"}}
	theSecond = sameness{"second", sayTheSecond, "second", []string{"2nd", "second one", "second chord"}, []string{"2nd"}}
)

// isTyped reports whether a text means the answer.
func (s sameness) isTyped(text string) bool {
	return slices.ContainsFunc(s.also, func(w string) bool { return sameWords(text, w) })
}

// offerTwo offers two answers, of which one is right.
func (q *Question) offerTwo(offered []sameness, right int, explain func(g given, v *Verdict)) {
	var choices []Choice
	for _, s := range offered {
		choices = append(choices, Choice{ID: s.id, Said: s.said, Typed: s.typed})
	}
	q.offer(offered[right].id, choices...)
	q.Accepts = offered[right].shown
	q.answers = answers[sameness]{
		offered: offered,
		read: func(text string) (sameness, error) {
			if i := slices.IndexFunc(offered, func(s sameness) bool { return s.isTyped(text) }); i >= 0 {
				return offered[i], nil
			}
			return sameness{}, errUnread
		},
		mark: func(s sameness) given {
			return given{id: s.id, said: s.said, result: rightIf(s.id == offered[right].id)}
		},
		explain: func(_ sameness, g given, v *Verdict) { explain(g, v) },
	}
}

func (d sameOrNot) Ask(r Request) (*Question, error) {
	if notes, ok := noteTasks.of(r.Target); ok {
		return d.askNotes(r, notes)
	}
	task, ok := sameTasks.of(r.Target)
	if !ok {
		return nil, noSuchTarget(r.Target)
	}
	kinds := task.kinds()
	first := r.toss(0, 2)
	second := 1 - first
	if !task.which {
		second = r.toss(1, 2)
	}
	v, err := d.pickPair(r, kinds, [2]int{first, second})
	if err != nil {
		return nil, err
	}
	how := r.how()
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askSameKind,
		Sounds: []Sound{r.plays(labelFirst, v[0], how), r.plays(labelSecond, v[1], how)},
		Voice:  r.voice(),
	}
	offered, right := []sameness{sameKind, twoKinds}, 0
	if task.which {
		q.Prompt = askWhichHas(task.added)
		offered, right = []sameness{theFirst, theSecond}, 1-first
	} else if first != second {
		right = 1
	}
	q.offerTwo(offered, right, func(g given, verdict *Verdict) {
		verdict.Shapes = []Reveal{{Caption: sayFirstIs(v[0].Chord), Voicing: v[0]}, {Caption: saySecondIs(v[1].Chord), Voicing: v[1]}}
		if first == second {
			verdict.Short = sayBothAre(kinds[first])
			verdict.say(verdict.Short)
		} else {
			verdict.Short = sayFirstAndSecond(kinds[first], kinds[second])
			verdict.say(verdict.Short)
			for _, clause := range differ(v[1], kinds[first]) {
				verdict.say(sayInSecond(clause))
			}
		}
		if g.right() {
			return
		}
		// What was answered: the second chord as it would have been.
		if task.which {
			verdict.Contrast = Contrast{q.Sounds[right : right+1], q.Sounds[1-right : 2-right]}
			return
		}
		c := theory.NewChord(v[1].Chord.Root, kinds[1-second])
		if other, ok := nearestShape(r.On, c, v[1].Shape); ok {
			verdict.say(sayByAnswer(c))
			verdict.Other = []Sound{q.Sounds[0], played(labelSecondAs(c.Kind), other, how)}
			verdict.shows(sayTitled(c), other)
			verdict.against()
		}
	})
	return q, nil
}

// pickPair picks the two shapes, on different roots, or on one where it is to be clearest: each such that it could as well have been of the other kind.
func (sameOrNot) pickPair(r Request, kinds [2]*theory.Kind, which [2]int) ([2]fret.Voicing, error) {
	var out [2]fret.Voicing
	var used theory.Note // the root of the first
	t := r.On.Tuning
	for n := range out {
		options := rootLowest(r, func(reach float64) (out [][]held) {
			for _, k := range kinds {
				out = append(out, slices.DeleteFunc(r.On.shapesOf(k, reach), func(h held) bool {
					if r.On.isHeld() { // not every root has both kinds
						return n > 0 && h.chord.Root.Same(used) && k == kinds[which[0]]
					}
					return n > 0 && h.chord.Root.Same(used) != r.Clarity.OneRoot
				}))
			}
			return out
		}, held.itself)
		h, ok := match(r, which[n], options,
			func(h held) feature {
				return feature{sounding(h.shape), lowest(t, h.shape), h.chord.Root.Class()}
			},
			func(h held) feature { return feature{sounding(h.shape), lowest(t, h.shape)} },
			func(h held) feature { return feature{sounding(h.shape)} },
		)
		if !ok {
			return out, noShape(r.On, kinds[which[n]])
		}
		v, err := h.voice(r.On)
		if err != nil {
			return out, err
		}
		out[n], used = v, h.chord.Root
	}
	return out, nil
}
