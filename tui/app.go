// Package tui is what a person sees: one file a screen, one a reusable view, and the plain line mode.
// It holds no musical knowledge; it draws what a question and a verdict carry.
package tui

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/colorprofile"

	"sparetone/drills"
	"sparetone/drills/practice"
	"sparetone/synth"
	"sparetone/tui/draw"
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

// screen is one thing on the screen at a time. It owns its state, its keys and its view.
type screen interface {
	update(a *app, msg tea.Msg) (screen, tea.Cmd)
	view(a *app, b *body)
	keys(a *app) []key.Binding
}

// writing is a screen on which letters may be typed: as long as they are, they are no keys.
type writing interface{ typing() bool }

// app is the root model: the screen that shows, and what all screens share.
type app struct {
	practice.App
	theme         draw.Theme
	dark          bool
	profile       colorprofile.Profile
	width, height int
	screen        screen
	help          bool
	away          bool                   // the program ends or is paused: nothing stays on the screen
	scroll        int                    // lines of the screen that have gone up out of sight
	turned        bool                   // the last key has scrolled: what else has to be in sight need not be
	quiet         string                 // what is wrong with sound or file; empty if all is well
	said          string                 // a word on the last key; gone with the next
	phase         int                    // of the trembling
	calls         int                    // to play, so far
	moving        bool                   // a tick is under way
	shown         page                   // as it was drawn last
	own           map[string]string      // settings that were none of their choices, by id, to come back to
	levels        func() map[int]float64 // how strongly each string sounds
}

func newApp(p practice.App) *app {
	a := &app{App: p, dark: true, profile: colorprofile.TrueColor, width: 80, height: 24, own: map[string]string{}}
	a.levels = p.Speaker.Levels
	a.dress()
	a.screen = &today{}
	if p.New {
		a.screen = newWelcome(a)
	}
	return a
}

// dress chooses the colours for the terminal and the student.
func (a *app) dress() {
	switch a.Settings.Colours {
	case "dark":
		a.theme = draw.NewTheme(true, a.profile)
	case "light":
		a.theme = draw.NewTheme(false, a.profile)
	case "none":
		a.theme = draw.NewTheme(a.dark, colorprofile.Ascii)
	default:
		a.theme = draw.NewTheme(a.dark, a.profile)
	}
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
		return a, nil
	case tea.BackgroundColorMsg:
		a.dark = msg.IsDark()
		a.dress()
		return a, nil
	case tea.ColorProfileMsg:
		a.profile = msg.Profile
		a.dress()
		return a, nil
	case tea.ResumeMsg:
		a.away = false
		return a, nil
	case leaveMsg:
		return a, a.leave()
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
		return a, nil
	case tea.MouseWheelMsg:
		return a.Update(pressed(map[bool]string{true: "up", false: "down"}[msg.Button == tea.MouseWheelUp]))
	case tea.MouseMsg:
		return a, nil
	case tea.KeyPressMsg:
		a.said, a.turned = "", false
		if cmd, done := a.press(msg); done {
			return a, cmd
		}
	}
	return a, a.hand(msg)
}

// hand gives a message to the screen and takes the screen that comes of it.
func (a *app) hand(msg tea.Msg) tea.Cmd {
	was := a.screen
	var cmd tea.Cmd
	a.screen, cmd = a.screen.update(a, msg)
	if a.screen != was {
		a.top()
	}
	return cmd
}

// press does what a key does on every screen.
func (a *app) press(msg tea.KeyPressMsg) (cmd tea.Cmd, done bool) {
	w, ok := a.screen.(writing)
	letters := ok && w.typing() && !a.help
	switch {
	case key.Matches(msg, keyQuit):
		return a.leave(), true
	case key.Matches(msg, keyPause):
		a.hush()
		a.away = true
		return tea.Suspend, true
	case a.shown.more && (key.Matches(msg, keyMore, keyBefore) || (a.help || !a.lists()) && key.Matches(msg, keyUp, keyDown)):
		a.turn(msg)
		return nil, true
	case a.help:
		a.help = false
		a.top()
		return nil, true
	case letters:
		return nil, false
	case key.Matches(msg, keyHelp):
		a.help = true
		a.top()
		return nil, true
	case key.Matches(msg, keyLouder, keySofter):
		a.louder(map[bool]int{true: 1, false: -1}[key.Matches(msg, keyLouder)])
		return nil, true
	}
	return nil, false
}

// lists reports whether the screen itself goes up and down.
func (a *app) lists() bool {
	for _, k := range a.screen.keys(a) {
		if key.Matches(pressed("up"), k) {
			return true
		}
	}
	return false
}

// turn moves what can be seen of a screen that is too long: in a list the mark, as long as there is somewhere
// to move it.
func (a *app) turn(msg tea.KeyPressMsg) {
	by := max(1, a.height-4)
	if key.Matches(msg, keyUp, keyDown) {
		by = 1
	}
	if key.Matches(msg, keyUp, keyBefore) {
		by = -by
	}
	if list := a.shown.list; list != nil && list.page(by) {
		return
	}
	a.scroll, a.turned = max(0, a.shown.scroll+by), true
}

