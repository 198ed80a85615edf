package synth

import (
	"slices"
	"sync"
	"time"

	"github.com/ebitengine/oto/v3"
	"github.com/gopxl/beep/v2"
)

// State is how a speaker stands with the sound device.
type State int

// A speaker is opening its device, ready to play, or without one.
const (
	Opening State = iota
	Ready
	NoDevice
)

// StartVolume is the volume to begin with: quiet, 12.5 dB below the loudest.
const StartVolume = 0.5

// volumeRange is how many dB lie below the loudest, for a volume of next to nothing.
const volumeRange = 25.0

const (
	deviceBuffer = 16 * time.Millisecond  // how much sound lies with the device; with 10 it breaks up on a busy machine
	playerBuffer = 100 * time.Millisecond // how much is rendered ahead of it
	patience     = time.Second            // how long it may take no sound, and when it may be asked for again
	lookAgain    = 10 * time.Second       // when it is asked for again though there is nothing to play
	watchEvery   = 50 * time.Millisecond
	restAfter    = 15 * time.Second // of silence; a device that rests costs no processor time
	restingWatch = time.Second
)

// Speaker plays one sound at a time on the machine's sound device. Its methods may be called from any
// goroutine and return at once, but for Close. It survives having no device: nothing then sounds, State
// says so and why, and the next Play looks for the device again.
type Speaker struct {
	mu      sync.Mutex
	state   State
	reason  string
	changed chan struct{}
	closed  bool

	context *oto.Context
	asked   time.Time // when the device was last asked for
	opening bool      // it has been asked for and has not answered
	attempt int       // how many times it was asked for: only the last one counts
	unhush  func()    // gives standard error back, which is kept from the device while it opens
	volume  float64
	now     *track        // what sounds, or sounded last; nil after a stop
	wanted  beep.Streamer // what to play once the device is open; else nil
	fading  []*oto.Player // kept until they are silent
	resting bool          // nothing has sounded for a while, and the device is suspended
}

// OpenSpeaker returns a speaker whose device opens in the background. Volume is 0 to 1.
func OpenSpeaker(volume float64) *Speaker {
	s := &Speaker{changed: make(chan struct{}, 1), volume: volume}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.open()
	return s
}

// State returns how the speaker stands, and if it has no device, why, in plain words.
func (s *Speaker) State() (State, string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state, s.reason
}

// Changed returns a channel that receives after the state has changed. Several changes may be one
// receipt.
func (s *Speaker) Changed() <-chan struct{} { return s.changed }

// Play plays a sound from its beginning, instead of whatever sounds, whose end is faded and not cut.
// While the device opens, the last sound asked for waits. The sound must not be read or sought by
// others until it has ended or another is played.
func (s *Speaker) Play(sound beep.Streamer) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed {
		return
	}
	s.stop()
	s.look(patience)
	switch s.state {
	case Ready:
		s.start(sound)
	case Opening:
		s.wanted = sound
	}
}

// Look looks for a device where there was none for a while, so that one that came back is noticed though
// nothing was to be played.
func (s *Speaker) Look() {
	s.mu.Lock()
	defer s.mu.Unlock()
	if !s.closed {
		s.look(lookAgain)
	}
}

// look asks for a device if there is none, and none was asked for so recently. One that still does not open is given
// up after a while: libasound may wait for ever for a server that has gone.
func (s *Speaker) look(since time.Duration) {
	if s.opening {
		since = lookAgain
	}
	if s.state == NoDevice && time.Since(s.asked) > since {
		s.open()
	}
}

// Stop silences what sounds, at once but with a fade of a few milliseconds.
func (s *Speaker) Stop() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.stop()
}

// Playing reports whether a sound is still sounding, or waits for the device to open.
func (s *Speaker) Playing() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.wanted != nil || s.now != nil && s.now.player.IsPlaying()
}

// Levels returns how strongly each string sounds now, by string number, above 0 up to 1. Strings that
// are still are not in it.
func (s *Speaker) Levels() map[int]float64 {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.now == nil || !s.now.player.IsPlaying() {
		return nil
	}
	l, ok := s.now.sound.(interface {
		Levels(time.Duration) map[int]float64
	})
	if !ok {
		return nil
	}
	return l.Levels(s.now.heard())
}

// Volume returns the volume, 0 to 1.
func (s *Speaker) Volume() float64 {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.volume
}

// SetVolume sets the volume, 0 (silence) to 1, also of what sounds now. Each tenth is 2.5 dB.
func (s *Speaker) SetVolume(volume float64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.volume = min(max(volume, 0), 1)
	if s.now != nil {
		s.now.player.SetVolume(s.gain())
	}
}

