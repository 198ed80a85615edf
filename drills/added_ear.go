package drills

import (
	"fmt"
	"slices"
	"strings"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// addedEar plays a plain chord, then the same shape with one string moved, and asks what was added. Its
// later targets play only the coloured chord.
type addedEar struct{}

func (addedEar) About() About {
	return About{ID: "added-ear", Title: "Hear which note was added", Ears: true}
}

// additions are what a plain triad may gain by one string, in the order in which choices are shown.
var additions = []struct {
	plain, coloured string
	label, typed    string
	near            []string
}{
	{"major", "added-ninth", "the ninth", "9th", []string{"added-fourth", "suspended-second"}},
	{"major", "added-fourth", "the fourth", "4th", []string{"added-ninth", "suspended-fourth"}},
	{"major", "major-sixth", "the sixth", "6th", []string{"dominant", "added-ninth"}},
	{"major", "dominant", "the minor seventh", "b7", []string{"major-seventh", "major-sixth"}},
	{"major", "major-seventh", "the major seventh", "maj7", []string{"dominant"}},
	{"major", "suspended-second", "the second in place of the third", "sus2", []string{"added-ninth", "suspended-fourth"}},
	{"major", "suspended-fourth", "the fourth in place of the third", "sus4", []string{"added-fourth", "suspended-second"}},
	{"minor", "minor-added-ninth", "the ninth", "9th", []string{"minor-seventh"}},
	{"minor", "minor-sixth", "the sixth", "6th", []string{"minor-seventh"}},
	{"minor", "minor-seventh", "the minor seventh", "b7", []string{"minor-sixth"}},
}

// joins says what a plain chord gains: the ninth added to a major chord, or the fourth for the third of one.
func joins(plain, coloured string) string {
	a, kind := additions[additionOf(plain, coloured)], an(mustKind(plain).Name)
	if note, suspends := strings.CutSuffix(a.label, " in place of the third"); suspends {
		return fmt.Sprintf("%s in place of the third of %s chord", note, kind)
	}
	return fmt.Sprintf("%s added to %s chord", a.label, kind)
}

// additionOf returns the index of the addition that makes one kind of chord of another, or -1. An empty
// plain stands for the first there is.
func additionOf(plain, coloured string) int {
	for i, a := range additions {
		if a.coloured == coloured && (a.plain == plain || plain == "") {
			return i
		}
	}
	return -1
}

// alone ends the id of a target that is heard without its plain chord.
const alone = "-alone"

func (addedEar) Targets(on *Instrument) []Target {
	var out []Target
	for _, level := range []struct{ suffix, words string }{{"", ""}, {alone, ", heard on its own"}} {
		for _, a := range additions {
			if tooMany(mustKind(a.coloured), on.Tuning) {
				continue
			}
			// On its own a suspended second is the suspended fourth of another root, and three strings have no more.
			if level.suffix == alone && (a.coloured == "suspended-second" || len(on.Tuning.Strings) < 4) {
				continue
			}
			t := Target{ID: a.coloured + level.suffix, Name: joins(a.plain, a.coloured) + level.words}
			for _, n := range a.near {
				if n != "suspended-second" || level.suffix == "" {
					t.Near = append(t.Near, n+level.suffix)
				}
			}
			out = append(out, t)
		}
	}
	return out
}

func (d addedEar) Ask(r Request) (*Question, error) {
	coloured, single := strings.CutSuffix(r.Target, alone)
	n := additionOf("", coloured)
	if n < 0 {
		return nil, fmt.Errorf("%q is nothing this drill asks", r.Target)
	}
	plain := mustKind(additions[n].plain)
	clash := never
	if single {
		clash = func(a, b string) bool { return kindsClash(strings.TrimSuffix(a, alone), strings.TrimSuffix(b, alone)) }
	}
	// What is not heard for itself is said: only what can be added to this triad stands among the choices.
	same := slices.DeleteFunc(d.Targets(r.On), func(t Target) bool {
		kind, heardAlone := strings.CutSuffix(t.ID, alone)
		return heardAlone != single || additionOf(plain.ID, kind) < 0
	})
	choices, err := draw(same, r, clash)
	if err != nil {
		return nil, err
	}
	choices = r.settle(choices)
	c, err := d.draw(r, plain, choices)
	if err != nil {
		return nil, err
	}
	before, err := fret.Voice(r.On.Tuning, c.From, c.plain)
	if err != nil {
		return nil, err
	}
	after, err := fret.Voice(r.On.Tuning, c.To, c.Chord)
	if err != nil {
		return nil, err
	}
	how := drawWay(r.Rand)
	sounds := []Sound{played("plain", before, how, r.Rand), played("changed", after, how, r.Rand)}
	q := &Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: "A plain chord, then one string changes. Which note came in?",
		Sounds: sounds,
		Voice:  drawVoice(r.On, r.Rand),
	}
	if single {
		q.Prompt = fmt.Sprintf("This was %s chord until one string changed. Which note came in?", an(plain.Name))
		sounds[1].Label = ""
		q.Sounds = sounds[1:]
	}
	var offered []Choice
	for _, t := range choices {
		a := additions[additionOf(plain.ID, strings.TrimSuffix(t.ID, alone))]
		offered = append(offered, Choice{ID: t.ID, Label: a.label, Spoken: a.label, Typed: a.typed})
	}
	q.offer(r.Target, offered...)
	q.Accepts = []string{kindTyped(c.Chord.Kind), c.Chord.Kind.Name}
	q.read = func(text string) (given, error) {
		a, ok := additionNamed(plain, text)
		if !ok {
			return given{}, errUnread
		}
		id := additions[a].coloured
		if single {
			id += alone
		}
		return given{id: id, label: additions[a].label, result: rightIf(id == r.Target)}, nil
	}
	q.explain = func(g given, v *Verdict) {
		v.Shapes = []Reveal{
			{Caption: before.Chord.String() + ", plain", Voicing: before},
			{Caption: titled(after.Chord), Voicing: after, Mark: c.String},
		}
		v.say(moved(c.Swap, before, after))
		if g.right() {
			return
		}
		v.TakenFor = g.id
		named := strings.TrimSuffix(g.id, alone)
		v.say(differ(after, mustKind(named))...)
		if heard, ok := d.instead(r.On, c, named); ok {
			v.Other = []Sound{played("with "+additions[additionOf(plain.ID, named)].label, heard, how, nil)}
			if !single {
				v.Other = append([]Sound{sounds[0]}, v.Other...)
			}
		}
	}
	return q, nil
}

