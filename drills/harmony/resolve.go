package harmony

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Resolve plays a chord that wants to move on, and asks what it wants to become.
type Resolve struct{}

func (Resolve) About() drills.About {
	return drills.About{ID: "resolve", Title: "Hear what a chord wants to become", Ears: true, Terse: true}
}

// tension is a kind of chord that wants to move on, and what it is set against.
type tension struct {
	id      string
	against string                               // the kind of chord that goes to the other goal that is offered, to which this one does not really go
	also    []goal                               // other goals to which it really goes, if less strongly
	says    func(c, triad theory.Chord) say.Text // says what else it does: also[0], as the triad that it leads to
}

// goal is a triad that a chord goes to: how far above the chord's root the root of the triad lies, and of which kind it is.
type goal struct {
	up   theory.Interval
	kind string
}

// tensions are the chords that want to move on (theory.ResolutionOf says where). Each is set against one other, and that
// against it: so both goals are right equally often wherever they are offered. What else they really do is common
// practice, no source: a dominant is followed by the major triad a semitone higher or the minor one a whole tone higher,
// a diminished seventh goes to a triad on any of its tones or a semitone above any, a diminished triad to a dominant as
// the chord on the second degree of a minor key, and a suspended chord is another suspended one on another root.
var tensions = []tension{
	{"suspended-fourth", "diminished", []goal{{theory.PerfectFourth, "major"}}, sayAlsoAsSus("suspended-second")},
	{"dominant", "suspended-second", []goal{{theory.MinorSecond, "major"}, {theory.MajorSecond, "minor"}}, sayAlsoSurprising},
	{"diminished", "suspended-fourth", []goal{{theory.PerfectFourth, "major"}}, sayAlsoAsSecond},
	{"suspended-second", "dominant", []goal{{theory.PerfectFifth, "major"}}, sayAlsoAsSus("suspended-fourth")},
	{"dominant-ninth", "diminished-seventh", []goal{{theory.MajorSecond, "minor"}}, sayAlsoSurprising},
	{"diminished-seventh", "dominant-ninth", []goal{{theory.Unison, "major"}, {theory.MinorSecond, "major"}}, sayAlsoStaying},
}

// tensionOf returns a target's row of the table and its resolution.
func tensionOf(id string) (tension, theory.Resolution, bool) {
	n := slices.IndexFunc(tensions, func(row tension) bool { return row.id == id })
	if n < 0 {
		return tension{}, theory.Resolution{}, false
	}
	r, ok := theory.ResolutionOf(chord.Kind(id))
	return tensions[n], r, ok
}

// goalOf is the goal to which a chord goes most strongly.
func goalOf(r theory.Resolution) goal { return goal{r.Up, r.To.ID} }

func (Resolve) Targets(on *neck.Instrument) []drills.Target {
	var out []drills.Target
	for _, row := range tensions {
		k := chord.Kind(row.id)
		if chord.TooMany(k, on.Tuning) || chord.TooMany(chord.Kind(row.against), on.Tuning) {
			continue
		}
		out = append(out, drills.Target{ID: k.ID, Topic: drills.Topic{Of: "resolution", ID: k.ID}, Name: sayWhereGoes(k), Near: []string{row.against}})
	}
	return out
}

func (Resolve) Rungs(string) []drills.Rung { return drills.ChordRungs }

