package tui

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/progress"
)

// mixed is what is mistaken for what in one drill, over the last eight weeks.
type mixed struct {
	drill drills.Drill
	items []mixedItem // in the drill's order
}

// mixedItem is one thing that is mistaken for another, or that another is mistaken for.
type mixedItem struct {
	id, name string
	standing progress.Standing // zero if it was never asked
}

// wayBetween is practising a pair of items.
func (m mixed) wayBetween(asked, taken int) way {
	a, b := m.items[asked], m.items[taken]
	return wayThrough(a.name+" and "+b.name, a.id, b.id)
}

// times is how often one was taken for the other.
func (m mixed) times(asked, taken int) int {
	for _, t := range m.items[asked].standing.Taken {
		if t.Item == m.items[taken].id {
			return t.Times
		}
	}
	return 0
}

// mixedUp lists what is mistaken for what, a drill at a time; drills without mistakes are left out.
func mixedUp(p *Practice) ([]mixed, error) {
	standings, err := p.file().Standings()
	if err != nil {
		return nil, err
	}
	of := map[string]progress.Standing{}
	in := map[string]bool{}
	for _, s := range standings {
		of[s.Item] = s
		if len(s.Taken) > 0 || s.Weak {
			in[s.Item] = true
		}
		for _, t := range s.Taken {
			in[t.Item] = true
		}
	}
	on := p.Session.On()
	var out []mixed
	for _, d := range drills.All() {
		m := mixed{drill: d}
		for _, t := range d.Targets(on) {
			if id := drills.ItemID(d.About().ID, t.ID, on.Name()); in[id] {
				m.items = append(m.items, mixedItem{id, t.Name, of[id]})
			}
		}
		if len(m.items) > 0 {
			out = append(out, m.worst())
		}
	}
	return out, nil
}

// mostMixed is how many things the chart of a drill has room for.
const mostMixed = 12

// worst leaves of a chart that has no room for all of it the things with the most mistakes.
func (m mixed) worst() mixed {
	if len(m.items) <= mostMixed {
		return m
	}
	mistakes := func(i mixedItem) int { return i.standing.Latest.Asked - i.standing.Latest.Held }
	most := slices.SortedStableFunc(slices.Values(m.items), func(a, b mixedItem) int { return mistakes(b) - mistakes(a) })[:mostMixed]
	m.items = slices.DeleteFunc(m.items, func(i mixedItem) bool {
		return !slices.ContainsFunc(most, func(x mixedItem) bool { return x.id == i.id })
	})
	return m
}

// weakWay is practising what is weak, or mistaken often enough to be spoken of, and what it is mistaken
// for.
func (p *Practice) weakWay() (way, error) {
	standings, err := p.file().Standings()
	if err != nil {
		return way{}, err
	}
	var items []string
	for _, s := range standings {
		claimed := slices.IndexFunc(s.Taken, func(t progress.Taken) bool { return !t.Claimed() })
		if claimed < 0 {
			claimed = len(s.Taken)
		}
		if !s.Weak && claimed == 0 {
			continue
		}
		items = append(items, s.Item)
		for _, t := range s.Taken[:claimed] {
			items = append(items, t.Item)
		}
	}
	if len(items) == 0 {
		return way{}, errNothingWeak
	}
	return wayThrough("weak spots", items...), nil
}

// weak is the screen of what is mistaken for what: a chart of each drill, to go over cell by cell.
type weak struct {
	mixed    []mixed
	failed   error
	drill    int // of mixed
	row, col int // the cell that is looked at
}

