package tui

import (
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/tui/draw"
)

// ending is the last screen: what was done, what got stronger, what is weak, and when it goes on.
type ending struct {
	failed error // why practice could not go on; nil if it simply ended
	sum    practice.Summary
	lost   string // what is kept in no file, and why; empty if all is
	saved  string // what came of saving it elsewhere; empty if that was not asked for
}

// newEnding sums up the session, which is closed already.
func newEnding(a *app, failed error) screen {
	return &ending{failed: failed, sum: practice.SumUp(&a.App), lost: a.Unkept()}
}

func (e *ending) keys(a *app) []key.Binding {
	out := []key.Binding{keyLeave}
	if e.lost != "" {
		out = append(out, keySave)
	}
	out = append(out, labelled(keyGoOn, "back to today"))
	if len(e.sum.Missed) > 0 {
		out = append(out, labelled(keyAll, "weak spots"))
	}
	return out
}

func (e *ending) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	press, ok := msg.(tea.KeyPressMsg)
	switch {
	case ok && key.Matches(press, keyLeave):
		return e, a.leave()
	case ok && key.Matches(press, keyGoOn):
		if err := a.Begin(a.Called); err != nil {
			a.said = practice.Sentence(err.Error())
			return e, nil
		}
		return &today{}, nil
	case ok && key.Matches(press, keySave) && e.lost != "":
		return newSaving(a, e), nil
	case ok && key.Matches(press, keyAll) && len(e.sum.Missed) > 0:
		return newWeak(a), nil
	}
	return e, nil
}

func (e *ending) view(a *app, b *body) {
	th := a.theme
	b.say(th.Strong, "Done for now")
	b.gap()
	if e.failed != nil {
		b.say(th.Wrong, "✗ "+practice.Sentence(e.failed.Error()))
		b.gap()
	}
	switch {
	case e.lost != "":
		b.say(th.Wrong, "✗ "+e.lost)
		b.gap()
	case e.saved != "":
		b.say(th.Right, "✓ "+e.saved)
		b.gap()
	}
	b.say(th.Text, e.sum.Counted().Screen())
	widest := 0
	for _, d := range e.sum.Drills {
		widest = max(widest, ansi.StringWidth(d.Title))
	}
	for _, d := range e.sum.Drills {
		counts := "  " + d.Counted().Screen()
		before := pad(d.Title, widest+2)
		if widest+2+len(counts) >= b.col { // no room for an answer beside it: below, set in
			b.say(th.Text, d.Title)
			before = "  "
		}
		marks := answerMarks(th, d.Results, b.col-ansi.StringWidth(before)-len(counts))
		b.add(th.Text.Render(before) + marks + th.Quiet.Render(counts))
	}
	for _, part := range e.sum.Parts() {
		b.gap()
		b.say(th.Quiet, part.Title)
		for _, l := range part.Lines {
			b.add(th.Text.Render(shift(2, wrap(b.col-2, l.Screen()))))
		}
	}
	b.gap()
	b.say(th.Text, e.sum.Ahead.Screen())
}

// answerMarks draws answers in the order they were given, the latest as far as there is room: a sign for
// each result.
func answerMarks(th draw.Theme, results []progress.Result, room int) string {
	var b strings.Builder
	for _, r := range results[max(0, len(results)-max(1, room)):] {
		switch r {
		case progress.Right:
			b.WriteString(th.Right.Render("●"))
		case progress.Partly:
			b.WriteString(th.Text.Render("±"))
		default:
			b.WriteString(th.Wrong.Render("○"))
		}
	}
	return b.String()
}
