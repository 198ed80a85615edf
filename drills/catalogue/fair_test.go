package catalogue

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/guesser"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// Nothing but music gives the answer away. A guesser sees one feature of a question and its choices, and has
// learned from half of the questions how often each choice is right with that feature; it guesses on the other
// half, and the other way round. Where there are no choices it guesses the commonest answer, and chance is what
// the commonest answer reaches without the feature.
const mostAboveChance = guesser.MostAboveChance

// met is a question as it is met: with the level of what sounds, in steps of a quarter of a LU, as a whole and of its
// loudest 400 ms. Both are empty where nothing is rendered.
type met struct {
	*drills.Question
	loudness, loudest string
}

// noticed are the features of a question as a whole.
var noticed = []struct {
	name string
	of   func(q met) string
}{
	{"loudness", func(q met) string { return q.loudness }},
	{"loudest", func(q met) string { return q.loudest }},
	{"length", func(q met) string { return fmt.Sprint(lengthOf(q.Question).Round(10 * time.Millisecond)) }},
	{"plucks", func(q met) string {
		n := 0
		for _, s := range q.Sounds {
			n += len(s.Score.Plucks)
		}
		return fmt.Sprint(n)
	}},
	{"spacing", func(q met) string {
		var all []string
		for _, s := range q.Sounds {
			last := time.Duration(0)
			for _, p := range s.Score.Plucks {
				last = max(last, p.At)
			}
			all = append(all, fmt.Sprint((last / time.Duration(max(1, len(s.Score.Plucks)-1))).Round(10*time.Millisecond)))
		}
		return strings.Join(all, " ")
	}},
	{"voice", func(q met) string {
		if len(q.Sounds) == 0 {
			return ""
		}
		return q.Voice.Name()
	}},
	{"lowest", func(q met) string {
		low := math.MaxInt
		for _, s := range q.Sounds {
			for _, n := range s.Notes {
				low = min(low, n.Pitch.MIDI())
			}
		}
		return fmt.Sprint(low)
	}},
	{"position", func(q met) string {
		if q.Shown == nil {
			return ""
		}
		return fmt.Sprint(neck.LowestFret(q.Shown.Shape))
	}},
}

// ofChoice are the features of a choice among the others.
var ofChoice = []struct {
	name string
	of   func(q *drills.Question, i int) string
}{
	{"place", func(q *drills.Question, i int) string { return fmt.Sprint(len(q.Choices), i) }},
	{"name", func(q *drills.Question, i int) string { return q.Choices[i].ID }},
	{"label", func(q *drills.Question, i int) string {
		shorter, longer := 0, 0
		for _, c := range q.Choices {
			switch n := len([]rune(c.Said.Screen())) - len([]rune(q.Choices[i].Said.Screen())); {
			case n < 0:
				shorter++
			case n > 0:
				longer++
			}
		}
		return fmt.Sprint(shorter, longer)
	}},
}

func lengthOf(q *drills.Question) time.Duration {
	var sum time.Duration
	for _, s := range q.Sounds {
		sum += s.Score.Length
	}
	return sum
}

// commonest returns how often the commonest answer with a feature is right, 0 to 1.
func commonest(features, answers []string) float64 {
	half := [2]map[string]map[string]int{{}, {}}
	for i, f := range features {
		if half[i%2][f] == nil {
			half[i%2][f] = map[string]int{}
		}
		half[i%2][f][answers[i]]++
	}
	hits := 0
	for i, f := range features {
		best, most := "", 0
		for a, n := range half[1-i%2][f] {
			if n > most || n == most && a < best {
				best, most = a, n
			}
		}
		if best == answers[i] {
			hits++
		}
	}
	return float64(hits) / float64(len(features))
}

// Of so many questions in one form (with choices, or put together) the ordinary run and the whole study look at each drill. Where
// there are two choices, luck alone takes one of the whole study's figures over three points in some thirty runs.
const (
	someOfEach = 1100
	allOfEach  = 6000
)

// timesDrawn is how many questions are drawn at the most for each that is looked at, of a drill that has two forms.
const timesDrawn = 8

// figuresTold is how many figures are looked at on some instruments.
func figuresTold(instruments int) int {
	return instruments * len(All()) * (len(noticed)*len(views) + len(ofChoice))
}

// fairTunings are what it looks at. Rendering takes most of the time, so what is heard on a guitar is measured only where SPARETONE_LEVELS
// names it (tunings, with commas between); how low and how long it is, is. SPARETONE_EACH is how many questions of each form are looked at
// instead of the study's.
var fairTunings = []fairTuning{{"ukulele", trial.Whole(), allOfEach, 2}, {"guitar", false, allOfEach, 2}}

