package tui

import (
	"fmt"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills/practice"
	"sparetone/progress/memory"
	"sparetone/tui/draw"
)

// weak is the screen of what is mistaken for what: a chart of each drill, to go over cell by cell.
type weak struct {
	mixed    []practice.Mixed
	failed   error
	drill    int // of mixed
	row, col int // the cell that is looked at
}

func newWeak(a *app) screen {
	w := &weak{}
	w.mixed, w.failed = practice.MixedUp(&a.App)
	w.worst()
	return w
}

// worst looks at the cell with the most mistakes.
func (w *weak) worst() {
	w.row, w.col = 0, 0
	if len(w.mixed) == 0 {
		return
	}
	m, most := w.mixed[w.drill], 0
	for r := range m.Items {
		for c := range m.Items {
			if n := m.Times(r, c); n > most {
				most, w.row, w.col = n, r, c
			}
		}
	}
}

var (
	keyCell  = named(bind("go over it", "←→↑↓", "up", "down", "left", "right"), "←→↑↓", "look")
	keyDrill = bind("next drill", "tab", "tab")
	keyAll   = bind("practise all weak spots", "w", "w")
)

func (w *weak) keys(a *app) []key.Binding {
	out := []key.Binding{labelled(keyLeave, "back")}
	if len(w.mixed) == 0 {
		return out
	}
	this := "practise this pair"
	if w.row == w.col {
		this = "practise this one"
	}
	out = append([]key.Binding{labelled(keyGoOn, this), keyCell}, out...)
	if len(w.mixed) > 1 {
		out = append(out, keyDrill)
	}
	return append(out, keyAll)
}

// cellMsg is a cell of the chart that was pointed at.
type cellMsg struct{ row, col int }

func (w *weak) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	if press, ok := msg.(tea.KeyPressMsg); ok && key.Matches(press, keyLeave) {
		return &today{}, nil
	}
	if len(w.mixed) == 0 {
		return w, nil
	}
	m := w.mixed[w.drill]
	last := len(m.Items) - 1
	switch msg := msg.(type) {
	case cellMsg:
		w.row, w.col = min(last, msg.row), min(last, msg.col)
	case tea.KeyPressMsg:
		switch {
		case key.Matches(msg, keyUp):
			w.row = max(0, w.row-1)
		case key.Matches(msg, keyDown):
			w.row = min(last, w.row+1)
		case key.Matches(msg, keyLeft):
			w.col = max(0, w.col-1)
		case key.Matches(msg, keyRight):
			w.col = min(last, w.col+1)
		case key.Matches(msg, keyDrill):
			w.drill = (w.drill + 1) % len(w.mixed)
			w.worst()
		case key.Matches(msg, keyAll):
			all, err := a.WeakWay()
			if err != nil {
				a.said = practice.Sentence(err.Error())
				return w, nil
			}
			return a.start(all, w)
		case key.Matches(msg, keyGoOn):
			return a.start(m.Between(w.row, w.col), w)
		}
	}
	return w, nil
}

func (w *weak) view(a *app, b *body) {
	th := a.theme
	b.say(th.Strong, "Weak spots")
	switch {
	case w.failed != nil:
		b.gap()
		b.say(th.Wrong, "✗ "+practice.Sentence(w.failed.Error()))
		return
	case len(w.mixed) == 0:
		b.gap()
		b.say(th.Text, "Nothing was mistaken for anything in the last eight weeks. When something is, it stands here.")
		return
	}
	m := w.mixed[w.drill]
	b.say(th.Text, m.Drill.About().Title)
	b.gap()

	const cell = 3
	n := len(m.Items)
	right := 12 // columns that say how many were right
	if b.col-right-n*cell < 16 {
		right = 0
	}
	names := min(widestName(m)+4, max(12, b.col-right-n*cell))
	head := strings.Repeat(" ", names)
	for c := range m.Items {
		head += fmt.Sprintf("%*d", cell, c+1)
	}
	b.add(th.Quiet.Render(pad("asked", names) + "taken for"))
	if right > 0 {
		head += "   right"
	}
	b.add(th.Quiet.Render(head))
	for r, item := range m.Items {
		style := th.Text
		if r == w.row {
			style = th.Strong
			b.keep(b.next())
		}
		line := th.Quiet.Render(fmt.Sprintf("%2d ", r+1)) + style.Render(pad(ansi.Truncate(item.Name.Screen(), names-4, "…"), names-3))
		for c := range m.Items {
			text, ink := "·", th.Quiet
			if times := m.Times(r, c); times > 0 {
				text, ink = fmt.Sprint(min(times, 99)), th.Text
			}
			space := cell - ansi.StringWidth(text)
			if r == w.row && c == w.col {
				space, text, ink = space-1, "["+text+"]", th.Accent
			} else if r == w.row && c == w.col+1 {
				space-- // the bracket before stands there
			}
			line += strings.Repeat(" ", max(0, space)) + ink.Render(text)
			b.click(b.next(), names+c*cell, names+(c+1)*cell, cellMsg{r, c})
		}
		if r != w.row || w.col != n-1 {
			line += " "
		}
		if s := item.Standing; s.Latest.Asked > 0 && right > 0 {
			line += th.Quiet.Render(fmt.Sprintf("  %d of %d", s.Latest.Held, s.Latest.Asked))
		}
		b.add(line)
	}
	b.gap()
	for _, l := range m.Told(w.row, w.col) {
		b.say(th.Text, l.Screen())
	}
	if weeks := m.Items[w.row].Standing.Weeks; len(weeks) > 1 {
		b.gap()
		for _, l := range weeksChart(th, weeks, b.col) {
			b.add(l)
		}
	}
}

func widestName(m practice.Mixed) int {
	widest := 0
	for _, i := range m.Items {
		widest = max(widest, ansi.StringWidth(i.Name.Screen()))
	}
	return widest
}

// bars are the heights of a bar, from none right to all right.
var bars = []rune("▁▂▃▄▅▆▇█")

// weeksTold is how many weeks are spoken of.
const weeksTold = 8

// weeksChart draws the last weeks' shares of right answers, a bar a week with its counts below, as many weeks as
// there is room for; the latest is the last.
func weeksChart(th draw.Theme, weeks []memory.Week, room int) []string {
	const title, latest = "right, week by week", "latest"
	counts, cell := make([]string, len(weeks)), 0
	for i, w := range weeks {
		counts[i] = fmt.Sprintf("%d/%d", w.Held, w.Asked)
		cell = max(cell, len(counts[i])+2)
	}
	fit := (room - len(title) - len(latest) - 2) / cell
	first := max(0, len(weeks)-min(weeksTold, fit))
	above, below := "", ""
	for i, w := range weeks[first:] {
		above += fmt.Sprintf("%*c", cell, bars[w.Held*(len(bars)-1)/max(1, w.Asked)])
		below += fmt.Sprintf("%*s", cell, counts[first+i])
	}
	return []string{
		th.Quiet.Render(title) + th.Text.Render(above) + th.Quiet.Render("  "+latest),
		th.Quiet.Render(strings.Repeat(" ", len(title)) + below),
	}
}
