package drills

import (
	"fmt"
	"slices"
	"strings"

	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// shapeTones shows a shape and its name and asks what each string is.
type shapeTones struct{}

func (shapeTones) About() About {
	return About{ID: "shape-tones", Title: "Say what each string of a shape is"}
}

func (shapeTones) Targets(on *Instrument) []Target { return kindTargets(on) }

func (d shapeTones) Ask(r Request) (*Question, error) {
	shapes := r.On.shapesOf(mustKind(r.Target), r.Reach)
	if len(shapes) == 0 {
		return nil, noShape(r.On, mustKind(r.Target))
	}
	v, err := shapes[r.Rand.IntN(len(shapes))].voice(r.On)
	if err != nil {
		return nil, err
	}
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: fmt.Sprintf("This is %s. What is each string?", v.Chord),
		Form:   Tones,
		tuning: r.On.Tuning,
		Shown:  &v,
		Voice:  drawVoice(r.On, r.Rand),
	}
	label, typed := writeTones(v)
	q.expected = Choice{ID: typed, Label: label, Spoken: label, Typed: typed}
	q.Accepts = []string{strings.ReplaceAll(typed, " ", ", "), strings.ReplaceAll(typed, "R", "1"), label}
	var said []theory.Interval
	q.read = func(text string) (given, error) {
		tones, err := readTones(v, text)
		if err != nil {
			return given{}, err
		}
		said = tones
		return markTones(v, tones), nil
	}
	q.explain = func(g given, verdict *Verdict) {
		verdict.Shapes = []Reveal{{Caption: titled(v.Chord), Voicing: v}}
		verdict.Asked = []Sound{played("", v, synth.Strum, nil)}
		for i, s := range v.Strings {
			if s.Fret != fret.Muted && !sameTone(s.Interval, said[i]) {
				verdict.say(fmt.Sprintf("The %s string sounds %s: %s, not %s.", v.Tuning.StringCalled(s.Number), s.Pitch.Note, s.Interval.Role(), said[i].Role()))
			}
		}
		verdict.say(tones(v), leftOut(v))
	}
	return q, nil
}

// muted is what is written for a string that does not sound.
const muted = "x"

// writeTones writes what each string is, to be read and as it is typed.
func writeTones(v fret.Voicing) (label, typed string) {
	var shown, ascii []string
	for _, s := range v.Strings {
		if s.Fret == fret.Muted {
			shown, ascii = append(shown, muted), append(ascii, muted)
		} else {
			shown, ascii = append(shown, s.Interval.Degree()), append(ascii, s.Interval.DegreeASCII())
		}
	}
	return strings.Join(shown, " "), strings.Join(ascii, " ")
}

// toneWords divides a text into tones, which may be of several words: R, b3, minor third, flat 7.
func toneWords(text string) []string {
	if !strings.ContainsAny(text, " ,\t") {
		text = strings.ReplaceAll(text, "-", " ") // R-3-5-R
	}
	var out []string
	begun := ""
	for _, w := range strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;/|\t", r) }) {
		if w == "the" || w == "and" {
			continue
		}
		begun = strings.TrimSpace(begun + " " + w)
		if !read.IsSize(begun) && w != "double" {
			out, begun = append(out, begun), ""
		}
	}
	if begun != "" {
		out = append(out, begun)
	}
	return out
}

// readTones reads a tone for each string, or for each that sounds.
func readTones(v fret.Voicing, text string) ([]theory.Interval, error) {
	typed := toneWords(text)
	sounds := len(v.Pitches())
	if len(typed) == 0 {
		return nil, errUnread
	}
	if len(typed) != len(v.Strings) && len(typed) != sounds {
		few := map[bool]string{true: "few", false: "many"}[len(typed) < sounds]
		return nil, fmt.Errorf("%q has too %s tones: %d strings sound", theory.Clip(text), few, sounds)
	}
	soundingOnly := len(typed) < len(v.Strings)
	out := make([]theory.Interval, len(v.Strings))
	for i, s := range v.Strings {
		silent := s.Fret == fret.Muted
		if silent && soundingOnly {
			continue
		}
		word := typed[0]
		typed = typed[1:]
		if slices.Contains([]string{muted, "-", "muted"}, strings.ToLower(word)) {
			if !silent {
				return nil, fmt.Errorf("the %s string sounds", v.Tuning.StringCalled(s.Number))
			}
			continue
		}
		tone, err := read.Degree(word)
		if err != nil {
			return nil, err
		}
		if word := strings.ToLower(word); word == "third" || word == "seventh" {
			return nil, fmt.Errorf("which %s: minor or major, %s or %s", word, "b"+tone.DegreeASCII(), tone.DegreeASCII())
		}
		if silent {
			return nil, fmt.Errorf("the %s string does not sound: write x for it", v.Tuning.StringCalled(s.Number))
		}
		out[i] = tone
	}
	return out, nil
}

// sameTone reports whether two names of a tone mean the same note of a chord: a ninth may be called a second,
// and a sharp fifth a flat sixth.
func sameTone(a, b theory.Interval) bool { return (a.Semitones-b.Semitones)%12 == 0 }

// markTones marks what each string was said to be.
func markTones(v fret.Voicing, tones []theory.Interval) given {
	var words, spelling []string
	right, sounds := 0, 0
	for i, s := range v.Strings {
		if s.Fret == fret.Muted {
			words = append(words, muted)
			continue
		}
		sounds++
		words = append(words, tones[i].Degree())
		if !sameTone(s.Interval, tones[i]) {
			continue
		}
		right++
		if (s.Interval.Number-tones[i].Number)%7 != 0 {
			spelling = append(spelling, fmt.Sprintf("%s sounds like %s; in %s it is written %s.", tones[i].Degree(), s.Interval.Degree(), v.Chord, s.Interval.Degree()))
		}
	}
	g := given{label: strings.Join(words, " "), result: progress.Partly, note: strings.Join(spelling, " ")}
	g.id = g.label
	switch right {
	case sounds:
		g.result = progress.Right
	case 0:
		g.result = progress.Wrong
	}
	return g
}
