package session

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/guesser"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// A guesser sits through whole sessions without ears and without theory. It knows the course, the order of the
// choices, what was asked, answered and revealed so far in the session, and why each question comes. It is taught on half
// of the students and guesses with the other half. It gains no more than guesser.MostAboveChance, in any drill. What is new and
// learned by heart comes again: to have seen it is to have learned it, and counts for no guess.

// seenReveal is a shape that was shown with its name and its tones.
type seenReveal struct {
	voicing fret.Voicing
	notes   string // pitches, lowest first
}

// past is what the guesser remembers of a session.
type past struct {
	answers map[string][]string // by drill: what was right, the latest last
	places  map[string][]int    // by drill: its place among the choices
	missed  map[string]int      // by drill and what was right: question at which it was missed
	ever    map[string]bool     // item ids that were asked before, in any session
	same    map[string]string   // what was right, by how the question looked
	heard   map[string]string   // what was right, by drill and what sounded
	keys    map[string]string   // what was said of a chord in a key
	reveals []seenReveal
	number  int
}

// newPast begins a session; what was ever asked goes on.
func newPast(ever map[string]bool) *past {
	return &past{
		answers: map[string][]string{}, places: map[string][]int{}, missed: map[string]int{}, ever: ever,
		same: map[string]string{}, heard: map[string]string{}, keys: map[string]string{},
	}
}

// looks is how a question looks to whoever does not understand it.
func looks(q *drills.Question) string {
	if q.Shown == nil {
		return q.Drill + q.Prompt.Screen()
	}
	return q.Drill + q.Prompt.Screen() + q.Shown.Shape.String()
}

// pitchesOf lists what sounds, each sound from the lowest note up.
func pitchesOf(sounds []drills.Sound) string {
	var all []string
	for _, s := range sounds {
		var midi []int
		for _, n := range s.Notes {
			midi = append(midi, n.Pitch.MIDI())
		}
		slices.Sort(midi)
		all = append(all, fmt.Sprint(midi))
	}
	return strings.Join(all, "|")
}

// chordOfKey is the part of a question about a key that names the key and the chord.
func chordOfKey(q *drills.Question) string {
	before, _, _ := strings.Cut(q.Prompt.Screen(), ":")
	return before
}

// add remembers a question and its reveal.
func (p *past) add(q *drills.Question, item string, v drills.Verdict) {
	right := q.Expected().ID
	p.number++
	p.answers[q.Drill] = append(p.answers[q.Drill], right)
	if i := slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID == q.Expected().ID }); i >= 0 {
		p.places[q.Drill] = append(p.places[q.Drill], i)
	}
	delete(p.missed, q.Drill+right)
	if v.Result != progress.Right {
		p.missed[q.Drill+right] = p.number
	}
	p.ever[item] = true
	p.same[looks(q)] = right
	if len(q.Sounds) > 0 {
		p.heard[q.Drill+pitchesOf(q.Sounds)] = right
	}
	if q.Drill == "key-add" {
		p.keys[chordOfKey(q)] = fmt.Sprint(v.Lines)
	}
	for _, s := range v.Shapes {
		p.reveals = append(p.reveals, seenReveal{s.Voicing, pitchesOf([]drills.Sound{{Notes: drills.Soundings(s.Voicing)}})})
	}
}

// shows reports whether something that was revealed says that a choice is right.
func (p *past) shows(a *Asked, c drills.Choice) bool {
	if a.Again {
		return false
	}
	q := a.Question
	if id, ok := p.same[looks(q)]; ok && (q.Shown != nil || strings.Contains(q.Drill, "key")) {
		return id == c.ID
	}
	if len(q.Sounds) > 0 {
		if id, ok := p.heard[q.Drill+pitchesOf(q.Sounds)]; ok {
			return id == c.ID
		}
	}
	if lines, ok := p.keys[chordOfKey(q)]; ok && q.Drill == "key-add" {
		return strings.Contains(" "+strings.NewReplacer(",", " ", ".", " ", ";", " ").Replace(lines)+" ", " "+c.Said.Screen()+" ")
	}
	for _, r := range slices.Backward(p.reveals) {
		switch {
		case q.Drill == "chord-ear" && r.notes == pitchesOf(q.Sounds) && r.voicing.Chord.Kind != nil:
			return r.voicing.Chord.Kind.ID == c.ID
		case q.Shown == nil || !slices.Equal(r.voicing.Shape, q.Shown.Shape) || r.voicing.Chord.Kind == nil:
		case q.Drill == "shape-name":
			return r.voicing.Chord.Symbol() == c.Typed
		case q.Drill == "doubled": // all that is asked of a shape was to be seen in it
			return c.ID == q.Expected().ID
		}
	}
	return false
}

