package harmony

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/fair"
	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// ProgressionEar sets a key with its tonic chord, plays three or four chords of it and asks for their numerals;
// its later targets tell the numerals and ask which of the chords has a note added, and which.
type ProgressionEar struct{}

func (ProgressionEar) About() drills.About {
	return drills.About{ID: "progression-ear", Title: "Hear where chords stand in their key", Ears: true}
}

// progression is a row of degrees in a mode.
type progression struct {
	degrees []int
	minor   bool
}

// progressions are the rows of chords that are asked for, by the degrees their roots stand on (common practice,
// no source). In minor the fifth degree carries the major chord, with the raised seventh of the key.
var progressions = []progression{
	{[]int{1, 4, 5}, false}, {[]int{1, 5, 4}, false}, {[]int{1, 5, 1}, false}, {[]int{1, 4, 1}, false},
	{[]int{1, 6, 4}, false}, {[]int{1, 6, 5}, false}, {[]int{2, 5, 1}, false}, {[]int{1, 2, 5}, false},
	{[]int{1, 4, 5, 1}, false}, {[]int{1, 5, 6, 4}, false}, {[]int{1, 6, 4, 5}, false}, {[]int{6, 4, 1, 5}, false},
	{[]int{1, 4, 1, 5}, false}, {[]int{1, 6, 2, 5}, false}, {[]int{1, 4, 6, 5}, false}, {[]int{4, 5, 3, 6}, false},
	{[]int{1, 4, 5}, true}, {[]int{1, 7, 6}, true}, {[]int{1, 6, 7}, true}, {[]int{1, 4, 1}, true}, {[]int{1, 5, 1}, true}, {[]int{2, 5, 1}, true}, {[]int{1, 2, 5}, true},
}

// rowTask is a target: a progression, or a note that one of its chords may have more.
type rowTask struct {
	row    int        // of progressions, where no colour is asked for
	colour *colourRow // nil where a progression is asked for
}

// rowTasks are all the targets.
var rowTasks = drills.Tasks(func() (all []rowTask) {
	for n := range progressions {
		all = append(all, rowTask{row: n})
	}
	for n := range colours {
		all = append(all, rowTask{colour: &colours[n]})
	}
	return all
}())

func (t rowTask) ID() string {
	if t.colour != nil {
		return "with-a-" + t.colour.id
	}
	p := progressions[t.row]
	id := p.written("-")
	if p.minor {
		return "minor-" + id
	}
	return id
}

// Colours reports whether a target asks which chord of a row was coloured, and with what.
func Colours(target string) bool {
	task, ok := rowTasks.Of(target)
	return ok && task.colour != nil
}

// written writes a progression by the numbers of its degrees.
func (p progression) written(between string) string {
	out := make([]string, len(p.degrees))
	for i, d := range p.degrees {
		out[i] = strconv.Itoa(d)
	}
	return strings.Join(out, between)
}

// rowTargets are the targets that three strings or more can be asked, made once: which are mistaken for each other takes a look at all pairs.
var rowTargets = sync.OnceValue(func() (out []drills.Target) {
	for _, task := range rowTasks.All {
		t := drills.Target{ID: task.ID(), Topic: drills.Topic{Of: "progression", ID: task.ID()}}
		if task.colour == nil {
			t.Name = progressionName(task.row)
		} else {
			t.Name = sayWhichHasColour(task.colour.words)
		}
		for _, other := range rowTasks.All {
			if task.isNear(other) {
				t.Near = append(t.Near, other.ID())
			}
		}
		out = append(out, t)
	}
	return out
})

func (d ProgressionEar) Targets(on *neck.Instrument) []drills.Target {
	if len(on.Tuning.Strings) < 3 {
		return nil
	}
	out := slices.Clone(rowTargets()) // for whoever is given them may take some away
	if len(on.Tuning.Strings) < 4 {
		out = slices.DeleteFunc(out, func(t drills.Target) bool { return Colours(t.ID) })
	}
	return out
}

func (ProgressionEar) Rungs(string) []drills.Rung { return drills.RowRungs }

// isNear reports whether a target is mistaken for another: progressions that differ in one chord, and any two colours.
func (t rowTask) isNear(other rowTask) bool {
	if t.colour != nil || other.colour != nil {
		return t.colour != nil && other.colour != nil && t.colour != other.colour
	}
	return t.row != other.row && differingDegrees(t.row, other.row) == 1
}

// differingDegrees counts the places in which two progressions differ; many if they are not of one length and mode.
func differingDegrees(n, m int) int {
	a, b := progressions[n], progressions[m]
	if a.minor != b.minor || len(a.degrees) != len(b.degrees) {
		return len(a.degrees)
	}
	count := 0
	for i := range a.degrees {
		if a.degrees[i] != b.degrees[i] {
			count++
		}
	}
	return count
}

// progressionName is a progression of the table by its numerals.
func progressionName(n int) say.Text {
	k := theory.Key{Minor: progressions[n].minor}
	return sayProgression(k, chordsOf(n, k))
}

// chordsOf returns the chords of a progression in a key.
func chordsOf(n int, k theory.Key) []theory.Chord {
	var out []theory.Chord
	for _, degree := range progressions[n].degrees {
		c := k.Triads()[degree-1]
		if k.Minor && degree == 5 {
			c.Kind = chord.Kind("major")
		}
		out = append(out, c)
	}
	return out
}

