package synth

import (
	"encoding/binary"
	"io"
	"math"
	"sync"
	"time"

	"github.com/ebitengine/oto/v3"
	"github.com/gopxl/beep/v2"
)

// frameBytes is how many bytes one sample of both channels takes on its way to the device.
const frameBytes = 8

// track is a sound on its way to the device: an io.Reader as oto wants it.
type track struct {
	player *oto.Player
	sound  beep.Streamer

	mu     sync.Mutex
	ended  bool
	frames int // read so far
	buffer [512][2]float64
}

// Read fills p with samples as 32-bit floats, little end first.
func (t *track) Read(p []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	done := 0
	for len(p)-done >= frameBytes {
		if t.ended {
			return done, io.EOF
		}
		n, ok := t.sound.Stream(t.buffer[:min(len(t.buffer), (len(p)-done)/frameBytes)])
		t.ended = !ok
		for _, frame := range t.buffer[:n] {
			for _, x := range frame {
				binary.LittleEndian.PutUint32(p[done:], math.Float32bits(float32(x)))
				done += 4
			}
		}
		t.frames += n
	}
	return done, nil
}

// end makes sure that the sound is never read again.
func (t *track) end() {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.ended = true
}

// heard returns how much of the sound the device has taken.
func (t *track) heard() time.Duration {
	t.mu.Lock()
	frames := t.frames
	t.mu.Unlock()
	return SampleRate.D(max(0, frames-t.player.BufferedSize()/frameBytes))
}
