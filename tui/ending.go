package tui

import (
	"fmt"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/progress"
)

// ending is the last screen: what was done, what was missed, when it goes on.
type ending struct {
	failed error // why practice could not go on; nil if it simply ended
	lines  []string
}

// newEnding sums up the session, which is closed already.
func newEnding(a *app, failed error) screen {
	return &ending{failed: failed, lines: summary(a.Session)}
}

func (e *ending) keys(a *app) []key.Binding {
	return []key.Binding{keyLeave, labelled(keyGoOn, "back to today")}
}

func (e *ending) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	press, ok := msg.(tea.KeyPressMsg)
	switch {
	case ok && key.Matches(press, keyLeave):
		return e, a.leave()
	case ok && key.Matches(press, keyGoOn):
		if err := a.begin(a.called); err != nil {
			a.said = sentence(err.Error())
			return e, nil
		}
		return &today{}, nil
	}
	return e, nil
}

func (e *ending) view(a *app, b *body) {
	b.say(a.theme.Strong, "Done for now")
	b.gap()
	if e.failed != nil {
		b.say(a.theme.Wrong, "✗ "+sentence(e.failed.Error()))
		b.gap()
	}
	for _, l := range e.lines {
		b.say(a.theme.Text, l)
	}
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
	lines = append(lines, "", fmt.Sprintf("Tomorrow %s back.", count(due, "thing comes", "things come")))
	return lines
}