func (d ProgressionEar) Ask(r drills.Request) (*drills.Question, error) {
	task, ok := rowTasks.Of(r.Target)
	if !ok {
		return nil, drills.NoSuchTarget(r.Target)
	}
	if task.colour != nil {
		return d.askColour(r, *task.colour)
	}
	// Only rows of the same length in the same mode stand together.
	asked := progressions[task.row]
	var alike []drills.Target
	for _, t := range d.Targets(r.On) {
		other, _ := rowTasks.Of(t.ID)
		if p := progressions[other.row]; other.colour == nil && p.minor == asked.minor && len(p.degrees) == len(asked.degrees) {
			alike = append(alike, t)
		}
	}
	choices, err := fair.Pick(alike, r, fair.Never)
	if err != nil {
		return nil, err
	}
	choices = r.Settle(choices)
	task, _ = rowTasks.Of(r.Target)
	var offered []drills.Choice
	var among []int // of progressions
	for _, t := range choices {
		other, _ := rowTasks.Of(t.ID)
		offered, among = append(offered, drills.Choice{ID: t.ID, Said: t.Name, Typed: typeProgression(other.row)}), append(among, other.row)
	}
	keys := keysOf(r.On, asked.minor)
	options := func(reach float64) (out [][]row) {
		for _, n := range among {
			var rows []row
			for _, k := range keys {
				if !isWithin(r.On, k, reach) {
					continue
				}
				rows = append(rows, layOut(r.On, k, chordsOf(n, k), reach)...)
			}
			out = append(out, rows)
		}
		return out
	}
	w, ok := fair.Match(r, drills.IndexOf(choices, r.Target), options, heardRow...)
	if !ok {
		return nil, fmt.Errorf("%s has no shapes for %s that a hand can hold", r.On.Tuning.Name, r.Target)
	}
	how := r.How()
	q := &drills.Question{
		Drill:  d.About().ID,
		Target: r.Target,
		Prompt: askProgression(w.key, len(w.chords)),
		Sounds: w.sounds(how, r.Rand),
		Voice:  r.Voice(),
	}
	q.Offer(r.Target, offered...)
	q.Accepts = []string{progressions[task.row].written("-"), strings.ReplaceAll(q.Expected().Typed, " ", "-"), strings.ToLower(q.Expected().Typed)}
	q.Answers = drills.Answers[int]{ // of progressions
		Offered: among,
		Read: func(text string) (int, error) {
			for _, t := range alike {
				if other, _ := rowTasks.Of(t.ID); isProgression(text, other.row) {
					return other.row, nil
				}
			}
			return 0, drills.ErrUnread
		},
		Mark: func(n int) drills.Given {
			return drills.Given{ID: rowTask{row: n}.ID(), Said: progressionName(n), Result: drills.RightIf(n == task.row)}
		},
		Explain: func(n int, g drills.Given, verdict *drills.Verdict) {
			verdict.Short = sayHeardInKey(w.key, w.chords)
			verdict.Say(sayInKey(w.key, eachOnce(w.chords), w.chords), raised(w.key, w.chords))
			for _, v := range w.chords {
				verdict.Shapes = append(verdict.Shapes, drills.Reveal{Caption: sayNumeralAnd(w.key, v.Chord), Voicing: v})
			}
			if g.Right() {
				return
			}
			verdict.TakenFor = g.ID
			if rows := layOut(r.On, w.key, chordsOf(n, w.key), r.Reach); len(rows) > 0 {
				verdict.Say(sayAnswerWouldBe(rows[0].chords))
				verdict.Short = sayHeardNot(w.chords, rows[0].chords)
				verdict.Other = rows[0].sounds(how, nil)
				for _, v := range rows[0].chords {
					verdict.Show(sayNumeralAnd(w.key, v.Chord), v)
				}
				verdict.Contrast = drills.Contrast{Right: verdict.Asked[1:], Given: verdict.Other[1:]}
			}
		},
	}
	return q, nil
}

// eachOnce lists the chords of some voicings, each once.
func eachOnce(voicings []fret.Voicing) []theory.Chord {
	var out []theory.Chord
	for _, c := range chordsIn(voicings) {
		if !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	return out
}

// raised says which chord of a minor key has its raised seventh; zero if none has.
func raised(k theory.Key, chords []fret.Voicing) say.Text {
	for _, v := range chords {
		for _, n := range v.Chord.Tones() {
			if k.Standing(n) == theory.RaisedSeventh {
				return sayRaised(k, v.Chord, n)
			}
		}
	}
	return say.Text{}
}

// typeProgression writes a progression by its numerals, as they are typed.
func typeProgression(n int) string {
	k := theory.Key{Minor: progressions[n].minor}
	var out []string
	for _, c := range chordsOf(n, k) {
		out = append(out, k.TypedNumeral(c))
	}
	return strings.Join(out, " ")
}

// isProgression reports whether a text means a progression: its numerals, whatever their case and what stands between
// them, or its degrees as numbers.
func isProgression(text string, n int) bool {
	said := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return strings.ContainsRune(" ,-–→\t", r) })
	degrees := progressions[n].degrees
	if len(said) != len(degrees) {
		return false
	}
	for i, w := range said {
		if degree, ok := read.Numeral(w); !ok || degree != degrees[i] {
			return false
		}
	}
	return true
}

// ProgressionNames lists the progressions that are asked for, by their numerals.
func ProgressionNames() []string {
	out := make([]string, len(progressions))
	for n := range progressions {
		out[n] = progressionName(n).Screen()
	}
	return out
}
