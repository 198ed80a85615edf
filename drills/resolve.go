package drills

import (
	"fmt"
	"slices"

	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// resolve plays a chord that wants to move on, and asks what it wants to become.
type resolve struct{}

func (resolve) About() About {
	return About{ID: "resolve", Title: "Hear what a chord wants to become", Ears: true}
}

// tension is a kind of chord that wants to move on, and how far above its root lies that of the triad it becomes.
type tension struct {
	id string
	up theory.Interval
}

// tensions are the chords that want to move on, and how far above their root lies the root of the triad that
// they become: a suspended chord its own, a dominant the fifth below, a leading chord the semitone above
// (common practice, no source). Each way is taken by as many of them.
var tensions = []tension{
	{"suspended-fourth", theory.Unison},
	{"dominant", theory.PerfectFourth},
	{"diminished", theory.MinorSecond},
	{"suspended-second", theory.Unison},
	{"dominant-ninth", theory.PerfectFourth},
	{"diminished-seventh", theory.MinorSecond},
}

func (resolve) Targets(on *Instrument) []Target {
	var out []Target
	for _, row := range tensions {
		k := mustKind(row.id)
		if tooMany(k, on.Tuning) {
			continue
		}
		t := Target{ID: k.ID, Name: "where " + an(k.Name) + " chord goes"}
		for _, other := range tensions {
			if other.up != row.up {
				t.Near = append(t.Near, other.id)
			}
		}
		out = append(out, t)
	}
	return out
}

func (d resolve) Ask(r Request) (*Question, error) {
	n := slices.IndexFunc(tensions, func(row tension) bool { return row.id == r.Target })
	if n < 0 {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	// For each way to go one chord that goes it: the one asked for, and of the others one of each.
	var ways []theory.Interval
	var kinds []Target
	for _, m := range r.Rand.Perm(len(tensions)) {
		row := tensions[m]
		if m != n && row.up == tensions[n].up || slices.Contains(ways, row.up) || tooMany(mustKind(row.id), r.On.Tuning) {
			continue
		}
		ways = append(ways, row.up)
		kinds = append(kinds, Target{ID: row.id})
	}
	t := r.On.Tuning
	h, ok := match(r, placeOf(kinds, r.Target), func(reach float64) [][]held { return r.On.shapesOfEach(kinds, reach) },
		func(h held) feature {
			return feature{sounding(h.shape), lowest(t, h.shape), h.chord.Root.Class()}
		},
		func(h held) feature { return feature{sounding(h.shape), h.chord.Root.Class()} },
		func(h held) feature { return feature{sounding(h.shape)} },
	)
	if !ok {
		return nil, noShape(r.On, mustKind(r.Target))
	}
	v, err := h.voice(r.On)
	if err != nil {
		return nil, err
	}
	root, how := v.Chord.Root, drawWay(r.Rand)
	sound := played("chord", v, how, r.Rand)
	ground := slices.DeleteFunc(Soundings(v), func(s synth.Sounding) bool { return s.String != sound.Root })
	// The root is heard and not named: its spelling would tell a leading chord from a dominant.
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: "A root, then a chord on it. What does it want to become?",
		Sounds: []Sound{{Label: "root", Notes: ground, Root: sound.Root, Score: notesHand(r.Rand).Block(ground)}, sound},
		Voice:  drawVoice(r.On, r.Rand),
	}
	var offered []Choice
	for _, w := range goings {
		if slices.Contains(ways, w.up) {
			offered = append(offered, Choice{ID: w.up.String(), Label: w.label, Spoken: w.label, Typed: w.typed})
		}
	}
	q.offer(tensions[n].up.String(), offered...)
	for _, w := range goings {
		if w.up == tensions[n].up {
			q.Accepts = w.also
		}
	}
	q.read = func(text string) (given, error) {
		for _, w := range goings {
			if slices.ContainsFunc(w.also, func(s string) bool { return sameWords(s, text) }) {
				return given{id: w.up.String(), label: w.label, result: rightIf(w.up == tensions[n].up)}, nil
			}
		}
		return given{}, errUnread
	}
	triad := func(up theory.Interval) theory.Chord {
		return theory.NewChord(plainly(root.Up(up)), mustKind("major"))
	}
	goal := triad(tensions[n].up)
	q.explain = func(g given, verdict *Verdict) {
		verdict.Shapes = []Reveal{{Caption: v.Chord.String() + ", " + v.Chord.Kind.Name, Voicing: v}}
		after, ok := nearestShape(r.On, goal, v.Shape)
		verdict.say(leads(v, goal, after))
		if ok {
			verdict.Shapes = append(verdict.Shapes, Reveal{Caption: goal.String() + ", where it goes", Voicing: after})
			verdict.Asked = append(slices.Clone(q.Sounds), played("where it goes", after, how, nil))
		}
		up, err := theory.ParseInterval(g.id)
		if g.right() || err != nil {
			return
		}
		for _, row := range tensions {
			if row.up == up {
				verdict.TakenFor = row.id
				verdict.say(fmt.Sprintf("%s chord goes that way.", capital(an(mustKind(row.id).Name))))
				break
			}
		}
		if other, ok := nearestShape(r.On, triad(up), v.Shape); ok {
			verdict.Other = []Sound{sound, played("your way", other, how, nil)}
		}
	}
	return q, nil
}

// goings are the ways to go, as they are offered and what else is understood.
var goings = []struct {
	up           theory.Interval
	label, typed string
	also         []string
}{
	{theory.Unison, "a triad on the same root", "same", []string{"same root", "stay", "P1"}},
	{theory.MinorSecond, "a triad a semitone higher", "semitone", []string{"semitone higher", "semitone up", "half step up", "m2"}},
	{theory.PerfectFourth, "a triad a fourth higher", "fourth", []string{"fourth higher", "fourth up", "fifth lower", "fifth down", "P4"}},
}

// plainly writes a root as it is spelled, or as chords are mostly written on it if that is a double flat, E♯ or
// the like.
func plainly(n theory.Note) theory.Note {
	if n.Alter == 0 || slices.Contains(notes("C# D# F# G# A# Db Eb Gb Ab Bb"), n) {
		return n
	}
	return roots[slices.IndexFunc(roots, n.Same)]
}

// leads says how each note that does not stay moves by a step into the chord that follows: as it does on the strings
// of a shape of that chord, where it moves alike on all of them, and else to the nearest note.
func leads(v fret.Voicing, to theory.Chord, after fret.Voicing) string {
	from := v.Chord
	var moves []string
	for n, note := range from.Tones() {
		if slices.ContainsFunc(to.Tones(), note.Same) {
			continue
		}
		if step, ok := stepOf(v, after, from.Kind.Formula[n]); ok {
			moves = append(moves, fmt.Sprintf("%s, %s, %s", note, from.Kind.Formula[n].Role(), step))
			continue
		}
		best, least := theory.Note{}, 12
		for _, goal := range to.Tones() {
			up := (goal.Class() - note.Class() + 12) % 12
			if step := min(up, 12-up); step < least {
				best, least = goal, step
			}
		}
		word := "falls"
		if (best.Class()-note.Class()+12)%12 == least {
			word = "rises"
		}
		moves = append(moves, fmt.Sprintf("%s, %s, %s to %s", note, from.Kind.Formula[n].Role(), word, best))
	}
	if len(moves) == 0 {
		return ""
	}
	return fmt.Sprintf("%s goes to %s: %s.", from, to, andWords(moves))
}

// stepOf says how a tone of a voicing moves into the next: rises or falls to a note. It is not ok if it sounds on no
// string, if it stays, or leaps, or if two strings move apart.
func stepOf(v, after fret.Voicing, tone theory.Interval) (says string, ok bool) {
	for i, s := range v.Strings {
		if s.Fret == fret.Muted || s.Interval != tone {
			continue
		}
		if len(after.Strings) == 0 || after.Strings[i].Fret == fret.Muted {
			return "", false
		}
		goal := after.Strings[i].Pitch
		var moves string
		switch up := goal.MIDI() - s.Pitch.MIDI(); {
		case up == 1 || up == 2:
			moves = fmt.Sprintf("rises to %s", goal.Note)
		case up == -1 || up == -2:
			moves = fmt.Sprintf("falls to %s", goal.Note)
		default:
			return "", false
		}
		if says != "" && says != moves {
			return "", false
		}
		says = moves
	}
	return says, says != ""
}
