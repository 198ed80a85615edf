package meet

import (
	"cmp"
	"slices"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// AnotherBass is by what chords over another note than their root are met, as a target is by its id: they are the last rung of some
// drills, and no target.
const AnotherBass = "another-bass"

// anotherBassTopic is what is written about them.
var anotherBassTopic = drills.Topic{Of: "rung", ID: AnotherBass}

// AnotherBassName is what they are called.
var AnotherBassName = say.Of("a chord over another note")

// AsksAnotherBass reports whether a drill asks for chords over another note than their root, on an instrument.
func AsksAnotherBass(d drills.Drill, on *neck.Instrument) bool {
	return on.Turns() && slices.ContainsFunc(d.Targets(on), func(t drills.Target) bool {
		return slices.ContainsFunc(d.Rungs(t.ID), func(r drills.Rung) bool { return r.Clarity.Turned })
	})
}

// overs are a chord over its root, and the same chord with only the lowest string moved, over another of its notes.
type overs struct {
	over, root fret.Voicing
	hard       int     // how far up the neck they lie, and how hard their roots are to read
	effort     float64 // of the chord over another note
}

func (o overs) compare(other overs) int {
	return cmp.Or(cmp.Compare(o.hard, other.hard), cmp.Compare(o.effort, other.effort))
}

// anotherBass makes the meeting of chords over another note: a chord over its root, and over another of its notes, so that only the lowest
// string moves. It is the same whatever is asked after it. The error says that the neck has no such chord.
func anotherBass(d drills.Drill, on *neck.Instrument) (Meeting, error) {
	var best *overs
	for _, t := range d.Targets(on) {
		if t.Topic.Of != "kind" {
			continue
		}
		if best = clearestOvers(chord.Kind(t.Topic.ID), on); best != nil {
			break // the first kinds are the plainest
		}
	}
	if best == nil {
		return Meeting{}, noOvers(on)
	}
	r := drills.Request{On: on, Clarity: drills.Clearest, Rand: drills.QuestionRand(d.About().ID, AnotherBass, 0)}
	m := Meeting{
		Drill: d.About().ID, Target: AnotherBass, Name: AnotherBassName, Like: likes[anotherBassTopic], Ears: d.About().Ears, Voice: r.Voice(),
		Facts: []say.Text{wording.IsNotes(best.over)},
	}
	for _, v := range []*fret.Voicing{&best.root, &best.over} {
		m.Heard = append(m.Heard, Heard{Name: wording.Titled(v.Chord), Sound: r.Plays(say.Text{}, *v, synth.Strum), Shape: v})
		m.Seen = append(m.Seen, drills.Reveal{Caption: wording.Titled(v.Chord), Voicing: *v})
	}
	switch m.Drill { // what is lowest changes no answer
	case "chord-ear":
		m.Answer = wording.Kind(best.over.Chord.Kind)
	case "shape-name":
		m.Answer = wording.InFull(best.root.Chord)
	}
	return m, nil
}

// clearestOvers returns, of the pairs of a kind, the one that lies lowest and is the easiest to read: over the third if there is one, for
// that is heard most plainly, and from the shapes that players meet first. It returns nil if there is none.
func clearestOvers(k *theory.Kind, on *neck.Instrument) *overs {
	taught := on.FirstShapes(k)
	var all []neck.Held
	for _, root := range on.RootsFor(k) {
		all = append(all, on.Shapes(theory.NewChord(root, k))...)
	}
	for _, tone := range k.Formula[1:] {
		for _, rooted := range [][]neck.Held{taught, all} {
			var best *overs
			for _, h := range rooted {
				for _, one := range oversOf(h, tone, on) {
					if best == nil || one.compare(*best) < 0 {
						best = &one
					}
				}
			}
			if best != nil {
				return best
			}
		}
	}
	return nil
}

// oversOf lists what a shape with its root lowest becomes over a tone where only the lowest string moves.
func oversOf(h neck.Held, tone theory.Interval, on *neck.Instrument) (out []overs) {
	rooted, err := h.Voice(on)
	if err != nil || neck.Lowest(on.Tuning, h.Shape)%12 != h.Chord.Root.Class() {
		return nil
	}
	for _, c := range chord.Turned(h.Chord) {
		if !chord.IsTurned(c) || c.Root.To(c.Bass).Number != tone.Number {
			continue
		}
		for _, other := range on.ShapesOver(c) {
			over, err := other.Voice(on)
			if err == nil && onlyMoved(&rooted, &over) == lowestString(&over) {
				out = append(out, overs{over, rooted, hardness(drills.Verdict{Shapes: []drills.Reveal{{Voicing: rooted}, {Voicing: over}}}), other.Effort})
			}
		}
	}
	return out
}

// lowestString returns the number of the string that sounds lowest.
func lowestString(v *fret.Voicing) int {
	lowest := slices.MinFunc(v.Strings, func(a, b fret.StringTone) int {
		return cmp.Or(muteLast(a)-muteLast(b), cmp.Compare(a.Pitch.MIDI(), b.Pitch.MIDI()))
	})
	return lowest.Number
}

// muteLast is 1 for a string that does not sound, else 0.
func muteLast(s fret.StringTone) int {
	if s.Fret == fret.Muted {
		return 1
	}
	return 0
}
