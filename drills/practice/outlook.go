package practice

import (
	"math"
	"time"

	"sparetone/drills"
	"sparetone/progress"
	"sparetone/progress/plan"
	"sparetone/theory/say"
)

// Cautions are said before any practice. Loudness: WHO-ITU H.870, 80 dBA for 40 hours a week. Hands:
// common practice, no source.
const Cautions = "Start quietly; over headphones, stay where you could still talk. " +
	"If a hand or an ear hurts, stop, and ask somebody who knows if it goes on."

const (
	manyNew       = 12 // more than anybody would begin in a day: no number to begin with
	asksInAMinute = 3  // questions that a minute has room for, about; simulated beginners get through 2.4 to 4
)

// Outlook says what the session holds, a sentence a line.
func Outlook(p *App) []say.Text {
	day := p.Session.Today()
	minutes := say.Count{N: int(p.Session.Length().Minutes() + 0.5), One: "minute", Many: "minutes"}
	lines := []say.Text{say.Of("{} of practice.", minutes)}
	if part := p.Part(); !part.IsZero() {
		lines = []say.Text{say.Of("{} of practice: {}.", minutes, part)}
	}
	for _, r := range p.Session.Lessons() {
		lines = append(lines, r.Says())
	}
	sessions, err := p.File().Sessions()
	return append(lines, holds(day, minutes.N, err == nil && len(sessions) == 0)...)
}

// holds says what a day holds that has so many minutes, a sentence a line. Of the first day it is not said that nothing
// needs practice again.
func holds(day plan.Today, minutes int, first bool) (lines []say.Text) {
	switch {
	case day.Due > 0:
		line := needPractice(day.Due)
		if day.Weak > 0 {
			line = say.Of("{}; {} weak", line, say.Count{N: day.Weak, One: "is", Many: "are"})
		}
		lines = append(lines, say.Of("{}.", line))
		switch more := day.Due > minutes*asksInAMinute; { // one line, so that a low screen still shows all of today's page
		case more && day.New > 0:
			lines = append(lines, say.Of("More than a day has room for; new things may come too."))
		case more:
			lines = append(lines, say.Of("More than a day has room for: what helps most is first."))
		case day.New > 0:
			lines = append(lines, say.Of("Something new may come too."))
		}
	case day.New > manyNew:
		lines = append(lines, say.Of("There is more to learn than one day has room for."))
	case day.New > 0:
		lines = append(lines, say.Of("{} new.", say.Count{N: day.New, One: "thing is", Many: "things are"}))
	default:
		lines = append(lines, say.Of("What has faded most is kept fresh."))
	}
	if day.Due == 0 && !first {
		lines[0] = say.Of("Nothing needs practice again yet. {}", lines[0])
	}
	return lines
}

// weeksShown is how far back the opening screen looks.
const weeksShown = 4

// Practised says on which of the last weeks' days there was practice; the last one is today.
func Practised(p *App) []bool {
	days := make([]bool, 7*weeksShown)
	sessions, err := p.File().Sessions()
	if err != nil {
		return days
	}
	now := p.now()
	today := progress.DayOf(now)
	for _, s := range sessions {
		if s.Doubted {
			continue
		}
		if ago := int(today - progress.DayOf(s.Began.In(now.Location()))); ago >= 0 && ago < len(days) {
			days[len(days)-1-ago] = true
		}
	}
	return days
}

// now returns the moment that counts as now: the clock's, or where the file shows that the clock is wrong, the time of the
// last answer.
func (p *App) now() time.Time {
	if c, err := p.File().Clock(); err == nil && c.Doubted {
		return c.Now
	}
	return p.Setup.Now()
}

// DaysInWords says the same in words.
func DaysInWords(days []bool) say.Text {
	n := 0
	for _, d := range days {
		if d {
			n++
		}
	}
	return say.Of("You practised on {} of the last {} days.", say.Number(n), say.Number(len(days)))
}

// needPractice says how many things need practice, a clause.
func needPractice(n int) say.Text {
	return say.Of("{} practice", say.Count{N: n, One: "thing needs", Many: "things need"})
}

// NeededAgain says when what was answered needs practice again, and in which form it is asked then where that is another; zero if it
// cannot be said. It does not say when it is asked: that is for the planner to weigh on the day, and may be sooner or later.
func NeededAgain(v drills.Verdict) say.Text {
	when := neededAgain(v.BackIn)
	switch {
	case when.IsZero():
		return when
	case v.BackAs.IsZero():
		return say.Of("{}.", when)
	}
	return say.Of("{}, {}.", when, v.BackAs)
}

// neededAgain says when something needs practice again.
func neededAgain(in time.Duration) say.Text {
	switch days := daysUntil(in); {
	case in == 0:
		return say.Text{}
	case days <= 0:
		return say.Of("It needs practice today")
	case days == 1:
		return say.Of("It needs practice tomorrow")
	default:
		return say.Of("It needs practice in {} days", say.Number(days))
	}
}

// daysUntil is how many days something is away. What needs practice does so as a day begins, so a part of a day counts.
func daysUntil(in time.Duration) int { return int(math.Ceil(in.Hours() / 24)) }
