package tui

import (
	"sync"

	"github.com/gopxl/beep/v2"

	"sparetone/synth/playback"
)

// fakeSpeaker is a speaker without a device: a test says how it stands and sees what was played. Its zero value is
// ready to play, and each sound has ended at once.
type fakeSpeaker struct {
	mu      sync.Mutex
	state   playback.State // less Ready
	reason  string
	changed chan struct{}
	sounds  []beep.Streamer // that were played, in turn
	heard   []beep.Streamer // of these, while there was a device
	stops   int
	volume  float64
}

// turn changes how the speaker stands and tells it.
func (f *fakeSpeaker) turn(state playback.State, reason string) {
	f.mu.Lock()
	f.state, f.reason = state-playback.Ready, reason
	f.mu.Unlock()
	f.Changed()
	select {
	case f.changed <- struct{}{}:
	default:
	}
}

// played is how many sounds were played.
func (f *fakeSpeaker) played() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return len(f.sounds)
}

func (f *fakeSpeaker) State() (playback.State, string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.state + playback.Ready, f.reason
}

func (f *fakeSpeaker) Changed() <-chan struct{} {
	f.mu.Lock()
	defer f.mu.Unlock()
	if f.changed == nil {
		f.changed = make(chan struct{}, 1)
	}
	return f.changed
}

func (f *fakeSpeaker) Play(sound beep.Streamer) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.sounds = append(f.sounds, sound)
	if f.state+playback.Ready == playback.Ready {
		f.heard = append(f.heard, sound)
	}
}

func (f *fakeSpeaker) Stop() {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.stops++
}

func (f *fakeSpeaker) Volume() float64 {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.volume
}

func (f *fakeSpeaker) SetVolume(volume float64) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.volume = volume
}

func (f *fakeSpeaker) Playing() bool           { return false }
func (f *fakeSpeaker) Levels() map[int]float64 { return nil }
func (f *fakeSpeaker) Close()                  {}
