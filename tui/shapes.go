package tui

import (
	"slices"
	"strings"

	"charm.land/lipgloss/v2"

	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// seen is a neck as it is seen here: how large, and which way round.
func (b *body) seen(n draw.Neck) draw.Neck {
	n.Size, n.Left = b.size, b.left
	return n
}

// Columns between what stands side by side, and the narrowest column that text stands in beside a picture.
const (
	apart      = 3
	narrowText = 24
)

// sideBySide draws necks next to each other, at the size there is room for or the next smaller one. It reports false if the screen is
// too narrow for them.
func (b *body) sideBySide(necks []draw.Neck) (block string, fits bool) {
	if len(necks) < 2 {
		return "", false
	}
	for _, size := range draw.Sizes[slices.Index(draw.Sizes, b.size):] {
		all := make([]draw.Neck, len(necks))
		for i, n := range necks {
			all[i] = b.seen(n)
			all[i].Size = size
		}
		if block = draw.SideBySide(b.theme, apart, all...); lipgloss.Width(block) <= b.widest() {
			return block, true
		}
	}
	return "", false
}

// shapes draws some shapes side by side, or where there is no room one of them, and beside or below what is to be said of them.
func (b *body) shapes(s page.Shapes) {
	var necks []draw.Neck
	for i, one := range s.All {
		n := draw.Neck{Voicing: one.Voicing, Caption: one.Caption, Named: !s.Bare, Fingers: s.Fingers, Chosen: i == s.At, Sounds: s.Now == i+1, InTurn: one.InTurn, Lit: s.Lit}
		if one.Mark != 0 {
			n.Lit = append(slices.Clip(n.Lit), one.Mark)
		}
		necks = append(necks, n)
	}
	text := func(width int) string {
		var lines []string
		for _, l := range s.Lines {
			lines = append(lines, wrap(width, l.Screen()))
		}
		return b.theme.Text.Render(strings.Join(lines, "\n"))
	}
	if len(necks) == 0 {
		if len(s.Lines) > 0 {
			b.add(text(b.col))
		}
		return
	}
	picture, all := b.sideBySide(necks)
	if all && b.small && b.next()+lipgloss.Height(picture)+1+lipgloss.Height(text(b.col)) > b.rows-2 {
		all = false
	}
	if !all {
		one := b.seen(draw.Together(necks)[s.At])
		one.Chosen = false // it stands alone
		picture = one.Render(b.theme)
		if room := b.col - lipgloss.Width(picture) - 2; b.small && room >= narrowText && len(s.Lines) > 0 {
			b.add(beside(picture, text(room), 2))
			return
		}
	}
	b.picture(picture)
	if len(s.Lines) > 0 {
		b.setApart()
		b.add(text(b.col))
	}
}

// note stands before the name of what sounds.
const note = "♪ "

// sounding names what sounds, and keeps its line free while nothing does.
func (b *body) sounding(s page.Sounding) {
	if s.Now == nil {
		b.gap()
		return
	}
	b.say(b.theme.Accent, note+s.Now.Label.Screen())
}
