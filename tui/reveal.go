package tui

import (
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"charm.land/lipgloss/v2"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/tui/draw"
)

// reveal is the screen after an answer: right or not, what it was, and why.
type reveal struct {
	asked   *practice.Asked
	verdict drills.Verdict
	noted   string
	turned  int // how many shapes further the neck shows than the one to look at first
}

func (r *reveal) keys(a *app) []key.Binding {
	out, heard := []key.Binding{keyGoOn}, len(r.verdict.Asked) > 0 && !a.Setup.Silent
	if heard {
		out = append(out, keyHear)
	}
	if heard && len(r.verdict.Other) > 0 {
		out = append(out, keyBoth)
	}
	out = append(out, keyLeave)
	if heard {
		out = append(out, keyOpen, keySlower)
	}
	if heard && practice.Rooted(r.verdict.Asked) {
		out = append(out, keyRoot)
	}
	if len(r.verdict.Shapes) > 1 {
		out = append(out, keyOther)
	}
	out = append(out, keyWhy)
	if len(r.verdict.Shapes) > 0 {
		out = append(out, keyTry)
	}
	return out
}

func (r *reveal) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	press, ok := msg.(tea.KeyPressMsg)
	if !ok {
		return r, nil
	}
	voice, v := r.asked.Voice, r.verdict
	switch {
	case key.Matches(press, keyGoOn):
		a.hush()
		return next(a)
	case key.Matches(press, keyHear):
		return r, a.play(voice, v.Asked...)
	case key.Matches(press, keyOpen):
		return r, a.play(voice, practice.Each(v.Asked, drills.Sound.Opened)...)
	case key.Matches(press, keyRoot) && practice.Rooted(v.Asked):
		return r, a.play(voice, practice.Each(v.Asked, drills.Sound.OpenedFromRoot)...)
	case key.Matches(press, keySlower):
		return r, a.play(voice, practice.Slower(v.Asked)...)
	case key.Matches(press, keyBoth) && len(v.Other) > 0:
		return r, a.play(voice, slices.Concat(v.Asked, v.Other)...)
	case key.Matches(press, keyOther) && len(v.Shapes) > 1:
		r.turned++
	case key.Matches(press, keyWhy):
		r.noted = practice.WhyText(r.asked).Screen()
		a.bottom()
	case key.Matches(press, keyTry) && len(v.Shapes) > 0:
		return newBench(a, r.shape().Voicing, r), nil
	case key.Matches(press, keyLeave):
		a.hush()
		a.end()
		return newEnding(a, nil), nil
	}
	return r, nil
}

func (r *reveal) view(a *app, b *body) {
	sign, came := practice.Outcome(r.verdict)
	style := a.theme.Wrong
	if r.verdict.Result == progress.Right {
		style = a.theme.Right
	}
	for i, l := range strings.Split(wrap(b.col, sign+" "+came.Screen()), "\n") {
		if i > 0 {
			style = a.theme.Text
		}
		b.add(style.Render(l))
	}
	b.gap()
	neck := r.neck(a, b.small)
	var lines []string
	for _, l := range r.verdict.Lines {
		lines = append(lines, l.Screen())
	}
	if back := practice.ComesBack(r.verdict.BackIn); !back.IsZero() {
		lines = append(lines, back.Screen())
	}
	if r.noted != "" {
		lines = append(lines, r.noted)
	}
	width := b.col
	if b.small && neck != "" {
		width -= lipgloss.Width(neck) + 2
	}
	if width < 24 { // too narrow to stand beside: below
		b.add(neck)
		b.gap()
		width, neck = b.col, ""
	}
	for i, l := range lines {
		lines[i] = wrap(width, l)
	}
	text := a.theme.Text.Render(strings.Join(lines, "\n"))
	switch {
	case neck == "":
		b.add(text)
	case b.small:
		b.add(beside(neck, text, 2))
	default:
		b.add(middle(b.col, neck))
		b.gap()
		b.add(text)
	}
}

// shape is the shape that shows: what was asked, or what was answered. Where a string of the last one is
// marked, the two are a before and an after, and the after is what was asked.
func (r *reveal) shape() drills.Reveal {
	i, last := 0, len(r.verdict.Shapes)-1
	if r.verdict.Marked() {
		i = last
	}
	return r.verdict.Shapes[(i+r.turned)%len(r.verdict.Shapes)]
}

func (r *reveal) neck(a *app, small bool) string {
	if len(r.verdict.Shapes) == 0 {
		return ""
	}
	s := r.shape()
	drawn := draw.Neck{Voicing: s.Voicing, Named: true, Mark: s.Mark, Small: small, Left: a.Settings.Left}.Render(a.theme)
	return a.theme.Strong.Render(s.Caption.Screen()) + "\n" + drawn
}
