package tui

import (
	"fmt"
	"strings"

	"sparetone/progress"
)

// weeksShown is how far back the opening screen looks.
const weeksShown = 4

// practised says on which of the last weeks' days there was practice; the last one is today.
func practised(p *Practice) []bool {
	days := make([]bool, 7*weeksShown)
	sessions, err := p.file().Sessions()
	if err != nil {
		return days
	}
	now := p.Setup.Now()
	today := progress.DayOf(now)
	for _, s := range sessions {
		if ago := int(today - progress.DayOf(s.Began.In(now.Location()))); ago >= 0 && ago < len(days) {
			days[len(days)-1-ago] = true
		}
	}
	return days
}

// weeksLine draws days in weeks: a dot for each, filled if there was practice.
func weeksLine(th Theme, days []bool) string {
	var b strings.Builder
	for i, d := range days {
		if i > 0 && i%7 == 0 {
			b.WriteString("  ")
		}
		if d {
			b.WriteString(th.Text.Render("●"))
		} else {
			b.WriteString(th.Quiet.Render("·"))
		}
	}
	return b.String()
}

// weeksWords says the same in words.
func weeksWords(days []bool) string {
	n := 0
	for _, d := range days {
		if d {
			n++
		}
	}
	return fmt.Sprintf("There was practice on %s of the last %d.", count(n, "day", "days"), len(days))
}
