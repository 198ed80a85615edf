package synth

import (
	"fmt"
	"io"

	"github.com/gopxl/beep/v2"
	"github.com/gopxl/beep/v2/wav"
)

// WriteWAV writes a sound as a WAV file of 16 or 24 bits, stereo, at SampleRate. The error is that of the sound, or of
// the writing; what is written is then no whole file.
func WriteWAV(w io.WriteSeeker, s beep.Streamer, bits int) error {
	if bits != 16 && bits != 24 {
		return fmt.Errorf("a WAV file of %d bits: it must be 16 or 24", bits)
	}
	format := beep.Format{SampleRate: SampleRate, NumChannels: 2, Precision: bits / 8}
	if err := wav.Encode(w, s, format); err != nil {
		return err
	}
	return s.Err()
}
