// Package playback brings sound to the machine's sound device, or to none. A [Speaker] plays one sound at a time through a mixer that
// fades what ends; devices are found, lost and found again behind it, and each system's stands in a file of its own.
package playback

import (
	"time"

	"sparetone/synth"

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

// Speaker plays one sound at a time. Open returns one that plays on the machine's device, None one
// that plays nowhere; a test brings its own, and then knows what was played.
//
// Its methods may be called from any goroutine and return at once, but for Close.
type Speaker interface {
	// State returns how the speaker stands, and if it has no device, why, in plain words.
	State() (State, string)
	// Changed returns a channel that receives after the state has changed. Several changes may be one receipt.
	Changed() <-chan struct{}
	// Play plays a sound from its beginning, instead of whatever sounds, whose end is faded and not cut. While the
	// device opens, the last sound asked for waits. The sound must not be read or sought by others until it has
	// ended or another is played.
	Play(sound beep.Streamer)
	// Stop silences what sounds, at once but with a fade of a few milliseconds.
	Stop()
	// Playing reports whether a sound is still sounding, or waits for the device to open.
	Playing() bool
	// Levels returns how strongly each string sounds now, by string number, above 0 up to 1. Strings that are
	// still are not in it.
	Levels() map[int]float64
	// Volume returns the volume, 0 to 1.
	Volume() float64
	// SetVolume sets the volume, 0 (silence) to 1, also of what sounds now. Each tenth is 2.5 dB.
	SetVolume(volume float64)
	// Close stops what sounds, waits up to a fifth of a second until it has faded, and lets the device go.
	Close()
}

// StartVolume is the volume to begin with: quiet, 12.5 dB below the loudest.
const StartVolume = 0.5

// volumeRange is how many dB lie below the loudest, for a volume of next to nothing.
const volumeRange = 25.0

// volumeGain turns a volume, in equal steps for the ear, into a factor.
func volumeGain(volume float64) float64 {
	if volume == 0 {
		return 0
	}
	return synth.Decibels((volume - 1) * volumeRange)
}

// None returns a speaker that opens no device: whatever it is given, nothing sounds. Volume is 0 to 1.
func None(volume float64) Speaker { return &noSpeaker{volume: volume} }

type noSpeaker struct{ volume float64 }

func (s *noSpeaker) State() (State, string)   { return NoDevice, "sound is off" }
func (s *noSpeaker) Changed() <-chan struct{} { return nil }
func (s *noSpeaker) Play(beep.Streamer)       {}
func (s *noSpeaker) Stop()                    {}
func (s *noSpeaker) Playing() bool            { return false }
func (s *noSpeaker) Levels() map[int]float64  { return nil }
func (s *noSpeaker) Volume() float64          { return s.volume }
func (s *noSpeaker) SetVolume(volume float64) { s.volume = min(max(volume, 0), 1) }
func (s *noSpeaker) Close()                   {}

// deviceBuffer is how much sound lies with the device. With 10 ms it breaks up on a busy machine.
const deviceBuffer = 16 * time.Millisecond

// How much sound OpenSteady may be asked to have lie with the device. It begins and ends so much later.
const (
	AheadOfSound = 250 * time.Millisecond
	AheadOfSong  = time.Second // with 250 ms one pluck in twenty was late on a machine with seven times the work that it could do
)