// given returns the answer that something revealed gives to a question without choices; "" if nothing does.
func (p *past) given(q *drills.Question) string {
	if id, ok := p.same[looks(q)]; ok {
		return id
	}
	words := strings.FieldsFunc(q.Prompt.Screen(), func(r rune) bool { return strings.ContainsRune(" ,.?", r) })
	for _, r := range slices.Backward(p.reveals) {
		v := r.voicing
		if v.Chord.Kind == nil || !slices.Contains(words, v.Chord.String()) {
			continue
		}
		switch q.Form {
		case drills.Tones:
			if slices.Equal(v.Shape, q.Shown.Shape) {
				return q.Expected().Typed
			}
		case drills.Frets:
			if q.Shown == nil || moving(v.Shape, q.Shown.Shape) == 1 {
				return v.Shape.String()
			}
		case drills.Notes:
			var out []string
			for _, n := range v.Chord.Tones() {
				out = append(out, n.ASCII())
			}
			return strings.Join(out, " ")
		}
	}
	return ""
}

// ago counts how many questions of the drill ago something was right, at most 4 and 9 for not in this session.
func (p *past) ago(drill, id string) int {
	for n, a := range slices.Backward(p.answers[drill]) {
		if a == id {
			return min(4, len(p.answers[drill])-n)
		}
	}
	return 9
}

// times counts how often something was right in this session, at most 3.
func (p *past) times(drill, id string) int {
	n := 0
	for _, a := range p.answers[drill] {
		if a == id {
			n++
		}
	}
	return min(3, n)
}

// isTarget reports whether a drill can ask for a target on an instrument.
func isTarget(d drills.Drill, on *neck.Instrument, id string) bool {
	return slices.ContainsFunc(d.Targets(on), func(t drills.Target) bool { return t.ID == id })
}

// moving counts the strings that move between two shapes.
func moving(a, b fret.Shape) int {
	n := 0
	for i := range a {
		if a[i] != b[i] {
			n++
		}
	}
	return n
}

// itemOfChoice returns the item that a choice would be if it were asked for; "" where choices are no targets.
func itemOfChoice(q *drills.Question, on *neck.Instrument, c drills.Choice) string {
	d, _ := catalogue.ByID(q.Drill)
	if isTarget(d, on, c.ID) {
		return drills.ItemID(q.Drill, c.ID, on.Name())
	}
	if chord, err := read.Chord(c.Typed); err == nil && q.Drill == "shape-name" {
		return drills.ItemID(q.Drill, chord.Kind.ID, on.Name())
	}
	return ""
}

