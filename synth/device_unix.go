//go:build unix && !darwin

package synth

import (
	"net"
	"os"
	"path/filepath"
	"strings"
	"time"

	"golang.org/x/sys/unix"
)

// deviceMissing has nothing to say here: oto reports a device that is not there when it opens it.
func deviceMissing() error { return nil }

// openPatience is how long a device may take to open. A sound server that has only just started takes 2 s;
// where none answers, whatever ALSA still tries comes to nothing.
func openPatience() time.Duration {
	if serverAnswers() {
		return 4 * time.Second
	}
	return 900 * time.Millisecond
}

// serverAnswers reports whether a PulseAudio server takes connections where oto looks for it. One on another
// machine is believed to.
func serverAnswers() bool {
	address, set := os.LookupEnv("PULSE_SERVER")
	if !set {
		address = filepath.Join(os.Getenv("XDG_RUNTIME_DIR"), "pulse", "native")
	}
	path := strings.TrimPrefix(address, "unix:")
	if !filepath.IsAbs(path) {
		return set
	}
	c, err := net.DialTimeout("unix", path, 100*time.Millisecond)
	if err != nil {
		return false
	}
	c.Close()
	return true
}

// hushStderr turns file descriptor 2 away from the terminal and returns what turns it back: libasound
// writes its complaints straight to it when a device does not open, across whatever is on the screen.
func hushStderr() (restore func()) {
	null, err := os.OpenFile(os.DevNull, os.O_WRONLY, 0)
	if err != nil {
		return func() {}
	}
	defer null.Close()
	kept, err := unix.FcntlInt(2, unix.F_DUPFD_CLOEXEC, 3)
	if err != nil {
		return func() {}
	}
	if unix.Dup2(int(null.Fd()), 2) != nil {
		unix.Close(kept)
		return func() {}
	}
	return func() {
		_ = unix.Dup2(kept, 2)
		unix.Close(kept)
	}
}
