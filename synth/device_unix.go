//go:build unix && !darwin

package synth

import (
	"os"

	"golang.org/x/sys/unix"
)

// deviceMissing has nothing to say here: oto reports a device that is not there when it opens it.
func deviceMissing() error { return nil }

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
