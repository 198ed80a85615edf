package tui

import (
	"slices"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/tui/draw"
)

// fingers enters a shape by setting fingers on a neck; every change sounds.
type fingers struct {
	fingerboard
	asked *practice.Asked
	heard bool // there is sound
}

func newFingers(a *app, q *practice.Asked) *fingers {
	f := &fingers{asked: q, heard: !a.Setup.Silent, fingerboard: newFingerboard(a.Session.On().Tuning, nil)}
	if q.Shown != nil {
		f.fingerboard = newFingerboard(q.Shown.Tuning, q.Shown.Shape)
	}
	return f
}

func (f *fingers) typing() bool   { return false }
func (f *fingers) pictures() bool { return true }

func (f *fingers) keys() []key.Binding {
	out := append([]key.Binding{labelled(keyGoOn, "answer")}, f.fingerboard.keys()...)
	if f.heard {
		out = append(out, keyMine)
	}
	return out
}

func (f *fingers) update(a *app, msg tea.Msg) (string, bool, tea.Cmd) {
	if press, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case key.Matches(press, keyGoOn):
			if a.said = f.missing(); a.said != "" {
				return "", false, nil
			}
			return f.shape.String(), true, nil
		case key.Matches(press, keyMine):
			return "", false, a.play(f.asked.Voice, drills.Once(synth.Strum, drills.SoundingsOf(f.tuning, f.shape))...)
		}
	}
	at := f.at
	changed, _ := f.fingerboard.update(a, msg)
	if m, ok := msg.(fingerMsg); ok {
		at = len(f.shape) - m.string
	}
	if changed {
		return "", false, a.play(f.asked.Voice, f.pluck(at)...)
	}
	return "", false, nil
}

// missing says what has to be done before there is an answer, empty if it is done: enter alone, as it goes on
// elsewhere, is none.
func (f *fingers) missing() string {
	switch from := f.asked.Shown; {
	case from != nil && slices.Equal(f.shape, from.Shape):
		return "Move one string first."
	case !f.touched:
		return "Set your fingers first; 0 is an open string."
	}
	return ""
}

func (f *fingers) view(a *app, b *body) {
	f.fingerboard.view(a, b, draw.Neck{Voicing: drills.Unheard(f.tuning, f.shape)})
	b.gap()
	b.add(middle(b.col, a.theme.Text.Render(f.shape.String())))
}
