// Package synth sounds plucked strings. It is given a [Score] (which string is plucked when, at what
// pitch and how hard) and gives back sound at [SampleRate], as a beep.Streamer. It knows pitches and
// times, never chords or drills.
//
// A [Hand] makes scores out of the notes under a player's fingers; a [Voice] is the instrument they are
// played on; [Render] plays one on the other, at the same loudness whatever is played; [WriteWAV] writes
// it to a file, and the room playback brings it to a device.
package synth

import "github.com/gopxl/beep/v2"

// SampleRate is the rate in Hz of everything this package renders and plays.
const SampleRate beep.SampleRate = 48000
