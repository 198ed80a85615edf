package shapes

import (
	"cmp"
	"fmt"
	"slices"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/drills/wording"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// Doubled shows a shape and asks which note is doubled, on which strings, or which string can be spared.
type Doubled struct{}

func (Doubled) About() drills.About {
	return drills.About{ID: "doubled", Title: "Find the doubled note of a shape", Terse: true}
}

// doubling is a note that may be doubled.
type doubling struct {
	id      string
	numbers []int // of the interval above the root; none where no note is doubled
}

// said names the note, "no note" where none is doubled.
func (d doubling) said() say.Text {
	if d.numbers == nil {
		return NothingDoubled
	}
	return sayDoublingOf(d.id)
}

// doublings are the notes that may be doubled; a target each. "none" is a chord that needs every string for a note of its
// own.
var doublings = []doubling{
	{"root", []int{1}},
	{"third", []int{3}},
	{"fifth", []int{5}},
	{"none", nil},
}

// The targets that ask for strings.
const (
	whereDoubled = "where"
	canBeSpared  = "spare"
)

func (Doubled) Targets(on *neck.Instrument) []drills.Target {
	if len(on.Tuning.Strings) < 4 {
		return nil
	}
	var out []drills.Target
	for _, d := range doublings {
		t := drills.Target{ID: d.id, Topic: drills.Topic{Of: "doubled", ID: d.id}, Name: sayIsDoubled(d.said()), Telling: true}
		for _, other := range doublings {
			if other.id != d.id {
				t.Near = append(t.Near, other.id)
			}
		}
		out = append(out, t)
	}
	return append(out,
		drills.Target{ID: whereDoubled, Topic: drills.Topic{Of: "doubled", ID: whereDoubled}, Name: sayWhere},
		drills.Target{ID: canBeSpared, Topic: drills.Topic{Of: "doubled", ID: canBeSpared}, Name: saySpare},
	)
}

func (Doubled) Rungs(string) []drills.Rung { return drills.NeckRungs }

func (d Doubled) Ask(r drills.Request) (*drills.Question, error) {
	var (
		q   *drills.Question
		err error
	)
	switch r.Target {
	case whereDoubled:
		q, err = d.askWhere(r)
	case canBeSpared:
		q, err = d.askSpare(r)
	default:
		q, err = d.askWhich(&r)
	}
	if err != nil {
		return nil, err
	}
	voice := r.Voice()
	for _, q := range append(q.Instead, q) {
		q.Drill, q.Target, q.Voice = d.About().ID, cmp.Or(q.Target, r.Target), voice
	}
	return q, nil
}

// reveal shows a shape and lets it be heard.
func (Doubled) reveal(v fret.Voicing, verdict *drills.Verdict) {
	verdict.Shapes = []drills.Reveal{{Caption: wording.Titled(v.Chord), Voicing: v}}
	verdict.Asked = []drills.Sound{drills.Played(say.Text{}, v, synth.Strum)}
}

// A question is made from the shapes of a few kinds of chord, and of more where those do not do: to look for all
// would take long on a neck of six strings.
const (
	fewKinds  = 3
	moreKinds = 1
)

// Kinds of chord that are known by the time the course comes to this drill, and to its chords that need every string.
var (
	plainKinds   = []string{"major", "minor"}
	seventhKinds = []string{"dominant", "minor-seventh"}
)

// known lists the kinds of chord that may be asked about: plain ones as long as chords that need every string are not
// in play, then sevenths too, and all of them once the whole neck is within reach.
func (Doubled) known(r drills.Request) []string {
	switch {
	case len(r.InPlay) > 0 && !slices.Contains(r.InPlay, "none"):
		return plainKinds
	case r.Reach < 1:
		return slices.Concat(plainKinds, seventhKinds)
	}
	var all []string
	for _, t := range drills.KindTargets(r.On) {
		all = append(all, t.ID)
	}
	return all
}

// kinds returns the kinds of chord in the order in which they are looked at: at random, those of three tones and
// those of more in turn, so that there are notes doubled and none.
func (d Doubled) kinds(r drills.Request) []*theory.Kind {
	var byTones [2][]*theory.Kind
	known := d.known(r)
	for _, n := range r.Rand.Perm(len(known)) {
		k := chord.Kind(known[n])
		more := min(1, len(k.Formula)-3)
		byTones[more] = append(byTones[more], k)
	}
	var out []*theory.Kind
	for n := range known {
		for _, kinds := range byTones {
			if n < len(kinds) {
				out = append(out, kinds[n])
			}
		}
	}
	return out
}

// shapes returns the shapes of some kinds within reach that double one note on two strings, or none.
func (Doubled) shapes(on *neck.Instrument, kinds []*theory.Kind, reach float64) []fret.Voicing {
	var out []fret.Voicing
	for _, k := range kinds {
		for _, h := range on.ShapesOf(k, reach) {
			v, err := h.Voice(on)
			if d := v.Doubled(); err == nil && (len(d) == 0 || len(d) == 1 && len(d[0].Strings) == 2) {
				out = append(out, v)
			}
		}
	}
	return out
}

// fitting returns the voicings that fit each of some choices.
func fitting(all []fret.Voicing, choices int, fits func(v fret.Voicing, choice int) bool) [][]fret.Voicing {
	out := make([][]fret.Voicing, choices)
	for _, v := range all {
		for n := range out {
			if fits(v, n) {
				out[n] = append(out[n], v)
			}
		}
	}
	return out
}

// newEffort is the most that a shape asks of the hand which is shown to somebody who is new to this: where one note alone is to be doubled
// on six strings, shapes within reach are few, and what is not found among those would be a stretch that nobody meets (from judgement).
const newEffort = 14

// held returns the voicings whose shapes ask no more of the hand than newEffort.
func held(all []fret.Voicing) []fret.Voicing {
	return slices.DeleteFunc(all, func(v fret.Voicing) bool {
		_, _, effort, _ := fret.Finger(v.Shape)
		return effort > newEffort
	})
}

// pickVoicing picks a voicing that fits the right choice, as like as can be to those that fit the others. Where it is the first of its
// kind it returns one that fits each choice as well, all alike; nil if there are none.
func (d Doubled) pickVoicing(r drills.Request, kinds []*theory.Kind, right, choices int, fits func(v fret.Voicing, choice int) bool) (v fret.Voicing, each []fret.Voicing, err error) {
	some := min(fewKinds, len(kinds))
	options := func(reach float64) [][]fret.Voicing {
		return fitting(d.shapes(r.On, kinds[:some], reach), choices, fits)
	}
	var like [][]fret.Voicing
	if r.First {
		onFirst := fitting(d.shapes(r.On, kinds, 0), choices, fits)
		like = fair.AllAlike(r, func(float64) [][]fret.Voicing { return onFirst }, fair.SeenVoicing)
	}
	if like == nil && r.New() {
		like = fair.AllAlike(r, func(reach float64) [][]fret.Voicing {
			return fitting(held(d.shapes(r.On, kinds, reach)), choices, fits)
		}, fair.SeenVoicing)
	}
	for like == nil {
		if like = fair.AllAlike(r, options, fair.SeenVoicing); some == len(kinds) {
			break
		}
		some = min(some+moreKinds, len(kinds))
	}
	if like == nil {
		like = fair.AllAlike(r, options, func(v fret.Voicing) fair.Feature { return fair.Feature{neck.Sounding(v.Shape)} })
	}
	if like == nil {
		if like = options(1); len(like[right]) == 0 {
			return fret.Voicing{}, nil, fmt.Errorf("%s has no shape for %q", r.On.Tuning.Name, r.Target)
		}
	}
	v = like[right][r.Rand.IntN(len(like[right]))]
	if !r.First || slices.ContainsFunc(like, func(l []fret.Voicing) bool { return len(l) == 0 }) {
		return v, nil, nil
	}
	for n, list := range like {
		one := v
		if n != right {
			one = list[r.Rand.IntN(len(list))]
		}
		each = append(each, one)
	}
	return v, each, nil
}

// askWhich asks which note is doubled.
func (d Doubled) askWhich(r *drills.Request) (*drills.Question, error) {
	targets := slices.DeleteFunc(d.Targets(r.On), func(t drills.Target) bool { return t.ID == whereDoubled || t.ID == canBeSpared })
	choices, err := fair.Pick(targets, *r, fair.Never)
	if err != nil {
		return nil, err
	}
	if r.AnyFirst(choices) {
		choices = two(choices, *r)
	}
	choices = r.Settle(choices)
	at := func(id string) int {
		return slices.IndexFunc(choices, func(t drills.Target) bool { return t.ID == id })
	}
	v, each, err := d.pickVoicing(*r, d.kinds(*r), at(r.Target), len(choices), func(v fret.Voicing, n int) bool { return doublingOf(v) == choices[n].ID })
	if err != nil {
		return nil, err
	}
	var rows []doubling
	for _, row := range doublings {
		if at(row.id) >= 0 {
			rows = append(rows, row)
		}
	}
	return insteadOf(v, each, func(v fret.Voicing) *drills.Question { return d.which(v, rows) }).BeforeFirst(*r), nil
}

// insteadOf makes the question about a voicing, and those that are about one for each choice.
func insteadOf(v fret.Voicing, each []fret.Voicing, about func(fret.Voicing) *drills.Question) *drills.Question {
	q := about(v)
	for _, other := range each {
		one := q
		if !slices.Equal(other.Shape, v.Shape) {
			one = about(other)
		}
		q.Instead = append(q.Instead, one)
	}
	return q
}

// which asks which of some notes a voicing doubles.
func (d Doubled) which(v fret.Voicing, rows []doubling) *drills.Question {
	right := doublingOf(v)
	q := &drills.Question{Target: right, Prompt: askDoubled(v.Chord), Shown: &v}
	var offered []drills.Choice
	for _, row := range rows {
		offered = append(offered, drills.Choice{ID: row.id, Said: row.said(), Typed: row.id})
	}
	q.Offer(right, offered...)
	if twice := v.Doubled(); len(twice) > 0 {
		q.Accepts = []string{twice[0].Note.ASCII(), "the " + right}
	}
	q.Answers = drills.Answers[doubling]{
		Offered: rows,
		Read:    func(text string) (doubling, error) { return readDoubling(v.Chord, text) },
		Mark: func(row doubling) drills.Given {
			return drills.Given{ID: row.id, Said: row.said(), Result: drills.RightIf(row.id == right)}
		},
		Explain: func(row doubling, g drills.Given, verdict *drills.Verdict) {
			d.reveal(v, verdict)
			verdict.Short = saySpares(v)
			if !g.Right() {
				verdict.TakenFor = row.id
				if once := onlyOnce(v, row); !once.IsZero() {
					verdict.Say(once)
					verdict.Short = once
				}
				verdict.Contrast = drills.Contrast{Right: stringsAlone(v, doubledStrings(v)...), Given: stringsAlone(v, stringsOf(v, row.numbers)...)}
			}
			verdict.Say(saySpares(v))
		},
	}
	return q
}

// readDoubling reads which note of a chord is doubled: by what it is in the chord, or as a note.
func readDoubling(c theory.Chord, text string) (doubling, error) {
	tone, wrong := read.Degree(text)
	ok := wrong == nil
	if note, err := read.Note(text); err == nil {
		tone, ok = c.Kind.Tone(c.Root.To(note))
	}
	for _, row := range doublings {
		if drills.SameWords(text, row.id) || row.numbers == nil && drills.SameWords(text, "no note") || ok && slices.Contains(row.numbers, tone.Number) {
			return row, nil
		}
	}
	return doubling{}, drills.ErrUnread
}

// doublingOf returns the id of what a voicing doubles; "" if it is none of those asked for.
func doublingOf(v fret.Voicing) string {
	twice := v.Doubled()
	for _, d := range doublings {
		if len(twice) == 0 && d.numbers == nil || len(twice) == 1 && slices.Contains(d.numbers, twice[0].Interval.Number) {
			return d.id
		}
	}
	return ""
}

// onlyOnce says on how many strings a note sounds that was taken for the doubled one; zero where none was.
func onlyOnce(v fret.Voicing, taken doubling) say.Text {
	for _, tone := range v.Chord.Kind.Formula {
		if !slices.Contains(taken.numbers, tone.Number) {
			continue
		}
		if on := wording.StringsWith(v, tone); len(on) == 1 {
			return sayOnlyOn(v, tone, on[0])
		}
		return saySilentTone(v.Chord, tone)
	}
	return say.Text{}
}

// DoubledTones lists the tones that may be doubled, without an article.
func DoubledTones() []string {
	var out []string
	for _, row := range doublings {
		if row.numbers != nil {
			out = append(out, row.id)
		}
	}
	return out
}