// bottom shows a screen to its last line, where something was said.
func (a *app) bottom() { a.scroll, a.turned = 1<<16, true }

// top shows what is new on a screen from its first line.
func (a *app) top() { a.scroll, a.turned = 0, false }

// louder sets the volume some tenths up or down, and keeps it.
func (a *app) louder(tenths int) {
	a.Settings.Volume = float64(min(10, max(0, int(10*a.Speaker.Volume()+0.5)+tenths))) / 10
	a.Speaker.SetVolume(a.Settings.Volume)
	a.said = fmt.Sprintf("volume %.0f of 10", 10*a.Settings.Volume)
	if err := a.Keep("volume"); err != nil {
		a.said += ", not kept: " + err.Error()
	}
}

// leave closes the session and ends the program.
func (a *app) leave() tea.Cmd {
	a.hush()
	a.end()
	a.away = true
	return tea.Quit
}

// end closes the session in the file.
func (a *app) end() {
	if err := a.Session.End(); err != nil {
		a.quiet = err.Error()
	}
}

// soundChanged takes up that the device opened, failed or came back.
func (a *app) soundChanged() tea.Cmd {
	if a.Setup.Silent {
		return nil
	}
	state, reason := a.Speaker.State()
	a.Deviceless = state == synth.NoDevice
	var err error
	if state != synth.Opening && !a.Way.Silent {
		err = a.Session.SetSilent(state == synth.NoDevice)
	}
	switch {
	case errors.Is(err, drills.ErrNothing):
		a.quiet = fmt.Sprintf("No sound (%s): %s", reason, practice.NeedsSound) // a device may still come
	case err != nil:
		a.quiet = err.Error()
	case state == synth.NoDevice:
		a.quiet = fmt.Sprintf("No sound (%s): only questions for the eye.", reason)
	case state == synth.Ready:
		a.quiet = ""
	}
	return tea.Batch(a.hand(soundMsg{}), a.move())
}

// play plays sounds in turn, instead of what sounds now. They are made ready in the background, so that
// keys go on working; of several that were asked for in haste the last is heard.
func (a *app) play(v synth.Voice, sounds ...drills.Sound) tea.Cmd {
	if len(sounds) == 0 || a.Setup.Silent {
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
		a.said = practice.Sentence(msg.err.Error())
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
	if a.moving || a.Settings.Still || !a.Speaker.Playing() {
		return nil
	}
	a.moving = true
	return tea.Tick(frame, func(time.Time) tea.Msg { return tickMsg{} })
}

func (a *app) View() tea.View {
	a.draw()
	if a.away {
		// GNU screen has no second screen unless it is told to: what stood there would stay.
		a.shown = page{}
	}
	v := tea.NewView(strings.Join(a.shown.lines, "\n"))
	v.AltScreen = true
	v.WindowTitle = "sparetone"
	v.MouseMode = tea.MouseModeCellMotion
	v.Cursor = a.shown.cursor
	return v
}

// draw lays the screen out as it is now.
func (a *app) draw() {
	if a.width < leastWidth || a.height < leastHeight {
		a.shown = tooSmall(a.width, a.height)
		return
	}
	col := column(a.width)
	head := a.head(col)
	b := newBody(col, a.height-len(head)-1)
	a.screen.view(a, b)
	if b.tight() {
		b = newBody(b.col, b.rows)
		b.small = true
		a.screen.view(a, b)
	}
	bindings, last := a.screen.keys(a), keyHelp
	if a.help {
		told := a.told(bindings, len(b.lines) > b.rows)
		b = newBody(b.col, b.rows)
		help(a, b, told)
		bindings, last = nil, labelled(keyHelp, "close")
	}
	if a.turned {
		b.keep(-1)
	}
	switch first := b.first(a.scroll); {
	case b.below(first) > 0:
		bindings = slices.Insert(bindings, min(1, len(bindings)), keyMore)
	case first > 0:
		bindings = slices.Insert(bindings, min(1, len(bindings)), keyBefore)
	}
	line, spots := foot(a.theme, b.col, append(bindings, last))
	a.shown = layOut(a.width, a.height, head, b, line, spots, a.scroll)
}

// head is what stands above a screen: the time that has gone, and below it what is wrong. A word on the last
// key stands there for as long as it is said.
func (a *app) head(col int) []string {
	b := newBody(col, max(1, a.height/3))
	switch {
	case a.said != "":
		b.say(a.theme.Quiet, a.said)
	case a.quiet != "":
		b.add(timeline(a.theme, col, a.Session.Elapsed()))
		b.say(a.theme.Quiet, a.quiet)
	default:
		b.add(timeline(a.theme, col, a.Session.Elapsed()))
	}
	return b.lines[:min(len(b.lines), b.rows)]
}
