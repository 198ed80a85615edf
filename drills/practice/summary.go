package practice

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"sparetone/drills/catalogue"
	"sparetone/drills/practice/session"
	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/progress/plan"
	"sparetone/theory/say"
)

// Summary is what came of a session.
type Summary struct {
	Asked, Right int
	Drills       []DrillSummary
	begun        []say.Text // what was asked for the first time and came right
	stronger     []say.Text // what now needs no practice for longest, a sentence each
	firm         []say.Text // what is told apart nearly always
	Missed       []say.Text
	weak         []say.Text
	Ahead        say.Text // when it goes on

	TakenBack progress.TakenBack // of what was played or sung
}

// DrillSummary is how one drill went.
type DrillSummary struct {
	Title   string
	Right   int
	Results []progress.Result
}

// Counted says how many answers were right, and how many partly.
func (d DrillSummary) Counted() say.Text {
	out := say.Of("{} of {}", say.Number(d.Right), say.Number(len(d.Results)))
	partly := 0
	for _, r := range d.Results {
		if r == progress.Partly {
			partly++
		}
	}
	if partly > 0 {
		out = say.Of("{}, {} partly", out, say.Number(partly))
	}
	return out
}

const (
	mostNamed  = 3  // things of each sort that are named at the end
	mostListed = 20 // and where all answers are listed: some ten minutes of a beginner who misses half
)

// SumUp sums up a session.
func SumUp(p *App) Summary {
	s := Summary{TakenBack: p.Session.TakenBack()}
	of := map[string]*DrillSummary{}
	for _, d := range p.Session.Done() {
		s.Asked++
		if of[d.Drill] == nil {
			of[d.Drill] = &DrillSummary{}
		}
		of[d.Drill].Results = append(of[d.Drill].Results, d.Result)
		if d.Result == progress.Right {
			s.Right++
			of[d.Drill].Right++
		} else if line := missedLine(d); !slices.ContainsFunc(s.Missed, line.Equal) {
			s.Missed = append(s.Missed, line)
		}
	}
	for _, d := range catalogue.All() {
		if t := of[d.About().ID]; t != nil {
			t.Title = d.About().Title
			s.Drills = append(s.Drills, *t)
		}
	}
	s.begun = p.begunToday()
	s.look(p)
	s.Ahead = sayTomorrow(p.Session.Tomorrow(), !p.Part().IsZero())
	return s
}

// missedLine says what would have been right, and what was said.
func missedLine(d session.Done) say.Text {
	line := d.Expected
	switch {
	case !d.Chord.IsZero():
		line = say.Of("{}: {}", d.Chord, line)
	case d.Tells: // the third is doubled
		line = d.Asked
	case !d.Asked.IsZero():
		line = say.Of("{}: {}", d.Asked, line)
	}
	if !d.NotKnown {
		line = say.Of("{}; you said {}", line, d.Given)
	}
	return line
}

// sayTomorrow says how many things need practice then. Where the session was a part of practice, only what is in that part
// was counted.
func sayTomorrow(day plan.Today, part bool) say.Text {
	switch {
	case day.Due == 0 && part:
		return say.Of("Nothing of this part needs practice tomorrow.")
	case day.Due == 0 && day.New == 0:
		return say.Of("Nothing needs practice tomorrow.")
	case day.Due == 0:
		return say.Of("Nothing needs practice tomorrow: there is time for something new.")
	case part:
		return say.Of("Of this part {} tomorrow.", needPractice(day.Due))
	}
	return say.Of("Tomorrow {}.", needPractice(day.Due))
}

// look says what the file knows of what was asked: what got stronger, what is firm and what is weak.
func (s *Summary) look(p *App) {
	standings, err := p.File().Standings()
	if err != nil || s.Asked == 0 {
		return
	}
	now := p.now()
	days := func(x memory.Standing) int { return daysUntil(x.Due.Sub(now)) }
	slices.SortStableFunc(standings, func(a, b memory.Standing) int { return cmp.Compare(days(b), days(a)) })
	const firmly, enough = 0.9, 8
	for _, x := range standings {
		if !p.answered[x.Item] {
			continue
		}
		name := p.Session.Name(x.Item)
		if d, ok := catalogue.ByID(x.Drill); ok {
			name = say.Of("{} ({})", name, say.Words(d.About().Title))
		}
		if x.Weak {
			line := say.Of("{}: right {} out of {}", name, times(x.Latest.Right), say.Number(x.Latest.Asked))
			if x.Latest.AsGuessing() {
				line = say.Of("{}, as guessing would be", line)
			}
			s.weak = append(s.weak, line)
		}
		if n := days(x); n > 1 && x.Sure && !x.Weak {
			s.stronger = append(s.stronger, say.Of("{}: needs no practice for {} days", name, say.Number(n)))
		}
		if x.Latest.Asked >= enough && float64(x.Latest.Right) >= firmly*float64(x.Latest.Asked) {
			s.firm = append(s.firm, say.Of("{}: right {} times in 10", name, say.Number(math.Floor(10*float64(x.Latest.Right)/float64(x.Latest.Asked)))))
		}
	}
}