// Close stops what sounds, waits up to a fifth of a second until it has faded, and lets the device go.
func (s *Speaker) Close() {
	s.mu.Lock()
	s.stop()
	s.closed = true
	context, fading := s.context, s.fading
	s.unhush()
	s.mu.Unlock()
	for range 40 {
		if !slices.ContainsFunc(fading, (*oto.Player).IsPlaying) {
			break
		}
		time.Sleep(playerBuffer / 20)
	}
	if context != nil {
		_ = context.Suspend() // what is wrong with a device that is let go is no longer of interest
	}
}

// gain turns the volume, in equal steps for the ear, into a factor.
func (s *Speaker) gain() float64 {
	if s.volume == 0 {
		return 0
	}
	return decibels((s.volume - 1) * volumeRange)
}

func (s *Speaker) start(sound beep.Streamer) {
	if seeker, ok := sound.(beep.StreamSeeker); ok {
		_ = seeker.Seek(0) // a sound that cannot is played from where it is
	}
	if s.resting {
		s.resting = false
		if s.context.Resume() != nil {
			s.lose("the sound device does not come back")
			return
		}
	}
	t := &track{sound: sound}
	t.player = s.context.NewPlayer(t)
	t.player.SetBufferSize(SampleRate.N(playerBuffer) * frameBytes)
	t.player.SetVolume(s.gain())
	t.player.Play()
	s.now = t
}

func (s *Speaker) stop() {
	s.wanted = nil
	s.fading = slices.DeleteFunc(s.fading, func(p *oto.Player) bool { return !p.IsPlaying() })
	if s.now == nil {
		return
	}
	// What the player holds is faded by oto from one volume to the next; then it runs dry.
	s.now.end()
	s.now.player.SetVolume(0)
	s.fading = append(s.fading, s.now.player)
	s.now = nil
}

// open asks for the device in the background.
func (s *Speaker) open() {
	s.asked = time.Now()
	s.opening = true
	s.attempt++
	s.set(Opening, "")
	if s.unhush != nil {
		s.unhush() // of an attempt that was given up
	}
	s.unhush = sync.OnceFunc(hushStderr())
	go func(attempt int, unhush func()) {
		late := time.AfterFunc(openPatience(), func() { s.late(attempt) })
		context, err := openDevice()
		late.Stop()
		unhush()
		if s.opened(attempt, context, err) {
			s.watch(context)
		}
	}(s.attempt, s.unhush)
}

// late says that a device takes too long to open. It may still do so.
func (s *Speaker) late(attempt int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.opening && attempt == s.attempt {
		s.lose("the sound device does not open")
	}
}

// openDevice opens the machine's sound device, or says why that cannot be.
func openDevice() (*oto.Context, error) {
	if err := deviceMissing(); err != nil {
		return nil, err
	}
	otoContextCreated = false
	context, ready, err := oto.NewContext(&oto.NewContextOptions{
		SampleRate: int(SampleRate), ChannelCount: 2, Format: oto.FormatFloat32LE,
		BufferSize: deviceBuffer, ApplicationName: "sparetone",
	})
	if err != nil {
		return nil, err
	}
	<-ready
	return context, context.Err()
}

// opened takes a device into use that has opened, and reports whether it has.
func (s *Speaker) opened(attempt int, context *oto.Context, err error) bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.closed || attempt != s.attempt {
		if err == nil {
			_ = context.Suspend() // it came too late to be of interest
		}
		return false
	}
	s.opening = false
	if err != nil {
		s.lose("no device opens at 48 kHz")
		return false
	}
	s.context = context
	s.asked = time.Time{} // should this device go, another may be looked for at once
	s.set(Ready, "")
	if sound := s.wanted; sound != nil {
		s.wanted = nil
		s.start(sound)
	}
	return true
}

// watch notices when the device fails, or takes no sound though there is some, and lets it rest when
// nothing has sounded for a while. A server that ends is noticed only by that: oto then reports no error.
func (s *Speaker) watch(context *oto.Context) {
	var still, silent, last time.Duration
	tick := time.NewTicker(watchEvery)
	defer tick.Stop()
	for range tick.C {
		failed := context.Err() != nil
		s.mu.Lock()
		heard := last
		silent += watchEvery
		if s.now != nil && s.now.player.IsPlaying() {
			heard = s.now.heard()
			still += watchEvery
			silent = 0
		}
		if heard != last || s.now == nil {
			still = 0
		}
		last = heard
		switch {
		case failed:
			s.lose("the sound device is gone")
		case still >= patience:
			s.lose("the sound device takes no sound")
		case silent >= restAfter && !s.resting:
			s.resting = context.Suspend() == nil
			tick.Reset(restingWatch)
		case silent == 0:
			tick.Reset(watchEvery)
		}
		done := s.closed || s.context != context
		s.mu.Unlock()
		if done {
			return
		}
	}
}

// lose records that there is no device, and why.
func (s *Speaker) lose(reason string) {
	s.stop()
	s.context, s.resting = nil, false
	s.set(NoDevice, reason)
}

func (s *Speaker) set(state State, reason string) {
	s.state, s.reason = state, reason
	select {
	case s.changed <- struct{}{}:
	default:
	}
}
