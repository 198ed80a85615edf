package tui

import (
	"slices"
	"strings"

	tea "charm.land/bubbletea/v2"

	"sparetone/theory/say"
	"sparetone/tui/draw"
	"sparetone/tui/page"
)

func (a *app) View() tea.View {
	a.draw()
	if a.away {
		// GNU screen has no second screen unless it is told to: what stood there would stay.
		a.shown = laid{}
	}
	v := tea.NewView(strings.Join(a.shown.lines, "\n"))
	v.AltScreen = true
	v.WindowTitle = "sparetone"
	v.MouseMode = tea.MouseModeCellMotion
	v.Cursor = a.shown.cursor
	return v
}

// draw lays the page out as it is now.
func (a *app) draw() {
	if a.width < leastWidth || a.height < leastHeight {
		a.shown = tooSmall(a.width, a.height)
		return
	}
	col := column(a.width)
	head := a.head(col)
	var b *body
	for _, size := range sizesAt(a.height) {
		b = newBody(a.sight, a.width, a.height-len(head)-1, size)
		a.body(b)
		if !b.tight() {
			break
		}
	}
	if b.small && b.tight() {
		b = newBody(a.sight, a.width, b.rows, b.size)
		b.dense = true
		a.body(b)
	}
	if over := len(b.lines) - b.rows; b.dense && over > 0 {
		closer := newBody(a.sight, a.width, b.rows, b.size)
		closer.dense, closer.closer = true, over
		if a.body(closer); len(closer.lines) <= closer.rows {
			b = closer
		}
	}
	acts, last := slices.Clone(a.acts()), helpAct
	if a.help {
		told := a.told(len(b.lines) > b.rows)
		b = newBody(a.sight, a.width, b.rows, b.size)
		help(b, told)
		acts, last = nil, helpAct.As("close")
	}
	if a.turned {
		b.keep(-1)
	}
	switch first := b.first(a.scroll); {
	case b.below(first) > 0:
		acts = slices.Insert(acts, min(1, len(acts)), more)
	case first > 0:
		acts = slices.Insert(acts, min(1, len(acts)), before)
	}
	line, spots := foot(a.theme, b.col, append(acts, last))
	a.shown = layOut(a.width, a.height, head, b, line, spots, a.scroll)
}

// heightForLarge is how many lines a screen has on which large pictures are tried.
const heightForLarge = 36

// sizesAt lists the sizes that are tried on a screen, the largest first.
func sizesAt(height int) []draw.Size {
	if height < heightForLarge {
		return draw.Sizes[1:]
	}
	return draw.Sizes
}

// head is what stands above a page: the time that has gone, and below it what is wrong. A word on the last
// key stands there for as long as it is said.
func (a *app) head(col int) []string {
	b := newBody(a.sight, a.width, max(1, a.height/3), draw.Usual)
	if a.said.IsZero() {
		b.add(timeline(a.theme, col, a.Session.Elapsed()))
	}
	for _, word := range []say.Text{a.said, a.Trouble} {
		if !word.IsZero() {
			b.say(a.theme.Quiet, word.Screen())
			break
		}
	}
	if words := a.ListeningWords(); !words.IsZero() {
		b.say(a.theme.Quiet, words.Screen()+"  ctrl+l stops it.")
	}
	return b.lines[:min(len(b.lines), b.rows)]
}

// body draws the blocks of the page, and below them a word that stays.
func (a *app) body(b *body) {
	for _, block := range a.page().Blocks {
		a.block(b, block)
	}
	if !a.note.IsZero() {
		b.setApart()
		b.say(a.theme.Quiet, a.note.Screen())
	}
}

// block draws a block of the page.
func (a *app) block(b *body, block page.Block) {
	switch block := block.(type) {
	case page.Gap:
		if !block.IfRoom || !b.dense {
			b.setApart()
		}
	case page.Sentence:
		b.sentence(block)
	case page.Seen:
		b.sentence(page.Sentence(block))
	case page.Aloud:
	case page.Weeks:
		b.add(b.theme.Quiet.Render("Last four weeks   ") + weeksLine(b.theme, block))
	case page.Neck:
		b.neck(block)
	case page.Strings:
		b.strings(block)
	case page.Outcome:
		b.outcome(block)
	case page.Sounding:
		b.sounding(block)
	case page.Shapes:
		b.shapes(block)
	case page.Curve:
		b.curve(block)
	case page.KindMap:
		b.kindMap(block)
	case page.Takeaway:
		b.takeaway(block)
	case page.Summary:
		b.summary(block)
	case page.Choice:
		b.choice(block)
	case page.Chart:
		b.chart(block)
	case page.Bars:
		b.bars(block)
	case *page.Hand:
		b.hand(block)
	case *page.Tones:
		b.tones(block)
	case page.Needles:
		b.needles(block)
	case page.Grip:
		b.grip(block)
	case page.Field:
		a.fieldView(b, block)
	}
}

// fieldView draws the field, or what stands in its place while it is closed.
func (a *app) fieldView(b *body, f page.Field) {
	blocks := f.WhileClosed
	if a.typing {
		blocks = f.WhileOpen
	}
	for _, block := range blocks {
		a.block(b, block)
	}
	if !a.typing && f.WhileClosed != nil {
		return
	}
	if !a.typing {
		b.click(b.next(), 0, b.col, pressed("t"))
	}
	a.field.view(b, f.Label)
	switch {
	case !a.wrong.IsZero():
		b.say(b.theme.Text, a.wrong.Screen())
	case f.Complete != nil:
		a.field.list(b)
	}
}
