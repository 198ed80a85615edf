package synth

import (
	"errors"
	"io"

	"github.com/gopxl/beep/v2"
	"github.com/gopxl/beep/v2/wav"
)

// WriteMonoWAV writes a sound as a WAV file of 16 bits in one channel, at SampleRate: both channels are alike, so nothing is lost by it.
// Its errors are those of WriteWAV.
func WriteMonoWAV(w io.WriteSeeker, s beep.Streamer) error {
	if err := wav.Encode(w, s, beep.Format{SampleRate: SampleRate, NumChannels: 1, Precision: 2}); err != nil {
		return err
	}
	return s.Err()
}

// MonoWAV returns what WriteMonoWAV writes.
func MonoWAV(s beep.Streamer) ([]byte, error) {
	var b buffer
	err := WriteMonoWAV(&b, s)
	return b.data, err
}

// buffer is a file in memory.
type buffer struct {
	data []byte
	at   int
}

// Write writes over what is there and goes on behind it.
func (b *buffer) Write(p []byte) (int, error) {
	n := copy(b.data[b.at:], p)
	b.data = append(b.data, p[n:]...)
	b.at += len(p)
	return len(p), nil
}

// Seek goes to a place that has been written.
func (b *buffer) Seek(offset int64, whence int) (int64, error) {
	from := map[int]int{io.SeekStart: 0, io.SeekCurrent: b.at, io.SeekEnd: len(b.data)}
	at := from[whence] + int(offset)
	if at < 0 || at > len(b.data) {
		return 0, errors.New("outside the file")
	}
	b.at = at
	return int64(at), nil
}
