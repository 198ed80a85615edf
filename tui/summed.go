package tui

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/progress"
)

// summed is what came of a session.
type summed struct {
	asked, right int
	drills       []summedDrill
	stronger     []string // what now stays away longest, a sentence each
	firm         []string // what is told apart nearly always
	missed       []string
	weak         []string
	ahead        string // when it goes on
}

// summedDrill is how one drill went.
type summedDrill struct {
	title   string
	right   int
	results []progress.Result
}

// At the end so many things are named of each sort.
const mostNamed = 3

// sumUp sums up a session.
func sumUp(p *Practice) summed {
	var s summed
	of := map[string]*summedDrill{}
	for _, d := range p.Session.Done() {
		s.asked++
		if of[d.Drill] == nil {
			of[d.Drill] = &summedDrill{}
		}
		of[d.Drill].results = append(of[d.Drill].results, d.Result)
		if d.Result == progress.Right {
			s.right++
			of[d.Drill].right++
		} else if line := missedLine(d); !slices.Contains(s.missed, line) {
			s.missed = append(s.missed, line)
		}
	}
	for _, d := range drills.All() {
		if t := of[d.About().ID]; t != nil {
			t.title = d.About().Title
			s.drills = append(s.drills, *t)
		}
	}
	s.look(p)
	s.ahead = tomorrow(p.Session.Tomorrow(), p.part() != "")
	return s
}

// missedLine says what would have been right, and what was said.
func missedLine(d practice.Done) string {
	line := d.Expected
	if d.Chord != "" {
		line = d.Chord + ": " + line
	}
	if d.Given != drills.Unknown {
		line += "; you said " + d.Given
	}
	return line
}

// tomorrow says how many things come back then. Where the session was a part of practice, only what is in that part
// was counted.
func tomorrow(n int, part bool) string {
	things := count(n, "thing comes", "things come")
	switch {
	case n == 0 && part:
		return "Nothing of this part of practice comes back tomorrow."
	case n == 0:
		return "Nothing comes back tomorrow: there is time for something new."
	case part:
		return "Of this part of practice, " + things + " back tomorrow."
	}
	return "Tomorrow " + things + " back."
}

// look says what the file knows of what was asked: what got stronger, what is firm and what is weak.
func (s *summed) look(p *Practice) {
	standings, err := p.file().Standings()
	if err != nil || s.asked == 0 {
		return
	}
	now := p.Setup.Now()
	days := func(x progress.Standing) int { return daysUntil(x.Due.Sub(now)) }
	slices.SortStableFunc(standings, func(a, b progress.Standing) int { return cmp.Compare(days(b), days(a)) })
	const firmly, enough = 0.9, 8
	for _, x := range standings {
		if !p.answered[x.Item] {
			continue
		}
		name := p.Session.Name(x.Item)
		if d, ok := drills.ByID(x.Drill); ok {
			name += " (" + d.About().Title + ")"
		}
		if x.Weak {
			line := fmt.Sprintf("%s: right %s of %d", name, count(x.Latest.Held, "time", "times"), x.Latest.Asked)
			if x.Latest.AsGuessing() {
				line += ", as guessing would be"
			}
			s.weak = append(s.weak, line)
		}
		if n := days(x); n > 1 && x.Sure && !x.Weak {
			s.stronger = append(s.stronger, fmt.Sprintf("%s: back in %d days", name, n))
		}
		if x.Latest.Asked >= enough && float64(x.Latest.Held) >= firmly*float64(x.Latest.Asked) {
			s.firm = append(s.firm, fmt.Sprintf("%s: right %d times in 10", name, int(math.Floor(10*float64(x.Latest.Held)/float64(x.Latest.Asked)))))
		}
	}
}

// counted says how many questions there were.
func (s summed) counted() string {
	if s.asked == 0 {
		return "Nothing was asked this time, so nothing has changed."
	}
	return fmt.Sprintf("%s, %d right.", count(s.asked, "question", "questions"), s.right)
}

// summedPart is some lines under a title.
type summedPart struct {
	title string
	lines []string
}

// parts are what there is to say beside the counts, without what is empty.
func (s summed) parts() []summedPart {
	var out []summedPart
	for _, part := range []summedPart{
		{"You now know", s.firm},
		{"Stronger", s.stronger},
		{"To come back to", s.missed},
		{"Weak", s.weak},
	} {
		if len(part.lines) == 0 {
			continue
		}
		if more := len(part.lines) - mostNamed; more > 0 {
			part.lines = append(slices.Clone(part.lines[:mostNamed]), fmt.Sprintf("and %d more", more))
		}
		out = append(out, part)
	}
	return out
}

// lines says all of it, a sentence a line.
func (s summed) lines() []string {
	out := []string{s.counted()}
	for _, d := range s.drills {
		out = append(out, fmt.Sprintf("%s: %d of %d.", d.title, d.right, len(d.results)))
	}
	for _, part := range s.parts() {
		out = append(out, part.title+":")
		for _, l := range part.lines {
			out = append(out, l+".")
		}
	}
	return append(out, s.ahead)
}
