package class

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"sparetone/drills"
	"sparetone/drills/bench"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/progress"
	"sparetone/theory/say"
)

// Group is students whom the same lesson would help.
type Group struct {
	ID       string // of the lesson's file: by-ear, by-eye or further
	Students []string
	Lesson   course.Course // nil where there is nothing to propose
	Due      progress.Day  // of the lesson: a week from the day on which the class is looked at
	Tuning   string        // that most of what the group was asked was on
}

// lessonDays is how long a proposed lesson runs: until the class meets again, a week from now (from judgement).
const lessonDays = 7

// groupIDs are the groups: those who are weak at more of what is heard, at more of what is seen, and at nothing. Who is silent, or of whom too few
// answers are there, is in none.
var groupIDs = [3]string{"by-ear", "by-eye", "further"}

// mostAsked is how many things a proposed lesson asks for at the most (from judgement: a week of ten minutes a day).
const mostAsked = 8

// Title is what a group is called.
func (g Group) Title() say.Text {
	return map[string]say.Text{"by-ear": say.Of("Listen"), "by-eye": say.Of("Look"), "further": say.Of("Go on")}[g.ID]
}

// Says is why these students are together.
func (g Group) Says() say.Text {
	return map[string]say.Text{
		"by-ear":  say.Of("weak at more by ear than by eye"),
		"by-eye":  say.Of("weak at more by eye than by ear"),
		"further": say.Of("weak at nothing that was asked often enough to tell"),
	}[g.ID]
}

// groupOf is the group of a student, by its number; -1 for none.
func groupOf(s *Student) int {
	if v := s.Finding.Verdict; v == Silent || v == TooFew {
		return -1
	}
	ear, eye := 0, 0
	for _, i := range s.Items {
		switch {
		case !i.Weak || !i.Known:
		case i.Ear:
			ear++
		default:
			eye++
		}
	}
	_, _, earHigh := known(s.Ear, 0)
	_, _, eyeHigh := known(s.Eye, 0)
	switch {
	case ear+eye == 0 && (s.Finding.Verdict == Guesses || s.Finding.Verdict == OneAnswer || s.Finding.Verdict == EyeNotEar):
		return 0
	case ear+eye == 0 && s.Finding.Verdict == EarNotEye:
		return 1
	case ear+eye == 0:
		return 2
	case ear > eye || ear == eye && earHigh <= eyeHigh:
		return 0
	}
	return 1
}

// group puts students together and proposes a lesson to each group.
func (r *Report) group() {
	var in [3][]*Student
	for _, s := range r.Students {
		if n := groupOf(s); n >= 0 {
			in[n] = append(in[n], s)
		}
	}
	for n, id := range groupIDs {
		g := Group{ID: id, Due: r.Today + lessonDays, Tuning: mostPlayedOn(in[n])}
		for _, s := range in[n] {
			g.Students = append(g.Students, s.Name)
		}
		if id == "further" {
			g.Lesson = nextSteps(in[n])
		} else {
			g.Lesson = lessonOf(in[n], id == "by-ear")
		}
		r.Groups[n] = g
	}
}

// mostPlayedOn is the tuning that most of what some students were asked was on; "" where nothing was.
func mostPlayedOn(students []*Student) (most string) {
	asked := map[string]int{}
	for _, s := range students {
		for _, i := range s.Items {
			asked[i.Tuning] += i.Tally.Asked
		}
	}
	for _, t := range slices.Sorted(maps.Keys(asked)) {
		if asked[t] > asked[most] {
			most = t
		}
	}
	return most
}

// lessonOf proposes what most of some students are weak at by ear, or by eye, beside what it is mostly taken for. Where nobody is weak at
// any one thing, it is what they know least of.
func lessonOf(students []*Student, ear bool) course.Course {
	times, taken := map[string]float64{}, map[string]string{}
	for _, s := range students {
		for _, i := range s.Items {
			if !i.Known || i.Ear != ear {
				continue
			}
			k := i.Drill + "/" + i.Target
			if i.Weak {
				times[k]++
				if i.MostlyID != "" {
					taken[k] = i.MostlyID
				}
			} else if share, _, _ := known(i.Tally, 0); i.Tested && share < half {
				times[k] += 0.01 * (1 - share)
			}
		}
	}
	things := make([]string, 0, len(times))
	for k := range times {
		things = append(things, k)
	}
	slices.SortFunc(things, func(a, b string) int { return cmp.Or(cmp.Compare(times[b], times[a]), strings.Compare(a, b)) })
	var items []string
	add := func(item string) {
		if len(items) < mostAsked && !slices.Contains(items, item) {
			items = append(items, item)
		}
	}
	for _, k := range things {
		add(k)
		if other := taken[k]; other != "" {
			drill, target, _ := drills.SplitItem(other)
			add(drill + "/" + target)
		}
	}
	return named(course.Only(items))
}

