package practice

import (
	"sparetone/synth/capture"
	"sparetone/theory/say"
)

// Listens reports whether the microphone is switched on.
func (p *App) Listens() bool {
	if p.Microphone == nil {
		return false
	}
	s, _ := p.Microphone.State()
	return s != capture.Off
}

// Listen switches the microphone on or off, for as long as the program runs. What was heard and not taken is dropped when it is
// switched off. It does nothing where there is none.
func (p *App) Listen(on bool) {
	switch {
	case p.Microphone == nil:
	case on:
		p.Microphone.On()
	default:
		p.Microphone.Off()
	}
}

// ListeningWords say how the microphone stands; they are zero if it is off.
func (p *App) ListeningWords() say.Text {
	if p.Microphone == nil {
		return say.Text{}
	}
	switch s, f := p.Microphone.State(); s {
	case capture.Opening:
		return say.Of("The microphone opens.")
	case capture.Listening:
		return say.Of("Listening.")
	case capture.Deaf:
		return say.Of("Not listening: {}. It tries again.", say.Said(f))
	}
	return say.Text{}
}

// Came returns a channel that receives when the microphone has heard something; nil where there is none.
func (p *App) Came() <-chan struct{} {
	if p.Microphone == nil {
		return nil
	}
	return p.Microphone.Came()
}

// HearingChanged returns a channel that receives when the microphone stands another way; nil where there is none.
func (p *App) HearingChanged() <-chan struct{} {
	if p.Microphone == nil {
		return nil
	}
	return p.Microphone.Changed()
}