// draw draws how a plain chord becomes the coloured one. Every choice could have moved the same string of a
// chord that lies as low, and have come as low.
func (addedEar) draw(r Request, plain *theory.Kind, choices []Target) (change, error) {
	options := func(reach float64) (out [][]change) {
		for _, t := range choices {
			out = append(out, r.On.changesTo(plain, strings.TrimSuffix(t.ID, alone), reach))
		}
		return out
	}
	t := r.On.Tuning
	c, ok := match(r, placeOf(choices, r.Target), options,
		func(c change) feature {
			return feature{16*sounding(c.To) + c.String, lowest(t, c.From), lowest(t, c.To)}
		},
		func(c change) feature { return feature{sounding(c.To), lowest(t, c.From), lowest(t, c.To)} },
		func(c change) feature { return feature{sounding(c.To), lowest(t, c.To)} },
		func(c change) feature { return feature{sounding(c.To)} },
	)
	if !ok {
		return change{}, fmt.Errorf("%s has no shape of %s chord that becomes %s by one string",
			t.Name, an(plain.Name), an(mustKind(strings.TrimSuffix(r.Target, alone)).Name))
	}
	return c, nil
}

// instead returns what another addition to the same plain chord sounds like: to the same shape if it can be.
func (addedEar) instead(on *Instrument, c change, named string) (fret.Voicing, bool) {
	for _, o := range on.changes(c.plain) {
		if slices.Equal(o.From, c.From) && o.Chord.Kind.ID == named {
			v, err := fret.Voice(on.Tuning, o.To, o.Chord)
			return v, err == nil
		}
	}
	other := theory.NewChord(c.plain.Root, mustKind(named))
	return nearestShape(on, other, c.To)
}

// additionNamed understands an addition by its name, its number or the kind of chord that comes of it.
func additionNamed(plain *theory.Kind, text string) (int, bool) {
	text = strings.TrimSpace(text)
	for i, a := range additions {
		if a.plain != plain.ID {
			continue
		}
		number, _ := strings.CutSuffix(a.typed, "th")
		if strings.EqualFold(text, a.typed) || text == number || sameWords(read.InFull(read.Words(text)), a.label) || sameWords(text, "add"+number) || sameWords(text, "add "+number) {
			return i, true
		}
	}
	for i, a := range additions {
		if k, ok := read.Kind(text); ok && a.plain == plain.ID && k.ID == a.coloured {
			return i, true
		}
	}
	if i, err := read.Degree(text); err == nil && i == theory.MinorSeventh && text != "b7" {
		return additionNamed(plain, "b7")
	}
	return 0, false
}

// moved says what a swap did: which string, from what to what, and what was given up.
func moved(s fret.Swap, before, after fret.Voicing) string {
	from, to := tone(before, s.String), tone(after, s.String)
	rest := fmt.Sprintf("No other string sounds %s.", from.Pitch.Note)
	if on := stringsWith(after, from.Interval); s.Spare {
		rest = fmt.Sprintf("%s still sounds on %s.", from.Pitch.Note, stringList(after.Tuning, on))
	}
	return fmt.Sprintf("The %s string went from %s, %s, to %s, %s: %s becomes %s. %s", after.Tuning.StringCalled(s.String),
		from.Pitch.Note, from.Interval.Role(), to.Pitch.Note, to.Interval.Role(), before.Chord, after.Chord, rest)
}

// tone returns what the string with a number sounds.
func tone(v fret.Voicing, number int) fret.StringTone {
	return v.Strings[len(v.Strings)-number]
}
