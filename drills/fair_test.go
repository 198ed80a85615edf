package drills

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// Nothing but music gives the answer away. A guesser sees one feature of a question and its choices, and has
// learned from half of the questions how often each choice is right with that feature; it guesses on the other
// half, and the other way round. Where there are no choices it guesses the commonest answer, and chance is what
// the commonest answer reaches without the feature.
const mostAboveChance = 3.0 // points

// noticed are the features of a question as a whole.
var noticed = []struct {
	name string
	of   func(q *Question) string
}{
	{"loudness", func(q *Question) string { return "" }}, // filled in by the test, where sounds are rendered
	{"length", func(q *Question) string { return fmt.Sprint(lengthOf(q).Round(10 * time.Millisecond)) }},
	{"plucks", func(q *Question) string {
		n := 0
		for _, s := range q.Sounds {
			n += len(s.Score.Plucks)
		}
		return fmt.Sprint(n)
	}},
	{"spacing", func(q *Question) string {
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
	{"voice", func(q *Question) string {
		if len(q.Sounds) == 0 {
			return ""
		}
		return q.Voice.Name
	}},
	{"lowest", func(q *Question) string {
		low := math.MaxInt
		for _, s := range q.Sounds {
			for _, n := range s.Notes {
				low = min(low, n.Pitch.MIDI())
			}
		}
		return fmt.Sprint(low)
	}},
	{"position", func(q *Question) string {
		if q.Shown == nil {
			return ""
		}
		return fmt.Sprint(position(q.Shown.Shape))
	}},
}

// ofChoice are the features of a choice among the others.
var ofChoice = []struct {
	name string
	of   func(q *Question, i int) string
}{
	{"place", func(q *Question, i int) string { return fmt.Sprint(len(q.Choices), i) }},
	{"label", func(q *Question, i int) string {
		shorter, longer := 0, 0
		for _, c := range q.Choices {
			switch n := len([]rune(c.Label)) - len([]rune(q.Choices[i].Label)); {
			case n < 0:
				shorter++
			case n > 0:
				longer++
			}
		}
		return fmt.Sprint(shorter, longer)
	}},
}

func lengthOf(q *Question) time.Duration {
	var sum time.Duration
	for _, s := range q.Sounds {
		sum += s.Score.Length
	}
	return sum
}

// asked is a question as the guesser meets it: for each choice, what the guesser knows it by.
type guess struct {
	known []string
	right int
}

// share returns how often the guesser is right, 0 to 1.
func share(all []guess) float64 {
	type tally struct{ right, offered float64 }
	half := [2]map[string]tally{{}, {}}
	for i, g := range all {
		for n, k := range g.known {
			t := half[i%2][k]
			t.offered++
			if n == g.right {
				t.right++
			}
			half[i%2][k] = t
		}
	}
	sum := 0.0
	for i, g := range all {
		learned := half[1-i%2]
		best, ties, hit := -1.0, 0.0, false
		for n, k := range g.known {
			t := learned[k]
			rate := (t.right + 5/float64(len(g.known))) / (t.offered + 5)
			switch {
			case rate > best:
				best, ties, hit = rate, 1, n == g.right
			case rate == best:
				ties++
				hit = hit || n == g.right
			}
		}
		if hit {
			sum += 1 / ties
		}
	}
	return sum / float64(len(all))
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

func TestStudyOfFairness(t *testing.T) {
	on := ukulele(t)
	count := studyOf(600, 2000)
	// Fewer questions scatter more: four standard deviations of a share of one half.
	bound := mostAboveChance
	if !whole {
		bound = 100 * 4 * math.Sqrt(0.25/float64(count))
	}
	head := fmt.Sprintf("%-16s %6s", "drill", "chance")
	for _, f := range noticed {
		head += fmt.Sprintf(" %9s", f.name)
	}
	for _, f := range ofChoice {
		head += fmt.Sprintf(" %9s", f.name)
	}
	t.Logf("points above chance, %d questions of each drill\n%s", count, head)
	for _, d := range All() {
		rng := rand.New(rand.NewPCG(3, 33))
		var asked []*Question
		chance := 0.0
		for range count {
			q, err := d.Ask(anyRequest(d, on, rng))
			if err != nil {
				t.Fatal(err)
			}
			asked = append(asked, q)
			if q.Form == Choose {
				chance += 1 / float64(len(q.Choices)) / float64(count)
			}
		}
		features := make([][]string, len(noticed))
		for n, f := range noticed {
			for _, q := range asked {
				v := f.of(q)
				if f.name == "loudness" && whole && os.Getenv("SPARETONE_DEAF") == "" {
					v = loudness(t, q)
				}
				features[n] = append(features[n], v)
			}
		}
		line := fmt.Sprintf("%-16s", d.About().ID)
		cell := func(name string, above float64, has bool) {
			if !has {
				line += fmt.Sprintf(" %9s", "·")
				return
			}
			line += fmt.Sprintf(" %+9.1f", above)
			if above > bound {
				t.Errorf("%s: %s alone guesses %.1f points above chance", d.About().ID, name, above)
			}
		}
		if slices.ContainsFunc(asked, func(q *Question) bool { return q.Form != Choose }) {
			answers, none := make([]string, count), make([]string, count)
			for i, q := range asked {
				answers[i] = answerOf(t, q)
			}
			base := commonest(none, answers)
			line += fmt.Sprintf(" %5.1f%%", 100*base)
			for n, f := range noticed {
				above := 100 * (commonest(features[n], answers) - base)
				if f.name == "position" {
					// The answer is read off the shape that is shown: where it lies is part of what is asked, and is
					// listed without a bound.
					line += fmt.Sprintf(" %+9.1f", above)
					continue
				}
				cell(f.name, above, varies(features[n]))
			}
			for _, f := range ofChoice {
				cell(f.name, 0, false)
			}
			t.Log(line)
			continue
		}
		line += fmt.Sprintf(" %5.1f%%", 100*chance)
		for n, f := range noticed {
			worst := math.Inf(-1)
			for _, view := range views {
				var all []guess
				for i, q := range asked {
					g := guess{}
					for m, c := range q.Choices {
						g.known = append(g.known, features[n][i]+"|"+view(c))
						if c.ID == q.Expected().ID {
							g.right = m
						}
					}
					all = append(all, g)
				}
				worst = max(worst, 100*(share(all)-chance))
			}
			cell(f.name, worst, varies(features[n]))
		}
		for _, f := range ofChoice {
			var all []guess
			for _, q := range asked {
				g := guess{}
				for m, c := range q.Choices {
					g.known = append(g.known, f.of(q, m))
					if c.ID == q.Expected().ID {
						g.right = m
					}
				}
				all = append(all, g)
			}
			cell(f.name, 100*(share(all)-chance), true)
		}
		t.Log(line)
	}
}

// varies reports whether there is anything to notice in a feature.
func varies(feature []string) bool { return slices.Min(feature) != slices.Max(feature) }

// answerOf is the answer to a question without choices. What is moved on a neck is told from where it was.
func answerOf(t *testing.T, q *Question) string {
	if q.Form != Frets || q.Shown == nil {
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
var views = []func(c Choice) string{
	func(c Choice) string { return c.ID },
	func(c Choice) string {
		if chord, err := theory.ParseChord(c.Typed); err == nil {
			return chord.Root.ASCII()
		}
		return c.ID
	},
	func(c Choice) string {
		if chord, err := theory.ParseChord(c.Typed); err == nil {
			return chord.Kind.ID
		}
		return c.ID
	},
}

// loudness renders a question and measures its momentary maximum in steps of half a decibel: the loudest 400 ms.
func loudness(t *testing.T, q *Question) string {
	if len(q.Sounds) == 0 {
		return ""
	}
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
	const block = 4800
	var power []float64
	for at := 0; at+block <= len(samples); at += block {
		sum := 0.0
		for _, x := range samples[at : at+block] {
			sum += x[0] * x[0]
		}
		power = append(power, sum/block)
	}
	most := 0.0
	for i := 0; i+4 <= len(power); i++ {
		most = max(most, (power[i]+power[i+1]+power[i+2]+power[i+3])/4)
	}
	return fmt.Sprintf("%.0f", 2*10*math.Log10(most))
}
