package playback

import (
	"sync"
	"time"

	"sparetone/synth"

	"github.com/gopxl/beep/v2"
)

// mixer is what a device plays: one sound, and the faded ends of those it took the place of. It lasts as long as
// its speaker, whatever devices come and go, and holds nothing of a sound that has ended.
type mixer struct {
	ahead  time.Duration // how much of what it makes lies with the device
	mu     sync.Mutex
	sound  beep.Streamer // nil if none sounds
	frames int           // of the sound that were taken
	taken  int           // frames that were taken in all
	silent int           // frames of silence since something sounded
	gain   float64       // what the sound is multiplied by now
	wanted float64       // what gain goes to, so that a change does not click
	tail   [][2]float64  // ends of sounds that were stopped, gain included: added to what comes next
	buffer [512][2]float64
}

// fadeFrames is how long a stopped sound takes to fade and the gain to go from 0 to 1: 8 ms.
var fadeFrames = synth.SampleRate.N(8e6)

// play begins a sound instead of the one that sounds.
func (m *mixer) play(sound beep.Streamer) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.fade()
	if seeker, ok := sound.(beep.StreamSeeker); ok {
		_ = seeker.Seek(0) // a sound that cannot is played from where it is
	}
	m.sound, m.frames, m.silent = sound, 0, 0
	m.gain = m.wanted
}

// stop fades what sounds.
func (m *mixer) stop() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.fade()
}

// drop forgets what sounds, for there is nothing left to play it.
func (m *mixer) drop() {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.sound, m.tail = nil, nil
}

// fade takes the end of the sound into the tail. The sound itself is never read again.
func (m *mixer) fade() {
	if m.sound == nil {
		return
	}
	end := make([][2]float64, fadeFrames)
	n, _ := m.sound.Stream(end)
	m.sound = nil
	for i := range end[:n] {
		left := m.gain * (1 - float64(i+1)/float64(fadeFrames))
		end[i][0] *= left
		end[i][1] *= left
	}
	for i, frame := range m.tail { // never longer than a fade
		end[i][0] += frame[0]
		end[i][1] += frame[1]
	}
	m.tail = end
}

// setGain changes the gain, also of what sounds.
func (m *mixer) setGain(gain float64) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.wanted = gain
}

// read fills out with what is to be heard, left and right in turn, and with silence where nothing is. It reports
// how many frames of silence there have been.
func (m *mixer) read(out []float32) (silent int) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.taken += len(out) / 2
	for len(out) > 0 {
		frames := m.buffer[:min(len(m.buffer), len(out)/2)]
		clear(frames)
		m.fill(frames)
		for i, frame := range frames {
			out[2*i], out[2*i+1] = float32(frame[0]), float32(frame[1])
		}
		out = out[2*len(frames):]
	}
	return m.silent
}

// fill adds to silence what is to be heard.
func (m *mixer) fill(frames [][2]float64) {
	if m.sound == nil && len(m.tail) == 0 {
		m.silent += len(frames)
		return
	}
	if m.sound != nil {
		n, ok := m.sound.Stream(frames)
		m.frames += n
		for i := range frames[:n] {
			step := 1 / float64(fadeFrames)
			m.gain += min(max(m.wanted-m.gain, -step), step)
			frames[i][0] *= m.gain
			frames[i][1] *= m.gain
		}
		if !ok {
			m.sound = nil
		}
	}
	n := min(len(m.tail), len(frames))
	for i, frame := range m.tail[:n] {
		frames[i][0] += frame[0]
		frames[i][1] += frame[1]
	}
	if m.tail = m.tail[n:]; len(m.tail) == 0 {
		m.tail = nil
	}
}

// playing reports whether a sound sounds that was not stopped.
func (m *mixer) playing() bool {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.sound != nil
}

// quiet reports whether nothing sounds, not even the end of what was stopped.
func (m *mixer) quiet() bool {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.sound == nil && len(m.tail) == 0
}

// progress returns how many frames were taken in all.
func (m *mixer) progress() int {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.taken
}

// heard returns how many frames of the present sound were taken.
func (m *mixer) heard() int {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.frames
}

// levels returns how strongly each string of the sound sounds now, by string number.
func (m *mixer) levels() map[int]float64 {
	m.mu.Lock()
	defer m.mu.Unlock()
	strings, ok := m.sound.(*synth.Sound)
	if !ok {
		return nil
	}
	return strings.Levels(synth.SampleRate.D(m.frames))
}