func newWeak(a *app) screen {
	w := &weak{}
	w.mixed, w.failed = mixedUp(&a.Practice)
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
	for r := range m.items {
		for c := range m.items {
			if n := m.times(r, c); n > most {
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
	last := len(m.items) - 1
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
			all, err := a.weakWay()
			if err != nil {
				a.said = sentence(err.Error())
				return w, nil
			}
			return a.start(all, w)
		case key.Matches(msg, keyGoOn):
			return a.start(m.wayBetween(w.row, w.col), w)
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
		b.say(th.Wrong, "✗ "+sentence(w.failed.Error()))
		return
	case len(w.mixed) == 0:
		b.gap()
		b.say(th.Text, "Nothing was mistaken for anything in the last eight weeks. What is will stand here.")
		return
	}
	m := w.mixed[w.drill]
	b.say(th.Text, m.drill.About().Title)
	b.gap()

	const cell = 3
	n := len(m.items)
	right := 12 // columns that say how many were right
	if b.col-right-n*cell < 16 {
		right = 0
	}
	names := min(widestName(m)+4, max(12, b.col-right-n*cell))
	head := strings.Repeat(" ", names)
	for c := range m.items {
		head += fmt.Sprintf("%*d", cell, c+1)
	}
	b.add(th.Quiet.Render(pad("asked", names) + "taken for"))
	if right > 0 {
		head += "   right"
	}
	b.add(th.Quiet.Render(head))
	for r, item := range m.items {
		style := th.Text
		if r == w.row {
			style = th.Strong
			b.keep(b.next())
		}
		line := th.Quiet.Render(fmt.Sprintf("%2d ", r+1)) + style.Render(pad(ansi.Truncate(item.name, names-4, "…"), names-3))
		for c := range m.items {
			text, ink := "·", th.Quiet
			if times := m.times(r, c); times > 0 {
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
		if s := item.standing; s.Latest.Asked > 0 && right > 0 {
			line += th.Quiet.Render(fmt.Sprintf("  %d of %d", s.Latest.Held, s.Latest.Asked))
		}
		b.add(line)
	}
	b.gap()
	for _, l := range m.told(w.row, w.col) {
		b.say(th.Text, l)
	}
	if weeks := m.items[w.row].standing.Weeks; len(weeks) > 1 {
		b.gap()
		for _, l := range weeksChart(th, weeks, b.col) {
			b.add(l)
		}
	}
}

func widestName(m mixed) int {
	widest := 0
	for _, i := range m.items {
		widest = max(widest, ansi.StringWidth(i.name))
	}
	return widest
}

// told says what one cell of the chart means, a sentence a line.
func (m mixed) told(row, col int) []string {
	asked, taken := m.items[row], m.items[col]
	s := asked.standing
	if s.Latest.Asked == 0 {
		return []string{fmt.Sprintf("Not asked in the last eight weeks: %s.", asked.name)}
	}
	var lines []string
	if row != col {
		lines = append(lines, mistaken(asked.name, taken.name, m.times(row, col), s.Latest.Asked))
	}
	known := fmt.Sprintf("%s: right %s of %d in the last eight weeks", capital(asked.name), count(s.Latest.Held, "time", "times"), s.Latest.Asked)
	switch {
	case s.Weak && s.Latest.AsGuessing():
		known += ", which is weak: guessing would do as well"
	case s.Weak:
		known += ", which is weak, and not by chance"
	}
	return append(lines, known+".")
}

// mistaken says how often something was taken for another. Some of the names are sentences, such as "the root is
// doubled": they stand apart from the verb.
func mistaken(name, other string, times, asked int) string {
	switch times {
	case 0:
		return fmt.Sprintf("Asked %s for %s, you never said %s.", count(asked, "time", "times"), name, other)
	case 1:
		return fmt.Sprintf("Asked for %s, you said %s once out of %d.", name, other, asked)
	}
	return fmt.Sprintf("Asked for %s, you said %s %d times out of %d.", name, other, times, asked)
}

// bars are the heights of a bar, from none right to all right.
var bars = []rune("▁▂▃▄▅▆▇█")

// weeksTold is how many weeks are spoken of.
const weeksTold = 8

// weeksChart draws the last weeks' shares of right answers, a bar a week with its counts below, as many weeks as
// there is room for; the latest is the last.
func weeksChart(th Theme, weeks []progress.Week, room int) []string {
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

// capital writes a sentence's first letter large.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return strings.ToUpper(string(r)) + s[n:]
}