// fewerTunings are other instruments that the whole study looks at in fewer questions, for the last two of which no table says what players
// are taught: they are held to what luck alone does not give.
var fewerTunings = []fairTuning{{"baritone", false, someOfEach, 4}, {"mandolin", false, someOfEach, 4}, {"charango", false, someOfEach, 4}, {"banjo", false, someOfEach, 4}}

// fairTuning is an instrument that the whole study looks at.
type fairTuning struct {
	tuning string
	levels bool // how loud it is is measured as well
	count  int  // questions in each form
	among  int  // instruments that are looked at in as many questions
}

func TestStudyOfFairness(t *testing.T) {
	all := fairTunings
	if trial.Whole() {
		all = slices.Concat(all, fewerTunings)
	}
	for _, on := range all {
		played := trial.Instrument(t, on.tuning)
		for _, d := range All() {
			t.Run(on.tuning+"/"+d.About().ID, func(t *testing.T) { guessAt(t, d, played, on) })
		}
	}
}

// guessAt guesses at questions of a drill, rendered if they are to be told by their level. The whole study is held to three points, the
// ordinary run to what luck alone does not give.
func guessAt(t *testing.T, d drills.Drill, played *neck.Instrument, on fairTuning) {
	if n, err := strconv.Atoi(os.Getenv("SPARETONE_EACH")); err == nil {
		on.count = n
	}
	on.levels = on.levels || slices.Contains(strings.Split(os.Getenv("SPARETONE_LEVELS"), ","), on.tuning)
	count := trial.StudyOf(someOfEach, on.count)
	rng := rand.New(rand.NewPCG(3, 33))
	all := map[bool][]met{} // by whether there are choices
	enough := func(choose bool) bool { return len(all[choose]) == 0 || len(all[choose]) >= count }
	for drawn := 0; drawn < timesDrawn*count && (drawn < count || !enough(true) || !enough(false)); drawn++ {
		q, err := d.Ask(anyRequest(d, played, rng))
		if err != nil {
			t.Fatal(err)
		}
		choose := q.Form == drills.Choose
		if len(all[choose]) == count {
			continue
		}
		m := met{Question: q}
		if on.levels && len(q.Sounds) > 0 {
			m.loudness, m.loudest = levels(t, q)
		}
		all[choose] = append(all[choose], m)
	}
	for choose, guessed := range map[bool]func(*testing.T, []met) (float64, []figure){true: fairChoices, false: fairForms} {
		if len(all[choose]) == 0 {
			continue
		}
		chance, out := guessed(t, all[choose])
		bound := mostAboveChance
		if count < allOfEach {
			bound = max(bound, 100*guesser.ByLuck(len(all[choose]), chance, figuresTold(on.among)))
		}
		line := fmt.Sprintf("%d questions, chance %.1f %%, held to %.1f points above:", len(all[choose]), 100*chance, bound)
		for _, f := range out {
			if !f.has {
				continue
			}
			line += fmt.Sprintf(" %s %+.1f", f.feature, f.above)
			if f.above > bound {
				t.Errorf("%s alone guesses %.1f points above chance, more than %.1f", f.feature, f.above, bound)
			}
		}
		t.Log(line)
	}
}

// figure is how far above chance a feature guesses, in points. Where it never varies there is nothing to guess by.
type figure struct {
	feature string
	above   float64
	has     bool
}

// featureOf notices one feature of each question.
func featureOf(n int, asked []met) []string {
	var out []string
	for _, q := range asked {
		out = append(out, noticed[n].of(q))
	}
	return out
}

// fairChoices guesses at questions with choices.
func fairChoices(_ *testing.T, asked []met) (chance float64, out []figure) {
	viewed := make([][][]string, len(views)) // by view, question and choice
	for _, q := range asked {
		chance += 1 / float64(len(q.Choices)) / float64(len(asked))
		for v, view := range views {
			var row []string
			for _, c := range q.Choices {
				row = append(row, view(c))
			}
			viewed[v] = append(viewed[v], row)
		}
	}
	above := func(known func(n, i int) string) float64 {
		var all []guesser.Guess
		for n, q := range asked {
			g := guesser.Guess{Right: slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID == q.Expected().ID }), Half: n % 2}
			for i := range q.Choices {
				g.Known = append(g.Known, known(n, i))
			}
			all = append(all, g)
		}
		return 100 * (guesser.Share(all) - chance)
	}
	for n, f := range noticed {
		feature := featureOf(n, asked)
		worst := math.Inf(-1)
		for _, seen := range viewed {
			worst = max(worst, above(func(n, i int) string { return feature[n] + "|" + seen[n][i] }))
		}
		out = append(out, figure{f.name, worst, varies(feature)})
	}
	for _, f := range ofChoice {
		out = append(out, figure{f.name, above(func(n, i int) string { return f.of(asked[n].Question, i) }), true})
	}
	return chance, out
}

