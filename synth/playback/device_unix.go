//go:build unix && !darwin

package playback

import (
	"errors"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"sparetone/synth"

	"github.com/jfreymuth/pulse"
	"golang.org/x/sys/unix"
)

// openDevice opens the machine's sound device for a mixer, or says why that cannot be. A PulseAudio server, which
// may come and go, is asked first; ALSA, by way of oto, once in the program's life.
func openDevice(mix *mixer) (device, error) {
	server, err := PulseServer()
	if err == nil {
		var d device
		if d, err = openPulse(mix, server); err == nil {
			return d, nil
		}
	}
	if !alsaMayPlay() {
		return nil, err
	}
	alsaOnly()
	return openOto(mix)
}

// openPatience is how long a device may take to open. A sound server that has only just started takes 2 s;
// where none answers, whatever ALSA still tries comes to nothing.
func openPatience() time.Duration {
	if server, err := PulseServer(); err == nil && answers(server) {
		return 4 * time.Second
	}
	return 900 * time.Millisecond
}

// hidden is what PULSE_SERVER was before alsaOnly hid it; nil if it has not.
var hidden atomic.Pointer[struct {
	server string
	set    bool
}]

// PulseServer returns where the PulseAudio server is: as PULSE_SERVER says, else in XDG_RUNTIME_DIR
// (freedesktop.org, "PulseAudio: server strings"). Without either there is none: never in the current folder.
func PulseServer() (string, error) {
	server, set := os.LookupEnv("PULSE_SERVER")
	if h := hidden.Load(); h != nil {
		server, set = h.server, h.set
	}
	if set {
		return server, nil
	}
	run := os.Getenv("XDG_RUNTIME_DIR")
	if !filepath.IsAbs(run) {
		return "", errors.New("XDG_RUNTIME_DIR names no folder")
	}
	return "unix:" + filepath.Join(run, "pulse", "native"), nil
}

// answers reports whether a server takes connections. One on another machine is believed to.
func answers(server string) bool {
	path := strings.TrimPrefix(server, "unix:")
	if !filepath.IsAbs(path) {
		return server != ""
	}
	c, err := net.DialTimeout("unix", path, 100*time.Millisecond)
	if err != nil {
		return false
	}
	c.Close()
	return true
}

// pulseDevice is a stream to a PulseAudio server.
type pulseDevice struct {
	server string
	client *pulse.Client
	stream *pulse.PlaybackStream
	mix    *mixer

	mu      sync.Mutex
	awake   sync.Cond
	resting bool
	closed  bool
}

func openPulse(mix *mixer, server string) (d *pulseDevice, err error) {
	defer func() {
		if r := recover(); r != nil { // a name of a server that it cannot read
			err = fmt.Errorf("%v", r)
		}
	}()
	d = &pulseDevice{server: server, mix: mix}
	d.awake.L = &d.mu
	if server == "" {
		return nil, errors.New("PULSE_SERVER is empty")
	}
	d.client, err = pulse.NewClient(pulse.ClientApplicationName(application), pulse.ClientServerString(server))
	if err != nil {
		return nil, err
	}
	d.stream, err = d.client.NewPlayback(pulse.Float32Reader(d.read), pulse.PlaybackMediaName(application),
		pulse.PlaybackStereo, pulse.PlaybackSampleRate(int(synth.SampleRate)), pulse.PlaybackLatency(mix.ahead.Seconds()))
	if err != nil {
		d.client.Close()
		return nil, err
	}
	d.stream.Start()
	return d, nil
}

// read makes what the server asks for. It waits while the device rests.
func (d *pulseDevice) read(out []float32) (int, error) {
	d.mu.Lock()
	for d.resting && !d.closed {
		d.awake.Wait()
	}
	closed := d.closed
	d.mu.Unlock()
	if closed {
		return 0, pulse.EndOfData
	}
	out = out[:len(out)/2*2]
	d.mix.read(out)
	return len(out), nil
}

func (d *pulseDevice) wake() { d.set(&d.resting, false) }
func (d *pulseDevice) rest() { d.set(&d.resting, true) }

func (d *pulseDevice) set(flag *bool, to bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	*flag = to
	d.awake.Broadcast()
}

// err notices a server that has ended. While the device rests the connection is not read, so the server is looked for.
func (d *pulseDevice) err() error {
	d.mu.Lock()
	resting := d.resting
	d.mu.Unlock()
	if d.stream.Closed() || resting && !answers(d.server) {
		return errors.New("the sound device is gone")
	}
	return nil
}

func (d *pulseDevice) close() {
	d.set(&d.closed, true)
	d.client.Close()
}

// alsaMayPlay reports whether ALSA could have a device that plays: a card, or something that its user has set up.
// Asking it where it has none would use up the one time it can be asked.
func alsaMayPlay() bool {
	if os.Getenv("ALSA_CONFIG_PATH") != "" {
		return true
	}
	home, _ := os.UserHomeDir()
	for _, pattern := range []string{"/dev/snd/pcmC*D*p", "/dev/dsp*", "/etc/asound.conf", filepath.Join(home, ".asoundrc")} {
		if found, _ := filepath.Glob(pattern); found != nil {
			return true
		}
	}
	return false
}

// alsaOnly prepares the program for oto's asking ALSA. Oto is kept from looking for PulseAudio once more, which it
// would do in the current folder too. And libasound, and what it loads, write their complaints straight to file
// descriptor 2, across whatever is on the screen, at any time: from now on that one leads nowhere, and the program
// itself has another.
var alsaOnly = sync.OnceFunc(func() {
	server, set := os.LookupEnv("PULSE_SERVER")
	hidden.Store(&struct {
		server string
		set    bool
	}{server, set})
	os.Setenv("PULSE_SERVER", "")
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		return
	}
	defer null.Close()
	kept, err := unix.FcntlInt(2, unix.F_DUPFD_CLOEXEC, 3)
	if err != nil {
		return
	}
	if unix.Dup2(int(null.Fd()), 2) != nil {
		unix.Close(kept)
		return
	}
	os.Stderr = os.NewFile(uintptr(kept), "/dev/stderr")
	_ = debug.SetCrashOutput(os.Stderr, debug.CrashOptions{}) // the runtime knows no other way than descriptor 2
})
