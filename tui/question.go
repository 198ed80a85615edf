package tui

import (
	"fmt"
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"charm.land/lipgloss/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/synth"
)

// question is the screen on which something is asked.
type question struct {
	asked  *drills.Asked
	cursor int
	lit    bool // the cursor shows: it was moved
	said   string
	held   bool // it waits for the sound device and was not heard yet
}

// next goes on to the next question, or to the end if the time is up.
func next(a *app) (screen, tea.Cmd) {
	asked, err := a.Session.Next()
	if err != nil {
		return &ending{failed: err}, nil
	}
	if asked == nil {
		return &ending{}, a.end()
	}
	q := &question{asked: asked}
	if state, _ := a.Speaker.State(); len(asked.Sounds) > 0 && state == synth.Opening {
		q.held = true
	}
	return q, a.play(asked.Voice, asked.Sounds...)
}

func (q *question) keys(a *app) []key.Binding {
	answer := keyAnswer
	answer.SetHelp(fmt.Sprintf("1–%d", len(q.asked.Choices)), "answer")
	out := []key.Binding{answer}
	if len(q.asked.Sounds) > 0 {
		out = append(out, keyHear, keyOpen)
	}
	return append(out, keyLeave, keyWhy)
}

func (q *question) update(a *app, msg tea.Msg) (screen, tea.Cmd) {
	switch msg := msg.(type) {
	case soundMsg:
		return q.soundChanged(a)
	case tea.KeyPressMsg:
		return q.press(a, msg)
	}
	return q, nil
}

// soundChanged begins the question's time when the device has opened at last, and puts it aside
// unrecorded when there is none: a question that was not heard is not missed.
func (q *question) soundChanged(a *app) (screen, tea.Cmd) {
	switch state, _ := a.Speaker.State(); {
	case len(q.asked.Sounds) == 0:
	case state == synth.NoDevice:
		return next(a)
	case state == synth.Ready && q.held:
		q.held = false
		a.Session.Waited()
	}
	return q, nil
}

func (q *question) press(a *app, msg tea.KeyPressMsg) (screen, tea.Cmd) {
	last := len(q.asked.Choices) - 1
	switch {
	case key.Matches(msg, keyAnswer):
		if n := int(msg.Code - '1'); n <= last {
			return q.answer(a, n)
		}
	case key.Matches(msg, keyDown):
		q.cursor, q.lit = min(last, q.cursor+step(q.lit)), true
	case key.Matches(msg, keyUp):
		q.cursor, q.lit = max(0, q.cursor-step(q.lit)), true
	case key.Matches(msg, keyGoOn):
		if q.lit {
			return q.answer(a, q.cursor)
		}
		q.said = "Choose first: press the number before an answer."
	case key.Matches(msg, keyHear) && len(q.asked.Sounds) > 0:
		a.Session.Heard()
		return q, a.play(q.asked.Voice, q.asked.Sounds...)
	case key.Matches(msg, keyOpen) && len(q.asked.Sounds) > 0:
		a.Session.Hinted()
		return q, a.play(q.asked.Voice, opened(q.asked.Sounds)...)
	case key.Matches(msg, keyWhy):
		q.said = "Why now: " + q.asked.Why + "."
	case key.Matches(msg, keyLeave):
		a.Speaker.Stop()
		return &ending{}, a.end()
	}
	return q, nil
}

// step is how far the cursor goes: it shows itself first and then moves.
func step(lit bool) int {
	if lit {
		return 1
	}
	return 0
}

func opened(sounds []drills.Sound) []drills.Sound {
	out := make([]drills.Sound, len(sounds))
	for i, s := range sounds {
		out[i] = s.Opened()
	}
	return out
}

func (q *question) answer(a *app, n int) (screen, tea.Cmd) {
	v, err := a.Session.Answer(q.asked.Choices[n].Typed)
	if err != nil && v.Result == 0 {
		q.said = err.Error()
		return q, nil
	}
	r := &reveal{asked: q.asked, verdict: v}
	if err != nil {
		r.said = err.Error()
	}
	// What still sounds may ring on: it is the question's own sound.
	return r, a.move()
}

func (q *question) view(a *app, col, rows int) string {
	small := rows < 22
	var b strings.Builder
	b.WriteString(a.theme.Strong.Render(wrap(col, q.asked.Prompt)) + "\n\n")
	if q.asked.Shown != nil {
		neck := Neck{Voicing: *q.asked.Shown, Small: small, Left: a.Left}
		b.WriteString(middle(col, neck.Render(a.theme)) + "\n\n")
	} else {
		b.WriteString(middle(col, q.strings(a, small).Render(a.theme)) + "\n\n")
	}
	b.WriteString(q.choices(a, col))
	said := q.said
	if q.held {
		said = "Waiting for the sound device."
	}
	if said != "" {
		b.WriteString("\n\n" + a.theme.Quiet.Render(wrap(col, said)))
	}
	return b.String()
}

// strings is the picture of what sounds: a line for each note in the order plucked.
func (q *question) strings(a *app, small bool) Strings {
	s := Strings{Count: len(a.Session.On().Tuning.Strings), Phase: a.phase, Small: small, Still: a.Still}
	levels := a.Speaker.Levels()
	if len(levels) == 0 {
		return s
	}
	numbers := order(q.asked.Sounds[0].Score)
	for _, n := range numbers {
		s.Levels = append(s.Levels, levels[n])
	}
	return s
}

// order lists the strings of a score in the order in which they are first plucked.
func order(s synth.Score) []int {
	plucks := slices.Clone(s.Plucks)
	slices.SortStableFunc(plucks, func(a, b synth.Pluck) int { return int(a.At - b.At) })
	var out []int
	for _, p := range plucks {
		if !slices.Contains(out, p.String) {
			out = append(out, p.String)
		}
	}
	return out
}

// choices lists the answers, each with the key that gives it.
func (q *question) choices(a *app, col int) string {
	widest := 0
	for _, c := range q.asked.Choices {
		widest = max(widest, ansi.StringWidth(c.Label))
	}
	var lines []string
	for i, c := range q.asked.Choices {
		mark, style := "  ", a.theme.Text
		if q.lit && i == q.cursor {
			mark, style = "› ", a.theme.Strong
		}
		lines = append(lines, fmt.Sprintf("%s%s  %s", mark, a.theme.Quiet.Render(fmt.Sprint(i+1)), style.Render(c.Label)))
	}
	return middle(col, lipgloss.NewStyle().Width(widest+5).Render(strings.Join(lines, "\n")))
}
