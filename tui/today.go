package tui

import (
	"fmt"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
)

// today is the opening screen: what the next minutes hold, and one key to begin.
type today struct{}

func (t *today) keys(a *app) []key.Binding {
	return []key.Binding{labelled(keyGoOn, "begin"), keyLeave}
}

func (t *today) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	if msg, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case key.Matches(msg, keyGoOn):
			return next(a)
		case key.Matches(msg, keyLeave):
			return t, a.leave()
		}
	}
	return t, nil
}

func (t *today) view(a *app, col, rows int) string {
	lines := []string{a.theme.Strong.Render("Today"), ""}
	if a.Notice != "" {
		lines = append(lines, a.theme.Wrong.Render(wrap(col, "✗ "+a.Notice)), "")
	}
	for _, l := range outlook(a.Practice) {
		lines = append(lines, a.theme.Text.Render(wrap(col, l)))
	}
	lines = append(lines, "")
	for _, l := range strings.Split(wrap(col, cautions), "\n") {
		lines = append(lines, a.theme.Quiet.Render(l))
	}
	return strings.Join(lines, "\n")
}

// cautions are said before any practice. Loudness: WHO-ITU H.870, 80 dBA for 40 hours a week. Hands:
// common practice, no source.
const cautions = "Start quietly; over headphones, stay where you could still talk. " +
	"If a hand or an ear hurts, stop, and ask somebody who knows if it goes on."

// outlook says what the session holds, a sentence a line.
func outlook(p Practice) []string {
	day := p.Session.Today()
	minutes := p.Session.Length().Minutes()
	lines := []string{fmt.Sprintf("%s of practice.", count(int(minutes+0.5), "minute", "minutes"))}
	switch {
	case day.Due > 0:
		line := fmt.Sprintf("%s due", count(day.Due, "thing is", "things are"))
		if day.Weak > 0 {
			line += fmt.Sprintf(", %d of them weak", day.Weak)
		}
		lines = append(lines, line+".")
		if day.New > 0 {
			lines = append(lines, "If there is time left, something new.")
		}
	case day.New > 0:
		lines = append(lines, fmt.Sprintf("Nothing is due. %s can be begun.", count(day.New, "new thing", "new things")))
	default:
		lines = append(lines, "Nothing is due. What has faded most is kept fresh.")
	}
	return lines
}

// count writes a number with its noun.
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
