package practice

import (
	"fmt"
	"math"
	"time"

	"sparetone/progress"
)

// Cautions are said before any practice. Loudness: WHO-ITU H.870, 80 dBA for 40 hours a week. Hands:
// common practice, no source.
const Cautions = "Start quietly; over headphones, stay where you could still talk. " +
	"If a hand or an ear hurts, stop, and ask somebody who knows if it goes on."

// manyNew is more than anybody would begin in a day: no number to begin with.
const manyNew = 12

// Outlook says what the session holds, a sentence a line.
func Outlook(p *App) []string {
	day := p.Session.Today()
	minutes := p.Session.Length().Minutes()
	lines := []string{Count(int(minutes+0.5), "minute", "minutes") + " of practice" + only(p.Part()) + "."}
	switch {
	case day.Due > 0:
		line := fmt.Sprintf("%s come back", Count(day.Due, "thing has", "things have"))
		if day.Weak > 0 {
			line += fmt.Sprintf("; %s weak", Count(day.Weak, "is", "are"))
		}
		lines = append(lines, line+".")
		if day.New > 0 {
			lines = append(lines, "If there is time left, something new.")
		}
	case day.New > manyNew:
		lines = append(lines, "Nothing has come back yet. There is more to learn than one day has room for.")
	case day.New > 0:
		lines = append(lines, fmt.Sprintf("Nothing has come back yet. %s new.", Count(day.New, "thing is", "things are")))
	default:
		lines = append(lines, "Nothing has come back yet. What has faded most is kept fresh.")
	}
	return lines
}

// only says what part of practice it is, if it is not all.
func only(part string) string {
	if part == "" {
		return ""
	}
	return ": " + part
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
func DaysInWords(days []bool) string {
	n := 0
	for _, d := range days {
		if d {
			n++
		}
	}
	return fmt.Sprintf("You practised on %d of the last %d days.", n, len(days))
}

// ComesBack says when something is asked again.
func ComesBack(in time.Duration) string {
	switch days := daysUntil(in); {
	case in == 0:
		return ""
	case days <= 0:
		return "It comes back today."
	case days == 1:
		return "It comes back tomorrow."
	default:
		return fmt.Sprintf("It comes back in %d days.", days)
	}
}

// daysUntil is how many days something is away. What comes back does so as a day begins, so a part of a day counts.
func daysUntil(in time.Duration) int { return int(math.Ceil(in.Hours() / 24)) }
