package tui

import (
	"slices"
	"strings"

	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/tui/page"
)

// What stands before the lines of a list: the mark, and where it could be.
const (
	marked   = "› "
	unmarked = "  "
)

// chosenMsg is a line that was clicked.
type chosenMsg struct{ line int }

// list is a choice as it was drawn: paging moves its mark.
type list struct {
	mark   *int
	starts []int // the rows on which its lines begin
}

// page moves the mark by some rows of the screen, or a line where that is more. It reports whether it moved.
func (l *list) page(by int) bool {
	was, step := *l.mark, 1
	if by < 0 {
		step = -1
	}
	for n := was + step; n >= 0 && n < len(l.starts); n += step {
		if gone := (l.starts[n] - l.starts[was]) * step; gone > by*step && n != was+step {
			break
		}
		*l.mark = n
	}
	return *l.mark != was
}

// overChoice moves the mark of a choice, or chooses by the key before a line.
func (a *app) overChoice(c page.Choice, key string) (next page.Next, done bool) {
	last, mark := len(c.Lines)-1, c.Mark
	switch {
	case key == "down":
		*mark, a.moved = min(last, *mark+1), true
	case key == "up" && *mark < 0:
		*mark, a.moved = last, true
	case key == "up":
		*mark, a.moved = max(0, *mark-1), true
	case c.Turn != nil && (key == "left" || key == "right"):
		return c.Turn(*mark, map[string]int{"left": -1, "right": 1}[key]), true
	case key == "enter" && *mark < 0:
		return page.Next{Said: c.Unmarked}, true
	default:
		for n, l := range c.Lines {
			if l.Key == key {
				if c.Enters {
					*mark, a.moved = n, true
					return page.Next{Said: page.SayMarked(l.Text)}, true
				}
				if !c.Answers {
					*mark = n
				}
				return c.Pick(n), true
			}
		}
		if c.Answers && len(key) == 1 && key >= "1" && key <= "9" {
			return page.Next{Said: page.SayAnswers(len(c.Lines))}, true
		}
		return page.Next{}, false
	}
	return page.Next{}, true
}

// choice draws a list, its mark and what more there is to say of its lines.
func (b *body) choice(c page.Choice) {
	if c.Turn != nil {
		b.settings(c)
		return
	}
	keys, widest, quiet := 0, 0, 0
	for _, l := range c.Lines {
		keys, widest, quiet = max(keys, ansi.StringWidth(l.Key)), max(widest, ansi.StringWidth(l.Text.Screen())), max(quiet, ansi.StringWidth(l.More))
	}
	left := 0
	if c.Answers {
		left = max(0, (b.col-widest-5)/2)
	}
	if keys+widest+quiet+7 > b.col && quiet < 16 {
		widest = 0 // what is said of a line then stands right behind it
	}
	margin := ansi.StringWidth(unmarked)
	if keys > 0 {
		margin += keys + 2
	}
	drawn, learnt := &list{mark: c.Mark}, slices.ContainsFunc(c.Lines, func(l page.Line) bool { return l.Learnt.Of > 0 })
	if learnt { // a name that leaves no room for its bar has it below
		widest = min(widest, b.col-left-margin-3-leastBar)
		b.say(b.theme.Quiet, learntLegend)
		b.gap()
	}
	for i, l := range c.Lines {
		mark, style := unmarked, b.theme.Text
		if i == *c.Mark {
			mark, style = marked, b.theme.Strong
		}
		text := l.Text.Screen()
		if l.Learnt.Of > 0 {
			l.More = learntBar(l.Learnt, min(mostBar, b.col-left-margin-widest-3))
		}
		rows := rowsOf(b.theme.Quiet, style, text, l.More, max(1, b.col-left-margin), max(0, widest-ansi.StringWidth(text))+3)
		drawn.starts = append(drawn.starts, b.next())
		if i == *c.Mark && (b.moved || !c.TopFirst) {
			b.keepRows(b.next(), b.next()+len(rows)-1)
		}
		before := strings.Repeat(" ", left) + style.Render(mark)
		if keys > 0 {
			before += b.theme.Quiet.Render(pad(l.Key, keys+2))
		}
		b.hang(before, left+margin, rows, chosenMsg{i})
	}
	if !c.Answers {
		b.list = drawn
	}
}

// rowsOf are what stands on a line behind its key, broken where there is no room for it: what more there is to
// say follows after a gap, or on rows of its own.
func rowsOf(quiet, style lipgloss.Style, text, more string, room, gap int) []string {
	rows := inStyle(style, wrap(room, text))
	if len(rows) > 1 { // set in, so that it does not look like another line
		rows = inStyle(style, wrap(max(1, room-2), text))
		for i := range rows[1:] {
			rows[i+1] = "  " + rows[i+1]
		}
	}
	switch {
	case more == "":
	case len(rows) == 1 && ansi.StringWidth(text)+gap+ansi.StringWidth(more) <= room:
		rows[0] += strings.Repeat(" ", gap) + quiet.Render(more)
	default:
		rows = append(rows, inStyle(quiet, wrap(room, more))...)
	}
	return rows
}

// settings draws a list whose lines have values to step through.
func (b *body) settings(c page.Choice) {
	widest := 0
	for _, l := range c.Lines {
		widest = max(widest, ansi.StringWidth(l.Text.Screen()))
	}
	for i, l := range c.Lines {
		mark, style, value := unmarked, b.theme.Text, "  "+l.Value
		if i == *c.Mark {
			mark, style, value = marked, b.theme.Strong, "‹ "+l.Value+" ›"
			b.keep(b.next())
		}
		b.click(b.next(), 0, b.col, chosenMsg{i})
		b.add(style.Render(mark+l.Text.Screen()) + strings.Repeat(" ", widest-ansi.StringWidth(l.Text.Screen())+2) + style.Render(value))
	}
	b.gap()
	b.sentence(page.Sentence{Text: c.About, Tone: page.Quiet})
	if last := b.next() - 1; last-b.kept < b.rows-2 {
		b.keep(last) // what is said of the marked line is in sight with it
	}
}
