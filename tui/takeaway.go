package tui

import (
	"strings"

	"charm.land/lipgloss/v2"

	"sparetone/tui/draw"
	"sparetone/tui/page"
)

// takeaway draws the chord of the day: its necks, small, and beside or below them what to do. Both the plain chord and what becomes of it are
// drawn where there is room, else the latter alone.
func (b *body) takeaway(t page.Takeaway) {
	var necks []draw.Neck
	for i, one := range t.Shapes() {
		n := b.seen(draw.Neck{Voicing: one.Voicing, Caption: one.Caption, Fingers: i == 0}) // the fingers that stay keep their places
		n.Size = draw.Small
		if one.Mark != 0 {
			n.Lit = []int{one.Mark}
		}
		necks = append(necks, n)
	}
	if b.size == draw.Large { // there is room: below each other, and larger
		for i := range necks {
			necks[i].Size = draw.Usual
		}
	}
	picture := draw.SideBySide(b.theme, apart, necks...)
	room := func() int { return b.col - lipgloss.Width(picture) - 2 }
	if b.size != draw.Large && room() < narrowText {
		picture = necks[len(necks)-1].Render(b.theme)
	}
	width := room()
	if width < narrowText {
		width = b.col
	}
	lines := inStyle(b.theme.Strong, wrap(width, todaysChord+t.Chord().String()))
	for _, l := range t.Told() {
		lines = append(lines, inStyle(b.theme.Text, wrap(width, l.Screen()))...)
	}
	text := strings.Join(lines, "\n")
	if width == b.col {
		b.add(text)
		b.gap()
		b.picture(picture)
		return
	}
	b.add(beside(picture, text, 2))
}

// todaysChord stands before the name of the chord of the day.
const todaysChord = "Today's chord: "
