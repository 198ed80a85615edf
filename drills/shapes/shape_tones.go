package shapes

import (
	"slices"
	"strings"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Tones shows a shape and its name and asks what each string is.
type Tones struct{}

func (Tones) About() drills.About {
	return drills.About{ID: "shape-tones", Title: "Say what each string of a shape is"}
}

func (Tones) Targets(on *neck.Instrument) []drills.Target { return drills.KindTargets(on) }

func (Tones) Rungs(string) []drills.Rung { return drills.ShapeRungs }

func (d Tones) Ask(r drills.Request) (*drills.Question, error) {
	shapes := shapesOf(r)
	if len(shapes) == 0 {
		return nil, neck.NoShape(r.On, chord.Kind(r.Target))
	}
	v, err := shapes[r.Rand.IntN(len(shapes))].Voice(r.On)
	if err != nil {
		return nil, err
	}
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askStrings(v.Chord),
		Form:   drills.Tones,
		Tuning: r.On.Tuning,
		Shown:  &v,
		Voice:  r.Voice(),
	}
	own := make([]theory.Interval, len(v.Strings))
	for i, s := range v.Strings {
		own[i] = s.Interval
	}
	typed := writeTones(v, own, theory.Interval.DegreeASCII, " ")
	q.Expect(drills.Choice{ID: typed, Said: sayStringTones(v, own), Typed: typed})
	asOne := func(i theory.Interval) string {
		if i == theory.Unison {
			return "1"
		}
		return i.DegreeASCII()
	}
	q.Accepts = []string{writeTones(v, own, theory.Interval.DegreeASCII, ", "), writeTones(v, own, asOne, " "), writeTones(v, own, theory.Interval.Degree, " ")}
	q.Answers = drills.Answers[[]theory.Interval]{
		Read: func(text string) ([]theory.Interval, error) { return readTones(v, text) },
		Mark: func(tones []theory.Interval) drills.Given { return markTones(v, tones) },
		Explain: func(tones []theory.Interval, g drills.Given, verdict *drills.Verdict) {
			verdict.Shapes = []drills.Reveal{{Caption: wording.Titled(v.Chord), Voicing: v}}
			verdict.Asked = []drills.Sound{drills.Played(say.Text{}, v, synth.Strum)}
			verdict.Short = wording.IsNotes(v)
			amiss := false
			for i, s := range v.Strings {
				if s.Fret != fret.Muted && !sameTone(s.Interval, tones[i]) {
					line := sayStringIs(v.Tuning, s, tones[i])
					verdict.Say(line)
					if !amiss {
						verdict.Short, amiss = line, true
					}
				}
			}
			if asSaid, ok := movedTo(v, tones); amiss && ok {
				verdict.Show(g.Said, asSaid)
				verdict.Other = []drills.Sound{drills.Played(g.Said, asSaid, synth.Strum)}
				verdict.SetContrast()
			}
			verdict.Say(wording.Tones(v), wording.LeftOut(v))
		},
	}
	return q.BeforeFirst(r), nil
}

// movedTo is a voicing with each string that was said to be another tone moved to where it would be that, as near as the neck has
// it. No hand need hold it. It is not ok where a string has no such fret.
func movedTo(v fret.Voicing, tones []theory.Interval) (moved fret.Voicing, ok bool) {
	t, shape := v.Tuning, slices.Clone(v.Shape)
	for i, s := range v.Strings {
		if s.Fret == fret.Muted || sameTone(s.Interval, tones[i]) {
			continue
		}
		want, found := v.Chord.Root.Up(tones[i]).Class(), false
		for f := range t.Frets + 1 {
			if f > 0 && f <= t.Start(i) || t.MIDI(i, f)%12 != want {
				continue
			}
			if !found || neck.Distance(f, s.Fret) < neck.Distance(shape[i], s.Fret) {
				shape[i], found = f, true
			}
		}
		if !found {
			return fret.Voicing{}, false
		}
	}
	moved, err := fret.Voice(t, shape, v.Chord)
	return moved, err == nil
}

// writeTones writes what each string of a voicing is as it may be typed; tones has an entry for every string.
func writeTones(v fret.Voicing, tones []theory.Interval, degree func(theory.Interval) string, between string) string {
	out := make([]string, len(tones))
	for i, s := range v.Strings {
		if out[i] = muted; s.Fret != fret.Muted {
			out[i] = degree(tones[i])
		}
	}
	return strings.Join(out, between)
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
		return nil, drills.ErrUnread
	}
	if len(typed) != len(v.Strings) && len(typed) != sounds {
		return nil, wrongNumberOfTones(text, len(typed), sounds)
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
				return nil, stringSounds(v.Tuning, s.Number)
			}
			continue
		}
		tone, err := read.Degree(word)
		if err != nil {
			return nil, err
		}
		if word := strings.ToLower(word); word == "third" || word == "seventh" {
			return nil, whichTone(tone)
		}
		if silent {
			return nil, stringSilent(v.Tuning, s.Number)
		}
		out[i] = tone
	}
	return out, nil
}

// sameTone reports whether two names of a tone mean the same note of a chord: a ninth may be called a second,
// and a sharp fifth a flat sixth.
func sameTone(a, b theory.Interval) bool { return (a.Semitones-b.Semitones)%12 == 0 }

// markTones marks what each string was said to be.
func markTones(v fret.Voicing, tones []theory.Interval) drills.Given {
	var spelling []say.Text
	right, sounds := 0, 0
	for i, s := range v.Strings {
		if s.Fret == fret.Muted {
			continue
		}
		sounds++
		if !sameTone(s.Interval, tones[i]) {
			continue
		}
		right++
		if (s.Interval.Number-tones[i].Number)%7 != 0 {
			spelling = append(spelling, sayWrittenAs(v.Chord, tones[i], s.Interval))
		}
	}
	g := drills.Given{ID: writeTones(v, tones, theory.Interval.DegreeASCII, " "), Said: sayStringTones(v, tones), Result: progress.Partly}
	if len(spelling) > 0 {
		g.Note = say.Of("{}", say.Row(spelling...))
	}
	switch right {
	case sounds:
		g.Result = progress.Right
	case 0:
		g.Result = progress.Wrong
	}
	return g
}