func (d Resolve) Ask(r drills.Request) (*drills.Question, error) {
	row, resolution, ok := tensionOf(r.Target)
	if !ok || !drills.IsTarget(d.Targets(r.On), r.Target) {
		return nil, drills.NoSuchTarget(r.Target)
	}
	r.Settle([]drills.Target{{ID: row.id}, {ID: row.against}})
	row, resolution, _ = tensionOf(r.Target)
	_, against, _ := tensionOf(row.against)
	t := r.On.Tuning
	picked, ok := fair.Match(r, 0,
		fair.RootLowest(r, func(reach float64) [][]neck.Resolved {
			return [][]neck.Resolved{r.On.ResolvingOf(resolution, reach), r.On.ResolvingOf(against, reach)}
		}, func(h neck.Resolved) neck.Held { return h.Held }),
		func(h neck.Resolved) fair.Feature {
			return fair.Feature{neck.Sounding(h.Shape), neck.Lowest(t, h.Shape), h.Chord.Root.Class()}
		},
		func(h neck.Resolved) fair.Feature { return fair.Feature{neck.Sounding(h.Shape), h.Chord.Root.Class()} },
		func(h neck.Resolved) fair.Feature { return fair.Feature{neck.Sounding(h.Shape)} },
	)
	if !ok {
		return nil, neck.NoShape(r.On, chord.Kind(r.Target))
	}
	v, err := picked.Voice(r.On)
	if err != nil {
		return nil, err
	}
	root, how := v.Chord.Root, r.How()
	sound := r.Plays(labelChord, v, how)
	ground := slices.DeleteFunc(drills.Soundings(v), func(s synth.Sounding) bool { return s.String != sound.Root })
	// The root is heard and not named: its spelling would tell a leading chord from a dominant.
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askGoes,
		Sounds: []drills.Sound{{Label: labelRoot, Notes: ground, Root: sound.Root, Score: r.NotesHand().Block(ground)}, sound},
		Voice:  r.Voice(),
	}
	right, other := goalOf(resolution), goalOf(against)
	var offered []drills.Choice
	var among []goalRow
	for _, g := range goals {
		if g.goal == right || g.goal == other {
			offered, among = append(offered, g.choice()), append(among, g)
		}
		if g.goal == right {
			q.Accepts = g.also
		}
	}
	q.Offer(right.id(), offered...)
	q.Answers = drills.Answers[goalRow]{
		Offered: among,
		Read: func(text string) (goalRow, error) {
			i := slices.IndexFunc(among, func(g goalRow) bool {
				return slices.ContainsFunc(g.also, func(s string) bool { return drills.SameWords(s, text) })
			})
			if i < 0 {
				return goalRow{}, drills.ErrUnread
			}
			return among[i], nil
		},
		Mark: func(g goalRow) drills.Given {
			return drills.Given{ID: g.id(), Said: sayGoing(g.words), Result: drills.RightIf(g.goal == right)}
		},
		Explain: func(_ goalRow, g drills.Given, verdict *drills.Verdict) {
			to := picked.To
			verdict.Shapes = []drills.Reveal{{Caption: wording.Titled(v.Chord), Voicing: v}, {Caption: sayWhereItGoes(to.Chord), Voicing: to}}
			verdict.Asked = append(slices.Clone(q.Sounds), drills.Played(labelGoes, to, how))
			all := tendencies(resolution, v)
			verdict.Short = sayPulls(v.Chord, all[:min(1, len(all))]) // the first pulls most
			verdict.Say(sayGoesTo(v.Chord, resolution.Goal(v.Chord.Root), all))
			if !g.Right() {
				verdict.TakenFor = row.against
				verdict.Say(sayOtherGoes(chord.Kind(row.against)))
				if taken, ok := neck.NearestShape(r.On, other.triad(root), v.Shape); ok {
					verdict.Other = []drills.Sound{sound, drills.Played(wording.LabelAnswer, taken, how)}
					verdict.Show(wording.Titled(taken.Chord), taken)
					verdict.Contrast = drills.Contrast{Right: verdict.Asked[1:], Given: verdict.Other} // where it goes is heard from the chord
				}
			}
			verdict.Say(row.says(v.Chord, row.also[0].triad(root)))
		},
	}
	return q, nil
}

// id is a goal as a choice.
func (g goal) id() string { return g.up.String() + " " + g.kind }

// triad returns the triad that the goal is from a root.
func (g goal) triad(root theory.Note) theory.Chord {
	k := chord.Kind(g.kind)
	goal := theory.NewChord(root.Up(g.up), k)
	if chord.OddlyWritten(goal) {
		all := chord.RootsOf(k)
		goal = theory.NewChord(all[slices.IndexFunc(all, goal.Root.Same)], k)
	}
	return goal
}

// goalRow is a goal as it is offered, and what else is understood.
type goalRow struct {
	goal
	words, typed string // without an article, and as a person types it
	also         []string
}

func (g goalRow) choice() drills.Choice {
	return drills.Choice{ID: g.id(), Said: sayGoing(g.words), Typed: g.typed}
}

// goals are the goals there are. The two a semitone higher never stand together: both are typed "semitone".
var goals = []goalRow{
	{goal{theory.Unison, "major"}, "major triad on the same root", "same", []string{"same root", "stay", "a triad on the same root", "P1"}},
	{goal{theory.MinorSecond, "major"}, "major triad a semitone higher", "semitone", []string{"semitone higher", "semitone up", "half step up", "a triad a semitone higher", "m2"}},
	{goal{theory.MinorSecond, "minor"}, "minor triad a semitone higher", "semitone", []string{"semitone higher", "semitone up", "half step up", "a triad a semitone higher", "m2"}},
	{goal{theory.PerfectFourth, "major"}, "major triad a fourth higher", "fourth", []string{"fourth higher", "fourth up", "fifth lower", "fifth down", "a triad a fourth higher", "P4"}},
}

// tendencies say how each tendency tone moves that a chord sounds, the one that pulls most first.
func tendencies(r theory.Resolution, v fret.Voicing) []say.Text {
	goal := r.Goal(v.Chord.Root)
	var moves []say.Text
	for _, l := range r.Leads {
		if len(wording.StringsWith(v, l.From)) == 0 {
			continue
		}
		from, to := v.Chord.Root.Up(l.From), goal.Root.Up(l.To)
		if r.Step(l) > 0 {
			moves = append(moves, sayRises(from, l.From, to))
		} else {
			moves = append(moves, sayFalls(from, l.From, to))
		}
	}
	return moves
}

// GoalWords lists the triads that a chord may go to, without an article.
func GoalWords() []string {
	out := make([]string, len(goals))
	for i, row := range goals {
		out[i] = row.words
	}
	return out
}
