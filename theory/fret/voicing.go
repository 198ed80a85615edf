package fret

import (
	"fmt"

	"sparetone/theory"
)

// Voicing is a shape on a tuning, heard as a chord: what each string sounds and is.
type Voicing struct {
	Tuning  *Tuning
	Shape   Shape
	Chord   theory.Chord
	Strings []StringTone // in the tuning's order
}

// StringTone is what one string of a voicing sounds.
type StringTone struct {
	Number   int             // the string's number; 1 is the last of the tuning
	Fret     int             // Muted if it does not sound; then the rest is zero
	Pitch    theory.Pitch    // spelled as the chord spells it
	Interval theory.Interval // above the chord's root, as its formula has it
	Foreign  bool            // the note is not one of the chord's; Interval is then its plainest spelling, or the bass's
	Doubled  bool            // another string sounds the same note, in this or another octave
}

// Doubling is a note that more than one string sounds.
type Doubling struct {
	Interval theory.Interval // above the chord's root
	Note     theory.Note
	Strings  []int // numbers of the strings that sound it, in the tuning's order
}

// MisfitError is the error of a shape that does not fit a tuning as a whole.
type MisfitError struct {
	Shape Shape
	Why   string // follows the shape: " is for 5 strings: ukulele has 4"
}

func (e *MisfitError) Error() string { return e.Shape.String() + e.Why }

// Check reports what keeps a shape from being played on the tuning: the wrong number of strings, a fret
// that is not on the neck, or nothing that sounds.
func (t *Tuning) Check(s Shape) error {
	if len(s) != len(t.Strings) {
		return &MisfitError{s, fmt.Sprintf(" is for %s: %s has %d", count(len(s), "string"), t.Name, len(t.Strings))}
	}
	sounds := false
	for i, f := range s {
		switch {
		case f == Muted:
			continue
		case f < 0 || f > t.Frets:
			return fmt.Errorf("fret %d on the %s string: this neck has %d frets", f, t.StringCalled(t.StringNumber(i)), t.Frets)
		case f > 0 && f <= t.Start(i):
			return fmt.Errorf("fret %d on the %s string: this string begins at fret %d", f, t.StringCalled(t.StringNumber(i)), t.Start(i))
		}
		sounds = true
	}
	if !sounds {
		return &MisfitError{s, ": every string is muted"}
	}
	return nil
}

// plainest is how a note foreign to a chord is spelled above its root, by semitones.
var plainest = [12]theory.Interval{
	theory.Unison, theory.MinorNinth, theory.MajorNinth, theory.MinorThird, theory.MajorThird, theory.Eleventh,
	theory.SharpEleventh, theory.PerfectFifth, theory.MinorSixth, theory.MajorSixth, theory.MinorSeventh, theory.MajorSeventh,
}

// Voice hears a shape on a tuning as a chord. The errors are those of Check.
func Voice(t *Tuning, s Shape, c theory.Chord) (Voicing, error) {
	if err := t.Check(s); err != nil {
		return Voicing{}, err
	}
	return voice(t, s, c), nil
}

// voice hears a shape that fits the tuning.
func voice(t *Tuning, s Shape, c theory.Chord) Voicing {
	v := Voicing{Tuning: t, Shape: s, Chord: c, Strings: make([]StringTone, len(s))}
	var count [12]int
	for i, f := range s {
		st := &v.Strings[i]
		st.Number, st.Fret = t.StringNumber(i), f
		if f == Muted {
			continue
		}
		midi := t.MIDI(i, f)
		class := mod(midi, 12)
		above := mod(class-c.Root.Class(), 12)
		tone, ok := c.Kind.Tone(theory.Interval{Number: 1, Semitones: above})
		switch {
		case !ok && c.Bass.Class() == class:
			tone, st.Foreign = c.Root.To(c.Bass), true
		case !ok:
			tone, st.Foreign = plainest[above], true
		}
		st.Interval = tone
		st.Pitch, _ = theory.Spell(midi, c.Root.Up(tone))
		count[class]++
	}
	for i := range v.Strings {
		st := &v.Strings[i]
		st.Doubled = st.Fret != Muted && count[st.Pitch.Class()] > 1
	}
	return v
}

// Pitches returns what sounds, in the tuning's order.
func (v Voicing) Pitches() []theory.Pitch {
	out := make([]theory.Pitch, 0, len(v.Strings))
	for _, s := range v.Strings {
		if s.Fret != Muted {
			out = append(out, s.Pitch)
		}
	}
	return out
}

// Doubled returns the notes that more than one string sounds, in the order in which the strings come.
func (v Voicing) Doubled() []Doubling {
	var out []Doubling
next:
	for _, s := range v.Strings {
		if !s.Doubled {
			continue
		}
		for i := range out {
			if out[i].Note.Same(s.Pitch.Note) {
				out[i].Strings = append(out[i].Strings, s.Number)
				continue next
			}
		}
		out = append(out, Doubling{s.Interval, s.Pitch.Note, []int{s.Number}})
	}
	return out
}

// Missing returns the tones of the chord's formula that no string sounds; none if there is no chord.
func (v Voicing) Missing() []theory.Interval {
	if v.Chord.Kind == nil {
		return nil
	}
	var out []theory.Interval
next:
	for _, tone := range v.Chord.Kind.Formula {
		for _, s := range v.Strings {
			if s.Fret != Muted && !s.Foreign && s.Interval == tone {
				continue next
			}
		}
		out = append(out, tone)
	}
	return out
}

// Hear hears a shape as its plainest name in a context, and returns that with all its names, the plainest first. If it
// has none, such as a single note or a cluster, the voicing's Chord is the zero Chord, its notes are spelled plainly and
// their Interval is zero. The errors are those of Check.
func Hear(t *Tuning, s Shape, ctx theory.Context) (Voicing, []theory.Naming, error) {
	if err := t.Check(s); err != nil {
		return Voicing{}, nil, err
	}
	names := Names(t, s, ctx)
	if len(names) > 0 {
		return voice(t, s, names[0].Chord), names, nil
	}
	v := voice(t, s, theory.NewChord(theory.Note{}, theory.Kinds()[0]))
	v.Chord = theory.Chord{}
	for i, f := range s {
		if f != Muted {
			v.Strings[i].Pitch, v.Strings[i].Interval, v.Strings[i].Foreign = t.Pitch(i, f), theory.Interval{}, false
		}
	}
	return v, nil, nil
}

// Names returns the names of what a shape sounds (theory.Name), the plainest first; none if the shape does not
// fit the tuning. On an instrument without a bass an inversion is not written: 2000 on a ukulele is Am.
func Names(t *Tuning, s Shape, ctx theory.Context) []theory.Naming {
	if t.Check(s) != nil {
		return nil
	}
	var buf [maxStrings]theory.Pitch
	pitches := t.sound(s, buf[:0])
	ctx.NoBass = ctx.NoBass || !t.HasBass()
	return theory.Name(pitches, ctx)
}

// Serves reports whether a shape may stand for a chord that was asked for (theory.Serves), over whatever bass; not if it
// does not fit the tuning.
func Serves(t *Tuning, s Shape, c theory.Chord) bool {
	if t.Check(s) != nil {
		return false
	}
	var buf [maxStrings]theory.Pitch
	return theory.Serves(t.sound(s, buf[:0]), c)
}

// sound appends what a shape sounds to pitches.
func (t *Tuning) sound(s Shape, pitches []theory.Pitch) []theory.Pitch {
	for i, f := range s {
		if f != Muted {
			pitches = append(pitches, t.Pitch(i, f))
		}
	}
	return pitches
}

// count writes how many there are of a thing.
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}