// named gives the steps of a lesson their drills' titles.
func named(c course.Course) course.Course {
	for n, s := range c {
		if d, ok := catalogue.ByID(s.Drill); ok {
			c[n].Title = d.About().Title
		}
		c[n].ID = s.Drill
	}
	return c
}

// nextSteps proposes the next two steps of the course of which most of some students were asked nothing yet, nor of a later step of the
// same drill: who tells chords apart is not asked which of two notes is higher because a lesson began with chords.
func nextSteps(students []*Student) course.Course {
	if len(students) == 0 {
		return nil
	}
	mostAsked := func(step course.Step) bool {
		asked := 0
		for _, s := range students {
			if slices.ContainsFunc(s.Items, func(i Item) bool { return i.Drill == step.Drill && slices.Contains(step.Asks, i.Target) }) {
				asked++
			}
		}
		return 2*asked >= len(students)
	}
	var out course.Course
	all := course.BuiltIn()
	for n, step := range all {
		if !slices.ContainsFunc(all[n:], func(later course.Step) bool { return later.Drill == step.Drill && mostAsked(later) }) {
			step.RestsOn, step.Chapter = nil, ""
			if out = append(out, step); len(out) == 2 {
				break
			}
		}
	}
	return out
}

// File is a group's lesson as a lesson file; nil where there is none.
func (g Group) File() []byte {
	if len(g.Lesson) == 0 {
		return nil
	}
	var b bytes.Buffer
	fmt.Fprintf(&b, "# %s: for %d students, %s.\n", g.Title().Screen(), len(g.Students), g.Says().Screen())
	fmt.Fprintf(&b, "\nname = %q\ndue = %s\n", g.Title().Screen(), g.Due.Date().Format(time.DateOnly))
	if g.Tuning != "" {
		fmt.Fprintf(&b, "tuning = %q\n", g.Tuning)
	}
	for _, s := range g.Lesson {
		fmt.Fprintf(&b, "\n[[step]]\nid = %q\ntitle = %q\ndrill = %q\nasks = [", s.ID, s.Title, s.Drill)
		for n, a := range s.Asks {
			if n > 0 {
				b.WriteString(", ")
			}
			fmt.Fprintf(&b, "%q", a)
		}
		b.WriteString("]\n")
	}
	return b.Bytes()
}

// Asks is what a group's lesson asks for, a step a text.
func (g Group) Asks() []say.Text {
	var out []say.Text
	for _, s := range g.Lesson {
		var names []say.Foreign
		for _, a := range s.Asks {
			names = append(names, say.Foreign(thingOf(drills.ItemID(s.Drill, a, "ukulele")).Name))
		}
		out = append(out, say.Of("{}: {}", say.Foreign(s.Name()), say.Commas(names...)))
	}
	return out
}

// Play is something to play in the next lesson.
type Play struct {
	Thing *Thing
	Weak  int        // students who are weak at it
	Told  []say.Text // what to play, a sentence each
}

// mostPlayed is how many things are proposed to be played.
const mostPlayed = 3

// toBring says how what students are weak at comes up in a lesson: played where it is heard, shown where it is seen, as its drill has it.
func (w Weakness) toBring() say.Text {
	does := say.Of("show")
	if w.Ear {
		does = say.Of("play")
	}
	title := w.Drill
	if d, ok := catalogue.ByID(w.Drill); ok {
		title = d.About().Title
	}
	if w.Mostly != "" {
		return say.Of("{}: {} “{}” and “{}” in turn.", say.Foreign(title), does, say.Foreign(w.Name), say.Foreign(w.Mostly))
	}
	return say.Of("{}: {} “{}” among others.", say.Foreign(title), does, say.Foreign(w.Name))
}

// toPlay proposes what to play: of what most students are weak at, the move of one finger that makes the chord on the instrument that it was
// asked on, or the thing beside what it is taken for.
func (r *Report) toPlay() {
	for _, w := range r.Weak {
		if len(r.Play) == mostPlayed {
			return
		}
		if slices.ContainsFunc(r.Play, func(p Play) bool { return p.Thing.Drill == w.Drill && p.Thing.Target == w.Target }) {
			continue
		}
		p := Play{Thing: w.Thing, Weak: w.Weak}
		if kind := w.kind(); kind != "" {
			if on, err := neck.NewInstrument(w.Tuning, 0, ""); err == nil {
				if all := bench.Takeaways(on, func(k string) bool { return k == kind }); len(all) > 0 && all[0].Swap != nil {
					p.Told = all[0].Told()
				}
			}
		}
		if p.Told == nil {
			p.Told = []say.Text{w.toBring()}
		}
		r.Play = append(r.Play, p)
	}
}