// fairForms guesses at questions whose answer is put together.
func fairForms(t *testing.T, asked []met) (chance float64, out []figure) {
	answers, none := make([]string, len(asked)), make([]string, len(asked))
	for i, q := range asked {
		answers[i] = answerOf(t, q.Question)
	}
	chance = commonest(none, answers)
	for n, f := range noticed {
		feature := featureOf(n, asked)
		out = append(out, figure{f.name, 100 * (commonest(feature, answers) - chance), varies(feature)})
	}
	return chance, out
}

// varies reports whether there is anything to notice in a feature.
func varies(feature []string) bool { return slices.Min(feature) != slices.Max(feature) }

// answerOf is the answer to a question without choices. What is moved on a neck is told from where it was.
func answerOf(t *testing.T, q *drills.Question) string {
	if q.Form != drills.Frets || q.Shown == nil {
		return q.Expected().Typed
	}
	s, err := fret.ParseShape(q.Expected().Typed)
	if err != nil {
		t.Fatal(err)
	}
	for i := range s {
		s[i] -= q.Shown.Shape[i]
	}
	return fmt.Sprint([]int(s))
}

// views are what a guesser may know a choice by: what it is, or of a chord its root alone or its kind alone.
var views = []func(c drills.Choice) string{
	func(c drills.Choice) string { return c.ID },
	func(c drills.Choice) string {
		return chordOr(c, func(chord theory.Chord) string { return chord.Root.ASCII() })
	},
	func(c drills.Choice) string {
		return chordOr(c, func(chord theory.Chord) string { return chord.Kind.ID })
	},
}

// chordOr says something of the chord that a choice names, or else which choice it is.
func chordOr(c drills.Choice, told func(theory.Chord) string) string {
	if chord, err := read.Chord(c.Typed); err == nil {
		return told(chord)
	}
	return c.ID
}

// levels renders a question and measures its loudness and that of its loudest block: K-weighted, in blocks of 400 ms
// that overlap by three quarters, gated at -70 LUFS and 10 LU below the mean (ITU-R BS.1770-5, annex 1).
func levels(t *testing.T, q *drills.Question) (loudness, loudest string) {
	blocks := momentary(t, q)
	gate := math.Pow(10, (-70+0.691)/10)
	mean := 0.0
	for range 2 {
		sum, n := 0.0, 0.0
		for _, p := range blocks {
			if p > gate {
				sum, n = sum+p, n+1
			}
		}
		mean = sum / n
		gate = mean / 10
	}
	inSteps := func(power float64) string { return fmt.Sprintf("%.0f", 4*(10*math.Log10(power)-0.691)) }
	return inSteps(mean), inSteps(slices.Max(blocks))
}

// momentary renders a question and returns the K-weighted power of its blocks of 400 ms, both channels summed.
func momentary(t *testing.T, q *drills.Question) []float64 {
	t.Helper()
	scores := make([]synth.Score, len(q.Sounds))
	for i, s := range q.Sounds {
		scores[i] = s.Score
	}
	sound, err := synth.Render(synth.Then(350*time.Millisecond, scores...), q.Voice, synth.Options{})
	if err != nil {
		t.Fatal(err)
	}
	samples := make([][2]float64, sound.Len())
	sound.Stream(samples)
	// The two filters at 48 kHz: tables 1 and 2 of the annex.
	filters := [2][5]float64{
		{1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585},
		{1, -2, 1, -1.99004745483398, 0.99007225036621},
	}
	var state [2][2]float64
	const hop = 4800
	var power []float64
	sum := 0.0
	for n, x := range samples {
		v := x[0]
		for i, f := range filters {
			y := f[0]*v + state[i][0]
			state[i][0] = f[1]*v - f[3]*y + state[i][1]
			state[i][1] = f[2]*v - f[4]*y
			v = y
		}
		sum += v * v
		if n%hop == hop-1 {
			power, sum = append(power, 2*sum/hop), 0
		}
	}
	var blocks []float64
	for i := 0; i+4 <= len(power); i++ {
		blocks = append(blocks, (power[i]+power[i+1]+power[i+2]+power[i+3])/4)
	}
	return blocks
}
