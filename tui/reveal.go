package tui

import (
	"fmt"
	"math"
	"strings"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"charm.land/lipgloss/v2"

	"sparetone/drills"
	"sparetone/progress"
)

// reveal is the screen after an answer: right or not, what it was, and why.
type reveal struct {
	asked   *drills.Asked
	verdict drills.Verdict
	said    string
	other   bool // the neck shows what was answered, not what was asked
}

var keyOther = key.NewBinding(key.WithKeys("tab"), key.WithHelp("tab", "other shape"))

func (r *reveal) keys(a *app) []key.Binding {
	out := []key.Binding{keyGoOn}
	if len(r.verdict.Asked) > 0 {
		out = append(out, keyHear)
	}
	if len(r.verdict.Other) > 0 {
		out = append(out, keyBoth)
	}
	out = append(out, keyLeave)
	if len(r.verdict.Asked) > 0 {
		out = append(out, keyOpen)
	}
	if len(r.verdict.Shapes) > 1 {
		out = append(out, keyOther)
	}
	return append(out, keyWhy)
}

func (r *reveal) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	press, ok := msg.(tea.KeyPressMsg)
	if !ok {
		return r, nil
	}
	voice, v := r.asked.Voice, r.verdict
	switch {
	case key.Matches(press, keyGoOn):
		return next(a)
	case key.Matches(press, keyHear):
		return r, a.play(voice, v.Asked...)
	case key.Matches(press, keyOpen):
		return r, a.play(voice, opened(v.Asked)...)
	case key.Matches(press, keyBoth) && len(v.Other) > 0:
		return r, a.play(voice, append(append([]drills.Sound{}, v.Asked...), v.Other...)...)
	case key.Matches(press, keyOther) && len(v.Shapes) > 1:
		r.other = !r.other
	case key.Matches(press, keyWhy):
		r.said = "Why now: " + r.asked.Why + "."
	case key.Matches(press, keyLeave):
		a.Speaker.Stop()
		return &ending{}, a.end()
	}
	return r, nil
}

func (r *reveal) view(a *app, col, rows int) string {
	small := rows < 26
	var b strings.Builder
	for i, l := range strings.Split(wrap(col, outcome(r.verdict)), "\n") {
		style := a.theme.Text
		if i == 0 {
			style = a.theme.Wrong
			if r.verdict.Result == progress.Right {
				style = a.theme.Right
			}
		}
		b.WriteString(style.Render(l) + "\n")
	}
	b.WriteString("\n")
	neck := r.neck(a, small)
	lines := append([]string{}, r.verdict.Lines...)
	if back := comesBack(r.verdict.BackIn); back != "" {
		lines = append(lines, back)
	}
	if r.said != "" {
		lines = append(lines, r.said)
	}
	text := func(width int) string {
		for i, l := range lines {
			lines[i] = wrap(width, l)
		}
		return a.theme.Text.Render(strings.Join(lines, "\n"))
	}
	if small && neck != "" {
		width := lipgloss.Width(neck)
		b.WriteString(beside(neck, text(col-width-2), 2))
		return b.String()
	}
	if neck != "" {
		b.WriteString(middle(col, neck) + "\n\n")
	}
	b.WriteString(text(col))
	return b.String()
}

// neck draws the shape that was asked, or the one that was answered.
func (r *reveal) neck(a *app, small bool) string {
	if len(r.verdict.Shapes) == 0 {
		return ""
	}
	i := len(r.verdict.Shapes) - 1
	if !r.verdict.Marked() {
		i = 0
	}
	if r.other {
		i = len(r.verdict.Shapes) - 1 - i
	}
	s := r.verdict.Shapes[i]
	drawn := Neck{Voicing: s.Voicing, Named: true, Mark: s.Mark, Small: small, Left: a.Left}.Render(a.theme)
	return a.theme.Strong.Render(s.Caption) + "\n" + drawn
}

// outcome says what came of an answer, in a word and a sign before anything else.
func outcome(v drills.Verdict) string {
	switch v.Result {
	case progress.Right:
		return "✓ Right: " + v.Given + "."
	case progress.Partly:
		return "± Partly right: " + v.Given + "; all of it: " + v.Expected + "."
	}
	return "✗ Not this time: " + v.Expected + ", not " + v.Given + "."
}

// comesBack says when something is asked again.
func comesBack(in time.Duration) string {
	switch days := math.Ceil(in.Hours() / 24); {
	case in == 0:
		return ""
	case days <= 0:
		return "It comes back today."
	case days == 1:
		return "It comes back tomorrow."
	default:
		return fmt.Sprintf("It comes back in %.0f days.", days)
	}
}
