package class

import (
	"cmp"
	"slices"
	"strings"

	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/memory"
)

// Student is how one student is doing.
type Student struct {
	ID      string // of the progress file; "" of somebody on the roster of whom there is no file
	Name    string // as shown; "" if none was given
	Files   []string
	Listed  bool // on the roster, or there is none
	Days    int  // practice days
	Minutes float64
	Answers int
	Played  int          // of these, played on an instrument or sung
	Doubted int          // of Answers, given while a clock was wrong: they count nowhere else
	First   progress.Day // of the days; 0 where there are none
	Last    progress.Day
	Weeks   [28]bool              // of the last four weeks, the days on which something was practised; the last one is the day that is looked at
	Back    progress.TakenBack    // of what was played, as the latest file that was handed in says
	Lesson  exchange.HandedLesson // the latest that was taken; zero if there is none
	Tunings []string              // most practised first
	senses                        // of the last eight weeks
	Ever    memory.Tally          // the first answer ever to each thing
	Change  *Change               // since a day; nil if there is none, or nothing was asked on both sides of it
	Finding Finding
	Items   []Item // asked in the last eight weeks, in the order of their ids
}

// Item is how a student does with one thing, in the last eight weeks.
type Item struct {
	*Thing
	memory.Tally
	Tested   bool   // asked so often that something could be said
	Weak     bool   // right less often than it should be, by more than bad luck explains
	Chance   bool   // of what is weak: guessing alone would do as well
	Mostly   string // of what is weak: the name of what it is taken for, so often that luck is no explanation; "" if nothing
	MostlyID string // and its item
}

// IsSilent reports whether nothing was practised for a week or more.
func (s Student) IsSilent() bool { return s.Finding.Verdict == Silent }

// Lately counts the days of the last four weeks on which something was practised.
func (s *Student) Lately() int {
	n := 0
	for _, practised := range s.Weeks {
		if practised {
			n++
		}
	}
	return n
}

// student works out how somebody is doing.
func (p *practised) student(o Options) Student {
	answers := p.certain()
	s := Student{Answers: len(p.inOrder()), Minutes: p.minutes(answers), Back: p.handed.TakenBack}
	s.Doubted = s.Answers - len(answers)
	for _, a := range p.inOrder() {
		if a.played {
			s.Played++
		}
	}
	days := map[progress.Day]bool{}
	first := make([]bool, len(p.things))
	for _, a := range answers {
		if !days[a.day] && (len(days) == 0 || a.day < s.First) {
			s.First = a.day
		}
		days[a.day] = true
		s.Last = max(s.Last, a.day)
		if ago := int(o.Today - a.day); ago >= 0 && ago < len(s.Weeks) {
			s.Weeks[len(s.Weeks)-1-ago] = true
		}
		if !first[a.thing] {
			first[a.thing] = true
			tally(&s.Ever, a)
		}
	}
	s.Days = len(days)
	if len(p.handed.Lessons) > 0 {
		s.Lesson = p.handed.Lessons[0]
	}
	counts := recent(answers, o.Today)
	s.senses = sensesOf(p, counts)
	s.Finding = find(p, counts, s.Days > 0, s.Last, o.Today)
	s.Items = itemsOf(p, counts)
	s.Tunings = tuningsOf(s.Items)
	if o.Since > 0 {
		if c, any := changeOf(recent(answers, o.Today), o.Since); any {
			s.Change = &c
		}
	}
	return s
}

// tuningsOf lists what was played, most answers first.
func tuningsOf(items []Item) []string {
	times := map[string]int{}
	var out []string
	for _, i := range items {
		if times[i.Tuning] == 0 {
			out = append(out, i.Tuning)
		}
		times[i.Tuning] += i.Asked
	}
	slices.SortFunc(out, func(a, b string) int { return cmp.Or(cmp.Compare(times[b], times[a]), strings.Compare(a, b)) })
	return out
}

// itemsOf works out how somebody does with each thing. Of those asked often enough each has its part of the error that one is called weak
// by bad luck.
func itemsOf(p *practised, counts []answer) []Item {
	tallies := map[int32]*memory.Tally{}
	taken := map[int32]map[int32]int{}
	for _, a := range counts {
		if tallies[a.thing] == nil {
			tallies[a.thing] = &memory.Tally{}
		}
		tally(tallies[a.thing], a)
		if a.takenFor >= 0 && a.result != progress.Right {
			if taken[a.thing] == nil {
				taken[a.thing] = map[int32]int{}
			}
			taken[a.thing][a.takenFor]++
		}
	}
	tested := 0
	for _, t := range tallies {
		if t.Asked >= memory.Enough {
			tested++
		}
	}
	out := make([]Item, 0, len(tallies)) // no larger: a thousand students' are held at once
	for n, t := range tallies {
		i := Item{Thing: p.things[n], Tally: *t, Tested: t.Asked >= memory.Enough}
		i.Weak = i.Tested && memory.AtMost(t.Right, t.Asked, memory.Aim) < family/float64(tested)
		if i.Weak {
			i.Chance = t.AsGuessing()
			i.mostlyTaken(p, taken[n])
		}
		out = append(out, i)
	}
	slices.SortFunc(out, func(a, b Item) int { return strings.Compare(a.Item, b.Item) })
	return out
}

// mostlyTaken says what a weak thing is taken for, if picking any of the wrong answers hardly explains how often.
func (i *Item) mostlyTaken(p *practised, taken map[int32]int) {
	other, times := int32(-1), 0
	for o, n := range taken {
		if n > times || n == times && p.things[o].Item < p.things[max(0, other)].Item {
			other, times = o, n
		}
	}
	misses := i.Asked - i.Right
	if other < 0 || 2*times <= misses {
		return
	}
	// Of the wrong answers of a question among n choices each is as likely as another: one in n-1.
	chance := i.Guessed / float64(i.Asked)
	if chance >= 0.5 || chance == 0 {
		chance = 0.25 // among two choices there is only one, and given freely none: then it has to be most of a few
	} else {
		chance /= 1 - chance
	}
	if 1-memory.AtMost(times-1, misses, chance) < 0.01 {
		i.Mostly, i.MostlyID = p.things[other].Name, p.things[other].Item
	}
}