// strategies are the ways to guess: what the guesser knows a choice by.
var strategies = []struct {
	name string
	of   func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string
}{
	{"order", func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string {
		// Which of the choices were never asked, and which of those the course has first.
		own, fresh, before := itemOfChoice(a.Question, on, a.Choices[i]), 0, 0
		for n, c := range a.Choices {
			if id := itemOfChoice(a.Question, on, c); id != "" && !p.ever[id] {
				fresh++
				if n != i && order[id] < order[own] {
					before++
				}
			}
		}
		if own == "" || p.ever[own] {
			return fmt.Sprint("known of ", fresh, len(a.Choices))
		}
		return fmt.Sprint("new ", before, fresh, len(a.Choices))
	}},
	{"place", func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string {
		last := p.places[a.Drill]
		if len(last) == 0 {
			return fmt.Sprint("first ", i, len(a.Choices))
		}
		return fmt.Sprint(last[len(last)-1], i, len(a.Choices))
	}},
	{"places", func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string {
		last := p.places[a.Drill]
		return fmt.Sprint(last[max(0, len(last)-2):], i, len(a.Choices))
	}},
	{"ago", func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string {
		return fmt.Sprint(p.ago(a.Drill, a.Choices[i].ID), p.ever[itemOfChoice(a.Question, on, a.Choices[i])])
	}},
	{"times", func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string {
		own, more, fewer := p.times(a.Drill, a.Choices[i].ID), 0, 0
		for _, c := range a.Choices {
			switch n := p.times(a.Drill, c.ID); {
			case n > own:
				more++
			case n < own:
				fewer++
			}
		}
		return fmt.Sprint(more, fewer, own == 0)
	}},
	{"missed", func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string {
		at, missed := p.missed[a.Drill+a.Choices[i].ID]
		return fmt.Sprint(missed, missed && p.number-at >= 3, p.ago(a.Drill, a.Choices[i].ID) == 1)
	}},
	{"why", func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string {
		if a.Tells {
			return "not told"
		}
		word, _, _ := strings.Cut(a.Why.Screen(), " ")
		own := itemOfChoice(a.Question, on, a.Choices[i])
		_, missed := p.missed[a.Drill+a.Choices[i].ID]
		return fmt.Sprint(word, strings.Contains(a.Why.Screen(), a.Choices[i].Said.Screen()), own != "" && p.ever[own], missed, p.ago(a.Drill, a.Choices[i].ID) == 1)
	}},
	{"shown", func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string {
		any := slices.ContainsFunc(a.Choices, func(c drills.Choice) bool { return p.shows(a, c) })
		return fmt.Sprint(any, p.shows(a, a.Choices[i]))
	}},
	{"all", func(p *past, a *Asked, on *neck.Instrument, order map[string]int, i int) string {
		own := itemOfChoice(a.Question, on, a.Choices[i])
		_, missed := p.missed[a.Drill+a.Choices[i].ID]
		return fmt.Sprint(p.shows(a, a.Choices[i]), own != "" && p.ever[own], missed, p.ago(a.Drill, a.Choices[i].ID))
	}},
}

// scene is a question of a session as the guesser meets it.
type scene struct {
	drill    string
	moment   string     // who practises, and how far the session is
	half     int        // of the students
	known    [][]string // by strategy, of each choice
	right    int
	form     bool // there are no choices
	revealed bool // without choices: something revealed gives the answer
	begins   bool // it is asked for the first time
}

