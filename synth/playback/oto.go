package playback

import (
	"encoding/binary"
	"errors"
	"io"
	"math"
	"sync"
	"time"

	"sparetone/synth"

	"github.com/ebitengine/oto/v3"
)

// otoDevice is the one context that oto gives a program, and the one player that plays on it. Both last as long as
// the program: a player for each sound would have to be given back, and a second context cannot be had. A context
// whose device has gone for good is of no use any more, and only another start of the program finds that device.
type otoDevice struct {
	context *oto.Context
	ready   chan struct{} // closed when the context has opened, or has failed to

	mu     sync.Mutex
	player *oto.Player
	mix    *mixer // of the speaker that has the device; nil if none has
	ended  bool   // the player was told that there is no more
	buffer [1024]float32
}

// theOto is there once a device was asked of oto.
var theOto struct {
	sync.Mutex
	device *otoDevice
	err    error
}

// playerBuffer is how much oto's player holds. It has to be more than the device takes at a time.
const playerBuffer = 40 * time.Millisecond

// openOto opens oto's context for a mixer, or takes over the one there is.
func openOto(mix *mixer) (device, error) {
	d, err := otoContext()
	if err != nil {
		return nil, err
	}
	<-d.ready
	if err := d.context.Err(); err != nil {
		return nil, err
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.mix = mix
	if d.player == nil {
		d.player, d.ended = d.context.NewPlayer(d), true
		d.player.SetBufferSize(synth.SampleRate.N(playerBuffer) * frameBytes)
	}
	return d, nil
}

func otoContext() (*otoDevice, error) {
	theOto.Lock()
	defer theOto.Unlock()
	if theOto.device == nil && theOto.err == nil {
		context, ready, err := oto.NewContext(&oto.NewContextOptions{
			SampleRate: int(synth.SampleRate), ChannelCount: 2, Format: oto.FormatFloat32LE,
			BufferSize: deviceBuffer, ApplicationName: application,
		})
		if err != nil {
			theOto.err = err
		} else {
			theOto.device = &otoDevice{context: context, ready: ready}
		}
	}
	return theOto.device, theOto.err
}

// frameBytes is how many bytes oto takes for one sample of both channels.
const frameBytes = 8

// Read gives oto what the mixer makes as 32-bit floats, little end first. When all has been silent for longer than
// the player holds, there is no more until wake is called: a sound that comes then need not wait behind silence.
func (d *otoDevice) Read(p []byte) (int, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	done := 0
	for len(p)-done >= frameBytes {
		if d.ended {
			return done, io.EOF
		}
		part := d.buffer[:min(len(d.buffer), (len(p)-done)/frameBytes*2)]
		clear(part)
		d.ended = d.mix == nil || d.mix.read(part) > 2*synth.SampleRate.N(playerBuffer)
		for _, x := range part {
			binary.LittleEndian.PutUint32(p[done:], math.Float32bits(x))
			done += 4
		}
	}
	return done, nil
}

func (d *otoDevice) wake() {
	_ = d.context.Resume() // what is wrong with it, err says
	d.mu.Lock()
	ended := d.ended
	d.ended = false
	d.mu.Unlock()
	if ended {
		d.player.Reset() // only after this does it read again; it waits for Read, so d.mu must be free
		d.player.Play()
	}
}

func (d *otoDevice) rest() { _ = d.context.Suspend() }

func (d *otoDevice) err() error {
	if d.context.Err() == nil {
		return nil
	}
	return errors.New("the sound device is gone until sparetone starts anew")
}

func (d *otoDevice) close() {
	d.mu.Lock()
	d.mix = nil
	d.mu.Unlock()
	d.rest()
}
