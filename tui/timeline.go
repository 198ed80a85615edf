package tui

import (
	"strings"

	"sparetone/tui/draw"
)

// timeline draws the minutes of a session as a thin line that grows: done is 0 to 1.
func timeline(th draw.Theme, width int, done float64) string {
	n := int(done*float64(width) + 0.5)
	n = max(0, min(width, n))
	return th.Text.Render(strings.Repeat("─", n)) + th.Quiet.Render(strings.Repeat("·", width-n))
}
