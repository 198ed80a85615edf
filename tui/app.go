// Package tui is the full screen: it draws the pages of tui/page, a block a file, and finds their acts by keys and clicks.
// It holds no musical knowledge, and no way from one place to another.
package tui

import (
	"context"
	"errors"
	"io"
	"time"

	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/theory/say"
	"sparetone/tui/draw"
	"sparetone/tui/page"
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

// app is the root model: the place that shows, and how it is seen.
type app struct {
	*page.Walk
	sight
	dark          bool
	coloured      string // the setting of colours as it was applied last
	profile       colorprofile.Profile
	width, height int
	place         page.Place
	made          *page.Page // the place's page; nil if it has to be made anew
	field         field      // what is typed
	typing        bool       // letters go to the field: they are no keys
	wrong         say.Text   // what is wrong with what was typed
	note          say.Text   // a word that stays as long as the place does
	said          say.Text   // a word on the last key; gone with the next
	help          bool
	away          bool // the program ends or is paused: nothing stays on the screen
	scroll        int  // lines of the screen that have gone up out of sight
	turned        bool // the last key has scrolled: what else has to be in sight need not be
	calls         int  // to play, so far
	moving        bool // a tick is under way
	shown         laid // as it was drawn last
}

func newApp(p practice.App) *app {
	a := &app{Walk: page.NewWalk(p), sight: sight{levels: p.Speaker.Levels}, dark: true, profile: colorprofile.TrueColor, width: 80, height: 24}
	a.apply(a.Start())
	return a
}

// applyTheme chooses the colours for the terminal and the student.
func (a *app) applyTheme() {
	dark, profile := a.dark, a.profile
	a.coloured = a.Settings.Colours
	switch a.Settings.Colours {
	case "dark", "light":
		dark = a.Settings.Colours == "dark"
	case "none":
		profile = colorprofile.Ascii
	}
	a.theme = draw.NewTheme(dark, profile)
}

// The messages of the program's own.
type (
	leaveMsg struct{} // the program is to end
	tickMsg  struct{} // something may have moved
	soundMsg struct{} // the speaker's state has changed
	readyMsg struct { // a sound can be played
		call  int // to play that it comes of
		sound *synth.Sound
		err   error
	}
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
	case readyMsg:
		return a, a.ready(msg)
	case tickMsg:
		a.moving = false
		a.phase++
		return a, a.move()
	case tea.MouseClickMsg:
		if means, ok := at(a.shown.spots, msg.X, msg.Y); ok && msg.Button == tea.MouseLeft {
			return a.Update(means)
		}
	case tea.MouseWheelMsg:
		return a.Update(pressed(map[bool]string{true: "up", false: "down"}[msg.Button == tea.MouseWheelUp]))
	case tea.PasteMsg:
		if a.typing {
			a.enter(msg)
		}
	case tea.KeyPressMsg:
		return a, a.press(msg)
	case chosenMsg, cellMsg, fingerMsg:
		a.typing = a.typing && a.fieldBlock().Stays // a click is no word of what is typed
		return a, a.apply(a.point(msg))
	}
	return a, nil
}

// page is the page of the place as it is now.
func (a *app) page() *page.Page {
	if a.made == nil {
		p := a.place.Page(a.Walk)
		a.made = &p
	}
	return a.made
}

// apply does what comes of an act.
func (a *app) apply(next page.Next) tea.Cmd {
	if next.Hush {
		a.hush()
	}
	a.made = nil
	if next.To != nil && next.To != a.place {
		a.goTo(next.To)
	} else if next.Anew {
		a.top()
	}
	switch {
	case next.Said.IsZero() || next.Aloud:
	case next.Stays:
		a.note = next.Said
		a.bottom()
	case next.Wrong:
		a.wrong = next.Said
	default:
		a.said = next.Said
	}
	a.left, a.still = a.Settings.Left, a.Settings.Still
	if a.Settings.Colours != a.coloured {
		a.applyTheme()
	}
	if next.Ends {
		a.away = true
		return tea.Quit
	}
	if len(next.Sounds) == 0 {
		return a.move()
	}
	return a.play(next.Voice, next.Sounds)
}

