package tui

import (
	"fmt"
	"strings"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// grip draws what a hand holds, and beside or below it what that is and what one string moved makes of it.
func (b *body) grip(g page.Grip) {
	n := b.seen(draw.Neck{Voicing: g.Voicing, Named: len(g.Names) > 0, Fingers: g.Fingers, Caret: g.Hand.Tuning.StringNumber(g.Hand.At), Least: 5})
	switch {
	case g.Swap >= 0:
		n.Swap = &g.Swaps[g.Swap]
	case g.Moved != 0:
		n.Lit = []int{g.Moved}
	}
	drawn := n.Render(b.theme)
	for _, p := range n.Places() {
		b.click(b.next()+p.Row, p.From, p.To, fingerMsg{p.String, p.Fret})
	}
	width := b.col - lipgloss.Width(drawn) - 3
	if width < 24 {
		b.add(drawn)
		b.gap()
		b.add(b.gripTold(g, b.next(), 0, b.col))
		return
	}
	b.add(beside(drawn, b.gripTold(g, b.next(), b.col-width, width), 3))
}

// leastTrade is the narrowest column, in characters, in which what a swap trades has room beside what it makes.
const leastTrade = 12

// swapsShown is how many swaps are listed at once.
const swapsShown = 6

// gripTold is what the shape is, as a block of a width that is to stand at a line and column of the body.
func (b *body) gripTold(g page.Grip, row, from, width int) string {
	th, swaps := b.theme, g.Swaps
	var lines []string
	say := func(style lipgloss.Style, text string) { lines = append(lines, inStyle(style, wrap(width, text))...) }
	say(th.Quiet, g.Shape.String())
	for i, l := range g.Told() {
		if i == 0 {
			say(th.Strong, l.Screen())
		} else {
			say(th.Text, l.Screen())
		}
	}
	if len(swaps) == 0 {
		return strings.Join(lines, "\n")
	}
	lines = append(lines, "")
	say(th.Quiet, "Moving one string makes")
	first := max(0, min(g.Swap-swapsShown/2, len(swaps)-swapsShown))
	shown := swaps[first:min(len(swaps), first+swapsShown)]
	frets, chord := 0, 0
	for _, s := range shown {
		frets, chord = max(frets, len(s.To.String())), max(chord, ansi.StringWidth(s.Chord.String()))
	}
	for i, s := range shown {
		i += first
		mark, style := unmarked, th.Text
		if i == g.Swap {
			mark, style = marked, th.Accent
			b.keep(row + len(lines))
		}
		before := mark + pad(s.To.String(), frets+2) + pad(s.Chord.String(), chord+2)
		add := func(text string) {
			b.click(row+len(lines), from, from+width, chosenMsg{i})
			lines = append(lines, style.Render(text))
		}
		if width-ansi.StringWidth(before) < leastTrade { // below, set in
			add(before)
			before = "    "
		}
		for _, trade := range rows(max(1, width-ansi.StringWidth(before)), g.SwapAdds(i).Screen()) {
			add(before + trade)
			before = strings.Repeat(" ", ansi.StringWidth(before))
		}
	}
	if more := len(swaps) - swapsShown; more > 0 {
		say(th.Quiet, fmt.Sprintf("  %d in all", len(swaps)))
	}
	return strings.Join(lines, "\n")
}
