package ear

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// SameOrNot plays two chords on different roots and asks whether they are of one kind; its later targets play
// a plain and a coloured chord and ask which of them has the added note.
type SameOrNot struct{}

func (SameOrNot) About() drills.About {
	return drills.About{ID: "same-or-not", Title: "Tell two notes or two chords apart", Ears: true, Terse: true}
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
	added chord.Addition
	which bool
}

// sameTasks are all the targets.
var sameTasks = drills.Tasks(func() (all []sameTask) {
	for _, p := range pairs {
		all = append(all, sameTask{kindPair: p})
	}
	for _, a := range chord.Additions {
		all = append(all, sameTask{kindPair{a.Plain, a.Coloured}, a, true})
	}
	return all
}())

func (s sameTask) ID() string {
	if s.which {
		return "which-has-" + s.other
	}
	return s.one + "-or-" + s.other
}

func (s sameTask) topic() drills.Topic {
	if s.which {
		return drills.AdditionTopic(s.added)
	}
	return drills.Topic{Of: "pair", ID: s.ID()}
}

func (s sameTask) kinds() [2]*theory.Kind {
	return [2]*theory.Kind{chord.Kind(s.one), chord.Kind(s.other)}
}

func (SameOrNot) Targets(on *neck.Instrument) []drills.Target {
	var out []drills.Target
	for _, n := range noteTasks.All {
		if len(on.Tuning.Strings) > 1 {
			out = append(out, drills.Target{ID: n.ID(), Topic: drills.Topic{Of: "notes", ID: n.ID()}, Name: n.called})
		}
	}
	for _, s := range sameTasks.All {
		if kinds := s.kinds(); !chord.TooMany(kinds[0], on.Tuning) && !chord.TooMany(kinds[1], on.Tuning) {
			name := sayEither(kinds[0], kinds[1])
			if s.which {
				name = sayWhichHas(s.added)
			}
			out = append(out, drills.Target{ID: s.ID(), Topic: s.topic(), Name: name})
		}
	}
	return out
}

func (SameOrNot) Rungs(target string) []drills.Rung {
	if noteTasks.Has(target) {
		return drills.NoteRungs
	}
	return drills.PairRungs
}

func (d SameOrNot) Ask(r drills.Request) (*drills.Question, error) {
	if notes, ok := noteTasks.Of(r.Target); ok {
		return askNotes(d.About().ID, r, notes)
	}
	task, ok := sameTasks.Of(r.Target)
	if !ok {
		return nil, drills.NoSuchTarget(r.Target)
	}
	kinds := task.kinds()
	first := r.Toss(0, 2)
	second := 1 - first
	if !task.which {
		second = r.Toss(1, 2)
	}
	v, err := d.pickPair(r, kinds, [2]int{first, second})
	if err != nil {
		return nil, err
	}
	how := r.How()
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askSameKind,
		Sounds: []drills.Sound{r.Plays(labelFirst, v[0], how), r.Plays(labelSecond, v[1], how)},
		Voice:  r.Voice(),
	}
	offered, right := []sameness{sameKind, twoKinds}, 0
	if task.which {
		q.Prompt = askWhichHas(task.added)
		offered, right = []sameness{theFirst, theSecond}, 1-first
	} else if first != second {
		right = 1
	}
	offerTwo(q, offered, right, func(g drills.Given, verdict *drills.Verdict) {
		verdict.Shapes = []drills.Reveal{{Caption: sayFirstIs(v[0].Chord), Voicing: v[0]}, {Caption: saySecondIs(v[1].Chord), Voicing: v[1]}}
		if first == second {
			verdict.Short = sayBothAre(kinds[first])
			verdict.Say(verdict.Short)
		} else {
			verdict.Short = sayFirstAndSecond(kinds[first], kinds[second])
			verdict.Say(verdict.Short)
			for _, clause := range wording.Differences(v[1], kinds[first]) {
				verdict.Say(sayInSecond(clause))
			}
		}
		if g.Right() {
			return
		}
		// What was answered: the second chord as it would have been.
		if task.which {
			verdict.Contrast = drills.Contrast{Right: q.Sounds[right : right+1], Given: q.Sounds[1-right : 2-right]}
			return
		}
		c := theory.NewChord(v[1].Chord.Root, kinds[1-second])
		if other, ok := neck.NearestShape(r.On, c, v[1].Shape); ok {
			verdict.Say(sayByAnswer(c))
			verdict.Other = []drills.Sound{q.Sounds[0], drills.Played(labelSecondAs(c.Kind), other, how)}
			verdict.Show(saySecondIs(c), other)
			verdict.SetContrast()
		}
	})
	return q, nil
}

// pickPair picks the two shapes, on different roots, or on one where it is to be clearest: each such that it could as well have been of the other kind.
func (SameOrNot) pickPair(r drills.Request, kinds [2]*theory.Kind, which [2]int) ([2]fret.Voicing, error) {
	var out [2]fret.Voicing
	var used theory.Note // the root of the first
	t := r.On.Tuning
	for n := range out {
		options := fair.RootLowest(r, func(reach float64) (out [][]neck.Held) {
			for _, k := range kinds {
				out = append(out, slices.DeleteFunc(r.On.ShapesOf(k, reach), func(h neck.Held) bool {
					if r.On.IsHeldToChords() { // not every root has both kinds
						return n > 0 && h.Chord.Root.Same(used) && k == kinds[which[0]]
					}
					return n > 0 && h.Chord.Root.Same(used) != r.Clarity.OneRoot
				}))
			}
			return out
		}, neck.Held.Itself)
		h, ok := fair.Match(r, which[n], options,
			func(h neck.Held) fair.Feature {
				return fair.Feature{neck.Sounding(h.Shape), neck.Lowest(t, h.Shape), h.Chord.Root.Class()}
			},
			func(h neck.Held) fair.Feature { return fair.Feature{neck.Sounding(h.Shape), neck.Lowest(t, h.Shape)} },
			func(h neck.Held) fair.Feature { return fair.Feature{neck.Sounding(h.Shape)} },
		)
		if !ok {
			return out, neck.NoShape(r.On, kinds[which[n]])
		}
		v, err := h.Voice(r.On)
		if err != nil {
			return out, err
		}
		out[n], used = v, h.Chord.Root
	}
	return out, nil
}