// goTo shows a place from its first line.
func (a *app) goTo(place page.Place) {
	a.place, a.note, a.wrong, a.typing = place, say.Text{}, say.Text{}, false
	a.top()
	if f := a.fieldBlock(); f.Open {
		a.openField(f, true)
	}
}

// press does what a key does.
func (a *app) press(msg tea.KeyPressMsg) tea.Cmd {
	a.said, a.turned = say.Text{}, false
	key := msg.String()
	switch {
	case key == "ctrl+z":
		a.hush()
		a.away = true
		return tea.Suspend
	case a.shown.more && (more.Hit(key) || before.Hit(key) || (a.help || !a.lists()) && arrows.Hit(key)):
		a.turn(key)
	case a.help && key != "ctrl+c":
		a.help = false
		a.top()
	case key == "?":
		a.help = true
		a.top()
	case a.typing && len(key) == 1 || a.typing && a.fills(key):
		return a.enters(msg)
	default:
		for _, acts := range [...]func() []page.Act{a.acts, func() []page.Act { return a.Everywhere(a.place) }} {
			for _, act := range acts() {
				if act.Hit(key) && act.Do != nil {
					return a.apply(act.Do(""))
				}
			}
		}
		return a.apply(a.over(key))
	}
	return nil
}

// lists reports whether the page itself goes up and down.
func (a *app) lists() bool {
	for _, act := range a.acts() {
		if act.Hit("up") {
			return true
		}
	}
	return false
}

// turn moves what can be seen of a screen that is too long: in a list the mark, as long as there is somewhere
// to move it.
func (a *app) turn(key string) {
	by := max(1, a.height-4)
	if arrows.Hit(key) {
		by = 1
	}
	if key == "up" || before.Hit(key) {
		by = -by
	}
	if list := a.shown.list; list != nil && list.page(by) {
		a.made, a.moved = nil, true
		return
	}
	a.scroll, a.turned = max(0, a.shown.scroll+by), true
}

// bottom shows a screen to its last line, where something was said.
func (a *app) bottom() { a.scroll, a.turned = 1<<16, true }

// top shows what is new on a screen from its first line.
func (a *app) top() { a.scroll, a.turned, a.moved = 0, false, false }

// soundChanged takes up that the device opened, failed or came back.
func (a *app) soundChanged() tea.Cmd {
	return a.apply(a.Walk.SoundChanged(a.place))
}

// play plays sounds in turn, instead of what sounds now. They are made ready in the background, so that
// keys go on working; of several that were asked for in haste the last is heard.
func (a *app) play(v synth.Voice, sounds []drills.Sound) tea.Cmd {
	if a.Setup.Silent {
		return nil
	}
	a.calls++
	call, a4 := a.calls, a.Settings.A4
	return func() tea.Msg {
		sound, err := practice.Render(v, sounds, a4)
		return readyMsg{call, sound, err}
	}
}

// ready plays a sound that was made ready, if nothing else was asked for since.
func (a *app) ready(msg readyMsg) tea.Cmd {
	switch {
	case msg.call != a.calls:
		return nil
	case msg.err != nil:
		a.said = practice.SentenceOf(msg.err)
		return nil
	}
	a.Speaker.Play(msg.sound)
	return a.move()
}

// hush stops what sounds and what is about to.
func (a *app) hush() {
	a.calls++
	a.Speaker.Stop()
}

// move asks for the next picture while something sounds, and only then.
func (a *app) move() tea.Cmd {
	if a.moving || a.still || !a.Speaker.Playing() {
		return nil
	}
	a.moving = true
	return tea.Tick(frame, func(time.Time) tea.Msg { return tickMsg{} })
}
