package tui

import (
	"fmt"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/progress"
)

// ending is the last screen: what was done, what was missed, when it goes on.
type ending struct {
	failed error // why practice could not go on; nil if it simply ended
}

// end closes the session in the file.
func (a *app) end() tea.Cmd {
	if err := a.Session.End(); err != nil {
		a.quiet = err.Error()
	}
	return nil
}

func (e *ending) keys(a *app) []key.Binding { return []key.Binding{labelled(keyLeave, "leave")} }

func (e *ending) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	if press, ok := msg.(tea.KeyPressMsg); ok && key.Matches(press, keyLeave, keyGoOn) {
		return e, a.leave()
	}
	return e, nil
}

func (e *ending) view(a *app, col, rows int) string {
	lines := []string{a.theme.Strong.Render("Done for now"), ""}
	if e.failed != nil {
		lines = append(lines, a.theme.Wrong.Render(wrap(col, e.failed.Error())), "")
	}
	for _, l := range summary(a.Session) {
		lines = append(lines, a.theme.Text.Render(wrap(col, l)))
	}
	return strings.Join(lines, "\n")
}

// summary says what was done, a sentence a line.
func summary(s *drills.Session) []string {
	done := s.Done()
	if len(done) == 0 {
		return []string{"Nothing was asked this time, so nothing has changed."}
	}
	right := 0
	type tally struct{ asked, right int }
	drill := map[string]tally{}
	var missed []string
	for _, d := range done {
		t := drill[d.Drill]
		t.asked++
		if d.Result == progress.Right {
			right++
			t.right++
		} else {
			missed = append(missed, fmt.Sprintf("%s, taken for %s", d.Expected, d.Given))
		}
		drill[d.Drill] = t
	}
	lines := []string{fmt.Sprintf("%s, %d right.", count(len(done), "question", "questions"), right), ""}
	for _, d := range drills.All() {
		if t := drill[d.About().ID]; t.asked > 0 {
			lines = append(lines, fmt.Sprintf("%s: %d of %d", d.About().Title, t.right, t.asked))
		}
	}
	if len(missed) > 0 {
		lines = append(lines, "", "To come back to:")
		const most = 6
		for _, m := range missed[:min(len(missed), most)] {
			lines = append(lines, "  "+m)
		}
		if more := len(missed) - most; more > 0 {
			lines = append(lines, fmt.Sprintf("  and %d more", more))
		}
	}
	due := s.Tomorrow()
	lines = append(lines, "", fmt.Sprintf("Tomorrow %s due.", count(due, "thing will be", "things will be")))
	return lines
}
