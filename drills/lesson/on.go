package lesson

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Taught is a lesson as it is on an instrument.
type Taught struct {
	Lesson
	Hold    neck.Hold
	On      *neck.Instrument // held to that
	Course  course.Course    // the steps, without what cannot be asked
	Left    []LeftOut        // what cannot be, in the lesson's order
	Differs []say.Text       // what is otherwise than on the instrument that the lesson is written for, a sentence each
}

// LeftOut is something of a lesson that an instrument has no question for.
type LeftOut struct {
	Step, Target string // "" for a chord or a move
	Says         say.Text
}

// On lays a lesson on an instrument: where that has other strings its chords are held in other shapes, and what it cannot play is left
// out, with what is nearest.
func (l Lesson) On(on *neck.Instrument) Taught {
	t := Taught{Lesson: l, Hold: neck.Hold{Key: l.Key}}
	same := sameStrings(l.Tuning, on.Tuning)
	for _, h := range l.Chords {
		if _, ok := on.Easiest(h.Chord); !ok {
			t.leave("", "", sayUnplayed(h.Chord, on))
			continue
		}
		if !same {
			h.Shapes = nil
		}
		t.Hold.Chords = append(t.Hold.Chords, h)
	}
	for _, m := range l.Moves {
		if same {
			t.Hold.Moves = append(t.Hold.Moves, m)
		} else if here, ok := on.BestMove(m.Plain, m.Coloured, func(k *theory.Kind) bool { return l.hasKind(k.ID) }); ok {
			t.moveHere(m, here)
		} else {
			t.leave("", "", say.Of("{} has no shape of {} of which one string makes {}", say.Instrument{On: on.Tuning}, say.Chord(m.Plain), say.Chord(m.Coloured)))
		}
	}
	t.On = on
	if len(t.Hold.Chords) > 0 || t.Hold.Key != nil {
		t.On = on.HeldTo(t.Hold)
	}
	t.steps()
	if same && l.Tuning.Name != on.Tuning.Name {
		t.otherLowest()
	}
	return t
}

// moveHere adds a move as it is on an instrument with other strings.
func (t *Taught) moveHere(m, here neck.HeldMove) {
	t.Hold.Moves = append(t.Hold.Moves, here)
	for _, at := range []struct {
		chord theory.Chord
		shape fret.Shape
	}{{here.Plain, here.From}, {here.Coloured, here.To}} {
		i := slices.IndexFunc(t.Hold.Chords, func(h neck.HeldChord) bool { return h.Kind == at.chord.Kind && h.Root.Same(at.chord.Root) })
		if i < 0 {
			i = len(t.Hold.Chords)
			t.Hold.Chords = append(t.Hold.Chords, neck.HeldChord{Chord: at.chord})
		}
		t.Hold.Chords[i].Shapes = append(t.Hold.Chords[i].Shapes, at.shape)
	}
	if here.Coloured.Kind != m.Coloured.Kind {
		t.Differs = append(t.Differs, say.Of("{} and {} are {} and {}; here one string makes no {} of a shape of {} that players are taught, so it is {} and {}: {} and {}.",
			say.Chord(m.Plain), say.Chord(m.Coloured), say.Shape(m.From), say.Shape(m.To), say.Chord(m.Coloured), say.Chord(m.Plain),
			say.Chord(here.Plain), say.Chord(here.Coloured), say.Shape(here.From), say.Shape(here.To)))
		return
	}
	t.Differs = append(t.Differs, say.Of("{} and {}, which are {} and {}, are {} and {} here.",
		say.Chord(m.Plain), say.Chord(m.Coloured), say.Shape(m.From), say.Shape(m.To), say.Shape(here.From), say.Shape(here.To)))
}

func (t *Taught) leave(step, target string, says say.Text) {
	t.Left = append(t.Left, LeftOut{step, target, says})
}

// sayUnplayed says that a chord cannot be played, and what is nearest.
func sayUnplayed(c theory.Chord, on *neck.Instrument) say.Text {
	if near, ok := nearestChord(c, on); ok {
		return say.Of("{} has no shape of {} that a hand can hold; the nearest is {}", say.Instrument{On: on.Tuning}, say.Chord(c), say.Chord(near))
	}
	return say.Of("{} has no shape of {} that a hand can hold", say.Instrument{On: on.Tuning}, say.Chord(c))
}

// steps keeps of the steps what can be asked.
func (t *Taught) steps() {
	inPlay := map[string][]string{}
	for _, s := range t.Lesson.Steps {
		inPlay[s.Drill] = append(inPlay[s.Drill], s.Asks...)
	}
	held := len(t.Hold.Chords) > 0
	gone := map[string]bool{}
	for _, s := range t.Lesson.Steps {
		d, ok := catalogue.ByID(s.Drill)
		if !ok {
			continue
		}
		here := s
		here.Asks = nil
		targets := d.Targets(t.On)
		for _, ask := range s.Asks {
			there := slices.ContainsFunc(targets, func(o drills.Target) bool { return o.ID == ask })
			if there && (!held || catalogue.CanAsk(t.On, d, ask, inPlay[s.Drill])) {
				here.Asks = append(here.Asks, ask)
				continue
			}
			says := say.Of("{} has no question for {} of step {}", say.Instrument{On: t.On.Tuning}, say.Foreign(ask), say.Foreign(s.Name()))
			if there {
				says = say.Of("{} has no question for {} of these chords", say.Foreign(s.Drill), say.Foreign(ask))
			}
			t.leave(s.ID, ask, says)
		}
		if here.RestsOn = slices.DeleteFunc(slices.Clone(s.RestsOn), func(id string) bool { return gone[id] }); here.Asks != nil {
			t.Course = append(t.Course, here)
		} else {
			gone[s.ID] = true
		}
	}
}

// otherLowest says of which shapes another tone is the lowest than on the instrument that the lesson is written for.
func (t *Taught) otherLowest() {
	lowest := func(on *fret.Tuning, s fret.Shape, c theory.Chord) (low fret.StringTone, ok bool) {
		v, err := fret.Voice(on, s, c)
		if err != nil {
			return low, false
		}
		for _, s := range v.Strings {
			if s.Fret != fret.Muted && (!ok || s.Pitch.MIDI() < low.Pitch.MIDI()) {
				low, ok = s, true
			}
		}
		return low, ok
	}
	for _, h := range t.Hold.Chords {
		for _, s := range h.Shapes {
			there, one := lowest(t.Lesson.Tuning, s, h.Chord)
			here, two := lowest(t.On.Tuning, s, h.Chord)
			if one && two && there.Number != here.Number {
				t.Differs = append(t.Differs, say.Of("The lowest note of {}, {}, is {}, {}; it is {}, {}, on {}.",
					say.Shape(s), say.Chord(h.Chord), say.Note(here.Pitch.Note), say.Part(here.Interval),
					say.Note(there.Pitch.Note), say.Part(there.Interval), say.Instrument{On: t.Lesson.Tuning}))
			}
		}
	}
}

// Things counts what the lesson asks for here.
func (t Taught) Things() int {
	n := 0
	for _, s := range t.Course {
		n += len(s.Asks)
	}
	return n
}

// sameStrings reports whether two instruments have the same notes on their open strings, in whatever octave: then shapes are the same.
func sameStrings(a, b *fret.Tuning) bool {
	if len(a.Strings) != len(b.Strings) {
		return false
	}
	for i := range a.Strings {
		if (a.MIDI(i, a.Start(i))-b.MIDI(i, b.Start(i)))%12 != 0 {
			return false
		}
	}
	return true
}
