package tui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/synth"
)

// Practice is what both the full screen and the plain line mode are given.
type Practice struct {
	Session *drills.Session
	Speaker *synth.Speaker
	Silent  bool    // practise by eye only, whatever the device
	A4      float64 // Hz
	Still   bool    // no movement on the screen
	Left    bool    // necks drawn for left-handed players
	Notice  string  // one line that has to be seen first; may be empty

	KeepVolume func(volume float64) // called when the student sets the volume
}

// Run shows the practice until the student leaves or the context ends. Whatever way it ends, the
// terminal is left clean.
func Run(ctx context.Context, p Practice, in io.Reader, out io.Writer) error {
	m := newApp(p)
	_, err := tea.NewProgram(m, tea.WithContext(ctx), tea.WithInput(in), tea.WithOutput(out)).Run()
	if errors.Is(err, tea.ErrInterrupted) || errors.Is(err, tea.ErrProgramKilled) && ctx.Err() != nil {
		return nil
	}
	return err
}

// screen is one thing on the screen at a time. It owns its state, its keys and its view.
type screen interface {
	update(a *app, msg tea.Msg) (screen, tea.Cmd)
	view(a *app, col, rows int) string
	keys(a *app) []key.Binding
}

// app is the root model: the screen that shows, and what all screens share.
type app struct {
	Practice
	theme         Theme
	width, height int
	screen        screen
	help          bool
	quiet         string // a quiet line about sound or file; empty if all is well
	phase         int    // of the trembling
	moving        bool   // a tick is under way
}

func newApp(p Practice) *app {
	a := &app{Practice: p, theme: NewTheme(true), width: 80, height: 24}
	a.screen = &today{}
	return a
}

// The messages of the program's own.
type (
	tickMsg  struct{} // something may have moved
	soundMsg struct{} // the speaker's state has changed
)

// frame is how long a picture stands while something moves.
const frame = 45 * time.Millisecond

func (a *app) Init() tea.Cmd {
	return tea.Batch(tea.RequestBackgroundColor, a.listen())
}

// listen waits for the speaker to say that its state has changed.
func (a *app) listen() tea.Cmd {
	return func() tea.Msg {
		<-a.Speaker.Changed()
		return soundMsg{}
	}
}

func (a *app) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		a.width, a.height = msg.Width, msg.Height
		return a, nil
	case tea.BackgroundColorMsg:
		a.theme = NewTheme(msg.IsDark())
		return a, nil
	case soundMsg:
		return a, tea.Batch(a.listen(), a.soundChanged())
	case tickMsg:
		a.moving = false
		a.phase++
		return a, a.move()
	case tea.KeyPressMsg:
		if cmd, done := a.press(msg); done {
			return a, cmd
		}
	}
	var cmd tea.Cmd
	a.screen, cmd = a.screen.update(a, msg)
	return a, cmd
}

// press does what a key does on every screen.
func (a *app) press(msg tea.KeyPressMsg) (cmd tea.Cmd, done bool) {
	switch {
	case key.Matches(msg, keyQuit):
		return a.leave(), true
	case a.help:
		a.help = false
		return nil, true
	case key.Matches(msg, keyHelp):
		a.help = true
		return nil, true
	case key.Matches(msg, keyLouder, keySofter):
		step := 0.1
		if key.Matches(msg, keySofter) {
			step = -step
		}
		a.Speaker.SetVolume(a.Speaker.Volume() + step)
		if a.KeepVolume != nil {
			a.KeepVolume(a.Speaker.Volume())
		}
		a.quiet = fmt.Sprintf("volume %.0f of 10", 10*a.Speaker.Volume())
		return nil, true
	}
	return nil, false
}

// leave closes the session and ends the program.
func (a *app) leave() tea.Cmd {
	a.Speaker.Stop()
	if err := a.Session.End(); err != nil {
		a.quiet = err.Error()
	}
	return tea.Quit
}

// soundChanged takes up that the device opened, failed or came back.
func (a *app) soundChanged() tea.Cmd {
	state, reason := a.Speaker.State()
	switch {
	case a.Silent:
		return nil
	case state == synth.NoDevice:
		a.quiet = fmt.Sprintf("No sound (%s): only questions for the eye.", reason)
		if err := a.Session.SetSilent(true); err != nil {
			a.quiet = err.Error()
		}
	case state == synth.Ready:
		a.quiet = ""
		if err := a.Session.SetSilent(false); err != nil {
			a.quiet = err.Error()
		}
	}
	var cmd tea.Cmd
	a.screen, cmd = a.screen.update(a, soundMsg{})
	return tea.Batch(cmd, a.move())
}

// soundGap is the silence between two sounds that are heard in turn.
const soundGap = 350 * time.Millisecond

// play plays sounds in turn, instead of what sounds now.
func (a *app) play(v *synth.Voice, sounds ...drills.Sound) tea.Cmd {
	if len(sounds) == 0 {
		return nil
	}
	sound, err := render(a.Practice, v, sounds)
	if err != nil {
		a.quiet = err.Error()
		return nil
	}
	a.Speaker.Play(sound)
	return a.move()
}

// render makes sounds in turn audible.
func render(p Practice, v *synth.Voice, sounds []drills.Sound) (*synth.Sound, error) {
	scores := make([]synth.Score, len(sounds))
	for i, s := range sounds {
		scores[i] = s.Score
	}
	return synth.Render(synth.Then(soundGap, scores...), v, synth.Options{A4: p.A4})
}

// move asks for the next picture while something sounds, and only then.
func (a *app) move() tea.Cmd {
	if a.moving || a.Still || !a.Speaker.Playing() {
		return nil
	}
	a.moving = true
	return tea.Tick(frame, func(time.Time) tea.Msg { return tickMsg{} })
}

func (a *app) View() tea.View {
	v := tea.NewView(a.text())
	v.AltScreen = true
	v.WindowTitle = "sparetone"
	return v
}

func (a *app) text() string {
	if a.width < leastWidth || a.height < leastHeight {
		return tooSmall(a.width, a.height)
	}
	col, rows := column(a.width), a.height-2
	body := a.screen.view(a, col, rows)
	bindings := a.screen.keys(a)
	if a.help {
		body = a.theme.Strong.Render("What the keys do here") + "\n\n" + helpText(a.theme, append(bindings, keyLouder, keySofter, keyHelp, keyQuit))
	}
	head := a.theme.Quiet.Render(a.quiet)
	if a.quiet == "" {
		head = timeline(a.theme, col, a.Session.Elapsed())
	}
	return page(a.width, a.height, head, body, foot(a.theme, col, append(bindings, keyHelp)))
}
