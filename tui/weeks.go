package tui

import (
	"strings"

	"sparetone/tui/draw"
)

// weeksLine draws days in weeks: a dot for each, filled if there was practice.
func weeksLine(th draw.Theme, days []bool) string {
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
