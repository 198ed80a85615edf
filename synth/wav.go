package synth

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"github.com/gopxl/beep/v2"
	"github.com/gopxl/beep/v2/wav"
)

// WriteWAV writes a sound to a WAV file of 16 or 24 bits, stereo, at SampleRate. The file appears whole
// or not at all: it is written beside its place and moved there. The error says in a line what went
// wrong; a file that was there before is then still there.
func WriteWAV(path string, s beep.Streamer, bits int) error {
	if bits != 16 && bits != 24 {
		return fmt.Errorf("a WAV file of %d bits: it must be 16 or 24", bits)
	}
	if info, err := os.Stat(path); err == nil && !info.Mode().IsRegular() {
		return fmt.Errorf("%s is not a file that sound can be written to", path)
	}
	if err := writeWAV(path, s, bits); err != nil {
		return fmt.Errorf("%s was not written: %w", path, bare(err))
	}
	return nil
}

func writeWAV(path string, s beep.Streamer, bits int) (err error) {
	f, err := os.Create(path + ".part")
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(f.Name())
		}
	}()
	format := beep.Format{SampleRate: SampleRate, NumChannels: 2, Precision: bits / 8}
	if err := wav.Encode(f, s, format); err != nil {
		return err
	}
	if err := s.Err(); err != nil {
		return err
	}
	if err := f.Close(); err != nil {
		return err
	}
	return os.Rename(f.Name(), path)
}

// bare takes the name of the file beside out of an error: the person never named it.
func bare(err error) error {
	if p := (*fs.PathError)(nil); errors.As(err, &p) {
		return p.Err
	}
	if l := (*os.LinkError)(nil); errors.As(err, &l) {
		return l.Err
	}
	return err
}