// sitThrough lets a simulated student practise and the guesser watch. Students know each thing with a chance, the best of
// them all of it; half of them have practised up to some place in the course.
func sitThrough(t *testing.T, on *neck.Instrument, student, sessions int) []scene {
	rng := rand.New(rand.NewPCG(uint64(student), 1212))
	now := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
	clock := func() time.Time { return now }
	file, err := store.InMemory(clock)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	steps, tuning := course.BuiltIn(), on.Name()
	order := map[string]int{}
	ever := map[string]bool{}
	old := 0
	if student%2 == 1 {
		old = rng.IntN(len(steps))
	}
	for n, step := range steps {
		d, _ := catalogue.ByID(step.Drill)
		for _, id := range step.Asks {
			if !isTarget(d, on, id) {
				continue
			}
			item := drills.ItemID(step.Drill, id, tuning)
			order[item] = len(order)
			if n >= old {
				continue
			}
			ever[item] = true
			for _, days := range []int{20, 12, 5} {
				at := now.AddDate(0, 0, -days-rng.IntN(6))
				if err := file.Record(progress.Answer{Item: item, Drill: step.Drill, At: at, Result: progress.Right, Took: 5 * time.Second}); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	knows := []float64{1, 0.9, 0.75, 0.5}[rng.IntN(4)]
	var out []scene
	for range sessions {
		s, err := New(Setup{File: file, On: on, Course: steps, Length: 10 * time.Minute, Seed: rng.Uint64(), Now: clock})
		if err != nil {
			t.Fatal(err)
		}
		p := newPast(ever)
		for {
			a, err := s.Next()
			if err != nil {
				t.Fatal(err)
			}
			if a == nil {
				break
			}
			out = append(out, watch(p, a, on, order, student))
			now = now.Add(time.Duration(4+rng.IntN(8)) * time.Second)
			text := a.Expected().Typed
			if rng.Float64() > knows {
				text = drills.Unknown
				if n := len(a.Choices); n > 0 {
					text = a.Choices[rng.IntN(n)].Typed
				}
			}
			v, err := s.Answer(text)
			if err != nil {
				t.Fatalf("%s: %q: %v", a.Item, text, err)
			}
			p.add(a.Question, a.Item, v)
			now = now.Add(2 * time.Second)
		}
		now = now.AddDate(0, 0, 1+rng.IntN(4))
	}
	return out
}

// watch is the guesser looking at a question before it is answered.
func watch(p *past, a *Asked, on *neck.Instrument, order map[string]int, student int) scene {
	s := scene{
		drill: a.Drill, half: student / 2 % 2, right: slices.IndexFunc(a.Choices, func(c drills.Choice) bool { return c.ID == a.Expected().ID }), form: a.Form != drills.Choose, begins: !p.ever[a.Item],
		moment: []string{"new student", "old student"}[student%2] + []string{", first ten", ", later"}[min(1, a.Number/11)],
	}
	if s.form && !a.Again {
		if text := p.given(a.Question); text != "" {
			if v, err := a.Mark(text); err == nil && v.Result == progress.Right {
				s.revealed = true
			}
		}
		return s
	}
	for _, way := range strategies {
		var known []string
		for i := range a.Choices {
			known = append(known, way.of(p, a, on, order, i))
		}
		s.known = append(s.known, known)
	}
	return s
}

// TestStudyOfSequences runs whole sessions of new and old students, on ukulele and guitar.
func TestStudyOfSequences(t *testing.T) {
	const each = 4 // sessions of a student
	students := trial.StudyOf(8, 2000/each)
	necks := []*neck.Instrument{trial.Played(t, "ukulele"), trial.Played(t, "guitar")}
	var all []scene
	for n := range students {
		all = append(all, sitThrough(t, necks[n/4%2], n, each)...)
	}
	byDrill, byMoment, begun := map[string][]scene{}, map[string][]scene{}, 0
	for _, s := range all {
		byDrill[s.drill] = append(byDrill[s.drill], s)
		byMoment[s.drill+", "+s.moment] = append(byMoment[s.drill+", "+s.moment], s)
		if s.begins {
			begun++
		}
	}
	head := fmt.Sprintf("%-36s %6s %6s", "drill", "number", "chance")
	for _, way := range strategies {
		head += fmt.Sprintf(" %7s", way.name)
	}
	t.Logf("points above chance, %d sessions, %d questions, %d of them the first of their kind\n%s", students*each, len(all), begun, head+"  by reveals")
	tell := func(name string, scenes []scene, held bool) {
		var choose, form []scene
		for _, s := range scenes {
			if s.form {
				form = append(form, s)
			} else {
				choose = append(choose, s)
			}
		}
		line := fmt.Sprintf("%-36s %6d", name, len(scenes))
		bound := func(n int) float64 {
			if trial.Whole() {
				return guesser.MostAboveChance
			}
			return max(guesser.MostAboveChance, 100*4*math.Sqrt(0.25/float64(n)))
		}
		if len(choose) > 0 {
			chance := 0.0
			for _, s := range choose {
				chance += 1 / float64(len(s.known[0])) / float64(len(choose))
			}
			line += fmt.Sprintf(" %5.1f%%", 100*chance)
			for n, way := range strategies {
				var guesses []guesser.Guess
				for _, s := range choose {
					guesses = append(guesses, guesser.Guess{Known: s.known[n], Right: s.right, Half: s.half})
				}
				above := 100 * (guesser.Share(guesses) - chance)
				line += fmt.Sprintf(" %+7.1f", above)
				if held && above > bound(len(choose)) {
					t.Errorf("%s: %s guesses %.1f points above chance", name, way.name, above)
				}
			}
		}
		if len(form) > 0 {
			gain := 0.0
			for _, s := range form {
				if s.revealed {
					gain += 100 / float64(len(form))
				}
			}
			line += fmt.Sprintf("  reveals give %.1f %% of %d", gain, len(form))
			if held && gain > bound(len(form)) {
				t.Errorf("%s: reveals give %.1f %% of the answers", name, gain)
			}
		}
		t.Log(line)
	}
	tell("all", all, true)
	for _, d := range catalogue.All() {
		tell(d.About().ID, byDrill[d.About().ID], true)
	}
	var names []string
	for name := range byMoment {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		tell(name, byMoment[name], false)
	}
}
