package tui

import (
	"time"

	tea "charm.land/bubbletea/v2"

	"sparetone/drills"
	"sparetone/drills/inturn"
	"sparetone/drills/practice"
	"sparetone/synth"
)

// frame is how long a picture stands while something moves.
const frame = 45 * time.Millisecond

// play plays sounds in turn, instead of what sounds now. They are made ready in the background, so that
// keys go on working; of several that were asked for in haste the last is heard.
func (a *app) play(v synth.Voice, sounds []drills.Sound) tea.Cmd {
	if a.Setup.Silent {
		return nil
	}
	a.calls++
	a.Sounding, a.made = nil, nil
	call, a4 := a.calls, a.Settings.A4
	return func() tea.Msg {
		sound, err := inturn.Render(v, sounds, a4)
		return readyMsg{call, sound, sounds, err}
	}
}

// playSong plays a song, instead of what sounds now. It is made ready in the background.
func (a *app) playSong(song func() (*synth.Sound, error)) tea.Cmd {
	if a.Setup.Silent {
		return nil
	}
	a.calls++
	a.Sounding, a.made = nil, nil
	call := a.calls
	return func() tea.Msg {
		sound, err := song()
		return readyMsg{call: call, sound: sound, err: err}
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
	if !a.Speaker.Playing() {
		return nil
	}
	return tea.Batch(a.move(), a.part(partMsg{msg.call, msg.sounds, 0}))
}

// part says which of some sounds in turn begins now, and asks to be told of the next one.
func (a *app) part(msg partMsg) tea.Cmd {
	if msg.call != a.calls {
		return nil
	}
	a.Sounding, a.made = nil, nil
	if msg.begins == len(msg.sounds) {
		return nil
	}
	if !a.Deviceless { // else it waits for a device, and nothing sounds
		a.Sounding = &msg.sounds[msg.begins]
	}
	lasts := inturn.Lasts(msg.sounds[msg.begins:][:1])
	msg.begins++
	return tea.Tick(lasts, func(time.Time) tea.Msg { return msg })
}

// hush stops what sounds and what is about to.
func (a *app) hush() {
	a.calls++
	a.Sounding, a.made = nil, nil
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
