package playback

import (
	"sync"
	"time"

	"github.com/gopxl/beep/v2"
)

const (
	patience     = time.Second     // how long a device may take no sound, and when one is asked for again to play
	lookEvery    = 2 * time.Second // how often one is looked for where there is none
	giveUpAfter  = 10 * time.Second
	watchEvery   = 50 * time.Millisecond
	restAfter    = 15 * time.Second // of silence; a device that rests costs no processor time
	restingWatch = time.Second
)

// deviceSpeaker plays on the machine's sound device. It survives having none: nothing then sounds, and the device is
// looked for until there is one.
type deviceSpeaker struct {
	mix    *mixer
	find   func(*mixer) (device, error)
	closed chan struct{} // closed by Close

	mu      sync.Mutex
	state   State
	reason  string
	changed chan struct{}

	device  device
	asked   time.Time     // when the device was last asked for
	opening bool          // it has been asked for and has not answered
	hangs   bool          // it has not answered for too long
	attempt int           // how many times it was asked for: only the last one counts
	volume  float64       // 0 to 1
	wanted  beep.Streamer // what to play once the device is open; else nil
	resting bool          // nothing has sounded for a while
}

// Open returns a speaker on the machine's device, which opens in the background. Where there is none, or it
// goes, State says so and why, and it is looked for again. Volume is 0 to 1.
func Open(volume float64) Speaker { return openSpeaker(volume, deviceBuffer, openDevice) }

// OpenSteady opens a speaker as Open does, that has so much sound lie with the device: what is asked for comes later, and
// a busy machine breaks it up less, on PulseAudio; elsewhere it is the same. It is for what is only listened to while it plays.
func OpenSteady(volume float64, ahead time.Duration) Speaker {
	return openSpeaker(volume, ahead, openDevice)
}

// openSpeaker is Open with another way to find a device.
func openSpeaker(volume float64, ahead time.Duration, find func(*mixer) (device, error)) *deviceSpeaker {
	s := &deviceSpeaker{mix: &mixer{ahead: ahead}, find: find, closed: make(chan struct{}), changed: make(chan struct{}, 1)}
	s.SetVolume(volume)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.set(Opening, "")
	s.open()
	go s.watch()
	return s
}

func (s *deviceSpeaker) State() (State, string) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state, s.reason
}

func (s *deviceSpeaker) Changed() <-chan struct{} { return s.changed }

func (s *deviceSpeaker) Play(sound beep.Streamer) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.isClosed() {
		return
	}
	s.stop()
	if s.state == Ready {
		s.start(sound)
		return
	}
	if s.hangs {
		return
	}
	s.wanted = sound // until it is known whether there is a device
	if s.state == NoDevice && (s.opening || time.Since(s.asked) > patience) {
		s.set(Opening, "")
		s.open()
	}
}

func (s *deviceSpeaker) Stop() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.stop()
}

func (s *deviceSpeaker) Playing() bool {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state == Opening && s.wanted != nil || s.mix.playing()
}

func (s *deviceSpeaker) Levels() map[int]float64 { return s.mix.levels() }

func (s *deviceSpeaker) Volume() float64 {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.volume
}

func (s *deviceSpeaker) SetVolume(volume float64) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.volume = min(max(volume, 0), 1)
	s.mix.setGain(volumeGain(s.volume))
}

func (s *deviceSpeaker) Close() {
	s.mu.Lock()
	if s.isClosed() {
		s.mu.Unlock()
		return
	}
	s.stop()
	close(s.closed)
	d := s.device
	s.mu.Unlock()
	if d == nil {
		return
	}
	for range 40 {
		if s.mix.quiet() {
			break
		}
		time.Sleep(5 * time.Millisecond)
	}
	time.Sleep(s.mix.ahead) // what was taken last is heard as well
	d.close()
}

func (s *deviceSpeaker) isClosed() bool {
	select {
	case <-s.closed:
		return true
	default:
		return false
	}
}

func (s *deviceSpeaker) start(sound beep.Streamer) {
	s.resting = false
	s.mix.play(sound)
	s.device.wake()
}

func (s *deviceSpeaker) stop() {
	s.wanted = nil
	s.mix.stop()
}

// open asks for the device in the background. An attempt that has not come back is waited for, unless it takes too
// long: libasound may wait for ever for a server that has gone.
func (s *deviceSpeaker) open() {
	if s.opening && time.Since(s.asked) < giveUpAfter {
		return
	}
	s.asked = time.Now()
	s.opening, s.hangs = true, false
	s.attempt++
	go func(attempt int) {
		late := time.AfterFunc(openPatience(), func() { s.late(attempt) })
		d, err := s.find(s.mix)
		late.Stop()
		s.opened(attempt, d, err)
	}(s.attempt)
}

// late says that a device takes too long to open. It may still do so.
func (s *deviceSpeaker) late(attempt int) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.opening && attempt == s.attempt {
		s.hangs = true
		s.lose("the sound device does not open")
	}
}

// opened takes a device into use that has opened.
func (s *deviceSpeaker) opened(attempt int, d device, err error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.isClosed() || attempt != s.attempt {
		if err == nil {
			d.close() // it came too late to be of interest
		}
		return
	}
	s.opening, s.hangs = false, false
	if err != nil {
		s.lose("no device opens")
		return
	}
	s.device, s.resting = d, false
	s.asked = time.Time{} // should this device go, another is looked for at once
	s.set(Ready, "")
	if sound := s.wanted; sound != nil {
		s.wanted = nil
		s.start(sound)
	} else {
		d.wake()
	}
}

// watch notices when the device fails, or takes no sound though there is some, and lets it rest when nothing has
// sounded for a while. Where there is no device it looks for one. A server that hangs is noticed only by that it
// takes nothing.
func (s *deviceSpeaker) watch() {
	var still, silent time.Duration
	last := 0
	every := watchEvery
	for {
		select {
		case <-s.closed:
			return
		case <-time.After(every):
		}
		s.mu.Lock()
		d := s.device
		s.mu.Unlock()
		var failed error
		if d != nil {
			failed = d.err() // it may take its time
		}
		s.mu.Lock()
		taken := s.mix.progress()
		still, silent = still+watchEvery, silent+every
		if taken != last || !s.mix.playing() {
			still = 0
		}
		if s.mix.playing() {
			silent = 0
		}
		last = taken
		switch {
		case s.device == nil:
			still, silent = 0, 0
			if s.state == NoDevice && time.Since(s.asked) > lookEvery {
				s.open()
			}
		case s.device != d: // another one since it was asked
		case failed != nil:
			s.lose(failed.Error())
		case still >= patience:
			s.lose("the sound device takes no sound")
		case silent >= restAfter && !s.resting:
			s.resting = true
			d.rest()
		}
		every = watchEvery
		if s.resting {
			every = restingWatch
		}
		s.mu.Unlock()
	}
}

// lose records that there is no device, and why.
func (s *deviceSpeaker) lose(reason string) {
	if s.device != nil {
		go s.device.close()
	}
	s.device, s.resting = nil, false
	s.wanted = nil
	s.mix.drop()
	if s.state != NoDevice { // it may only have been looked for in vain once more
		s.set(NoDevice, reason)
	}
}

func (s *deviceSpeaker) set(state State, reason string) {
	s.state, s.reason = state, reason
	select {
	case s.changed <- struct{}{}:
	default:
	}
}
