package tui

import (
	"fmt"
	"math"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"sparetone/synth/hear"
	"sparetone/tui/page"
)

// How the strings of a tuner are drawn: each lies across, with its pitch in the middle, and a mark where it is. A string that
// is too low has its mark on the left, one that is too high on the right; so strings that agree stand below one another.
const (
	needleSide  = 20 // columns on each side of the middle
	needleReach = 50 // cents at the end of a side
	levelCells  = 2*needleSide + 1
)

// needles draws the strings, and below them how loud it is.
func (b *body) needles(n page.Needles) {
	side := needleSide
	if b.col < 2*needleSide+24 {
		side = needleSide / 2
	}
	wide := 0
	for _, s := range n.Strings() {
		wide = max(wide, ansi.StringWidth(n.On.StringCalled(s.Number)))
	}
	for _, s := range n.Strings() {
		at := int(math.Round(max(-1, min(1, s.Cents/needleReach)) * float64(side)))
		if math.Abs(s.Cents) <= hear.InTune {
			at = 0
		}
		style, mark, word := b.theme.Quiet, "○", ""
		if s.Heard {
			word = needleWord(s.Cents)
		}
		if s.Sounds {
			style, mark = b.theme.Text, "●"
			if at == 0 {
				style = b.theme.Right
			}
		}
		cells := []string{}
		for c := -side; c <= side; c++ {
			switch {
			case s.Heard && c == at:
				cells = append(cells, mark)
			case c == 0:
				cells = append(cells, "┼")
			default:
				cells = append(cells, "─")
			}
		}
		b.add(style.Render(pad(n.On.StringCalled(s.Number), wide+2) + strings.Join(cells, "") + "  " + word))
	}
	b.gap()
	now, noise := n.Loudness()
	cells := make([]string, 2*side+1)
	for c := range cells {
		part := (float64(c) + 0.5) / float64(len(cells))
		switch {
		case part <= noise:
			cells[c] = "░"
		case part <= now:
			cells[c] = "█"
		default:
			cells[c] = "·"
		}
	}
	b.add(b.theme.Quiet.Render(strings.Repeat(" ", wide+2) + strings.Join(cells, "") + "  level"))
}

// needleWord is how far off a string is, beside its mark.
func needleWord(cents float64) string {
	switch {
	case math.Abs(cents) <= hear.InTune:
		return "in tune"
	case cents < 0:
		return fmt.Sprintf("%.0f low", -cents)
	}
	return fmt.Sprintf("%.0f high", cents)
}