// Counted says how many questions there were.
func (s Summary) Counted() say.Text {
	if s.Asked == 0 {
		return say.Of("Nothing was asked this time, so nothing has changed.")
	}
	return say.Of("{}, {} right.", say.Count{N: s.Asked, One: "question", Many: "questions"}, say.Number(s.Right))
}

// SummaryPart is some lines under a title.
type SummaryPart struct {
	Title string
	Lines []say.Text
}

// Parts are what was gained, without what is empty.
func (s Summary) Parts() []SummaryPart {
	return filled(mostNamed, SummaryPart{"New", s.begun}, SummaryPart{"You can tell", s.firm}, SummaryPart{"Stronger", s.stronger})
}

// Rest is what is left to do, without what is empty.
func (s Summary) Rest() []SummaryPart {
	return filled(mostListed, SummaryPart{"Missed", s.Missed}, SummaryPart{"Weak", s.weak})
}

// filled leaves out parts that are empty, and what is more than can be taken in.
func filled(most int, parts ...SummaryPart) []SummaryPart {
	var out []SummaryPart
	for _, part := range parts {
		if len(part.Lines) == 0 {
			continue
		}
		if more := len(part.Lines) - most; more > 0 {
			part.Lines = append(slices.Clone(part.Lines[:most]), say.Of("and {} more", say.Number(more)))
		}
		out = append(out, part)
	}
	return out
}

// Gained says what was gained, a sentence a part.
func (s Summary) Gained() []say.Text {
	var out []say.Text
	for _, part := range s.Parts() {
		out = append(out, say.Of("{} {}.", say.Words(part.Title), say.Clauses(part.Lines...)))
	}
	return out
}

// Lines says how every drill went and what is left to do, a sentence a line.
func (s Summary) Lines() []say.Text {
	out := []say.Text{s.Counted()}
	for _, d := range s.Drills {
		out = append(out, say.Of("{}: {}.", say.Words(d.Title), d.Counted()))
	}
	for _, part := range s.Rest() {
		out = append(out, say.Of("{}:", say.Words(part.Title)))
		for _, l := range part.Lines {
			out = append(out, say.Sentence("{}.", l))
		}
	}
	return out
}

// begunToday names what was asked for the first time in this session and came right: by ear, and by eye.
func (p *App) begunToday() []say.Text {
	fresh, named := map[string]bool{}, map[string]bool{}
	var ear, eye []say.Text
	for _, a := range p.answers {
		fresh[a.Item] = fresh[a.Item] || a.fresh
		name := p.Session.Name(a.Item)
		key := fmt.Sprint(len(a.Sounds) > 0, name)
		if !fresh[a.Item] || a.Result != progress.Right || named[key] {
			continue
		}
		named[key] = true
		if len(a.Sounds) > 0 {
			ear = append(ear, name)
		} else {
			eye = append(eye, name)
		}
	}
	var out []say.Text
	for _, of := range []struct {
		by  say.Words
		all []say.Text
	}{{"by ear", ear}, {"by eye", eye}} {
		if len(of.all) > 0 {
			out = append(out, say.Of("{}: {}", of.by, fewNamed(of.all)))
		}
	}
	return out
}

// fewNamed lists names, the first few where there are many. Between two of them is no "and", which would join what a name such as "which
// of two notes is higher" ends with to the next.
func fewNamed(names []say.Text) say.Text {
	few := say.Of("{}", say.Commas(names[:min(mostNamed, len(names))]...))
	if more := len(names) - mostNamed; more > 0 {
		return say.Of("{} and {} more", few, say.Number(more))
	}
	return few
}
