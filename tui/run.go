package tui

import (
	"context"
	"errors"
	"io"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"

	"sparetone/drills/practice"
	"sparetone/tui/page/home"
)

// Run shows the practice until the student leaves or the context ends. Whatever way it ends, the
// terminal is left clean.
func Run(ctx context.Context, p practice.App, in io.Reader, out io.Writer) error {
	m := newApp(p)
	hurried, hurry := context.WithCancel(context.Background())
	defer hurry()
	program := tea.NewProgram(m, tea.WithContext(hurried), tea.WithInput(in), tea.WithOutput(out), tea.WithFilter(politely))
	defer context.AfterFunc(ctx, func() {
		time.AfterFunc(mostPolite, hurry)
		program.Send(leaveMsg{})
	})()
	_, err := program.Run()
	if ended := m.Close(); err == nil {
		err = ended
	}
	if errors.Is(err, tea.ErrInterrupted) || errors.Is(err, tea.ErrProgramKilled) && ctx.Err() != nil {
		return nil
	}
	return err
}

// mostPolite is how long the program may take to leave when it is told to from outside.
const mostPolite = 2 * time.Second

// politely turns an end that is none of the program's own, as of a signal, into leaving.
func politely(m tea.Model, msg tea.Msg) tea.Msg {
	if _, quits := msg.(tea.QuitMsg); quits && !m.(*app).away {
		return leaveMsg{}
	}
	return msg
}

func newApp(p practice.App) *app {
	a := &app{Walk: home.NewWalk(p), sight: sight{levels: p.Speaker.Levels}, dark: true, profile: colorprofile.TrueColor, width: 80, height: 24}
	a.apply(home.Start(a.Walk))
	return a
}

func (a *app) Init() tea.Cmd {
	return tea.Batch(tea.RequestBackgroundColor, a.listen(), a.hear(0))
}

// listen waits for the speaker to say that its state has changed.
func (a *app) listen() tea.Cmd {
	return func() tea.Msg {
		<-a.Speaker.Changed()
		return soundMsg{}
	}
}

// hearEvery is how often what the microphone heard is taken up.
const hearEvery = 50 * time.Millisecond

// hear waits for the microphone to hear something, or to stand another way.
func (a *app) hear(after time.Duration) tea.Cmd {
	came, changed := a.Came(), a.HearingChanged()
	if came == nil {
		return nil
	}
	return func() tea.Msg {
		time.Sleep(after)
		select {
		case <-came:
		case <-changed:
		}
		return heardMsg{}
	}
}

func (a *app) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		a.width, a.height = msg.Width, msg.Height
	case tea.BackgroundColorMsg:
		a.dark = msg.IsDark()
		a.applyTheme()
	case tea.ColorProfileMsg:
		a.profile = msg.Profile
		a.applyTheme()
	case tea.ResumeMsg:
		a.away = false
	case leaveMsg:
		return a, a.apply(a.Leave())
	case soundMsg:
		return a, tea.Batch(a.listen(), a.soundChanged())
	case heardMsg:
		again := a.hear(hearEvery)
		if next, taken := a.Heard(a.place); taken {
			return a, tea.Batch(again, a.apply(next))
		}
		return a, again
	case readyMsg:
		return a, a.ready(msg)
	case partMsg:
		return a, a.part(msg)
	case onwardMsg:
		return a, a.goesOn(msg)
	case tickMsg:
		a.moving = false
		a.phase++
		if place, ok := a.place.(interface{ Moves() bool }); ok && place.Moves() {
			a.made = nil
		}
		return a, a.move()
	case tea.MouseClickMsg:
		if means, ok := at(a.shown.spots, msg.X, msg.Y); ok && msg.Button == tea.MouseLeft {
			return a.Update(means)
		}
	case tea.MouseWheelMsg:
		return a.Update(pressed(map[bool]string{true: "up", false: "down"}[msg.Button == tea.MouseWheelUp]))
	case tea.PasteMsg:
		if a.typing {
			return a, a.paste(msg)
		}
	case tea.KeyPressMsg:
		return a, a.press(msg)
	case chosenMsg, cellMsg, fingerMsg:
		a.typing = a.typing && a.fieldBlock().StaysOpen // a click is no word of what is typed
		return a, a.apply(a.point(msg))
	}
	return a, nil
}

// soundChanged takes up that the device opened, failed or came back.
func (a *app) soundChanged() tea.Cmd {
	return a.apply(a.Walk.SoundChanged(a.place))
}
