package synth

import (
	"errors"
	"time"

	"golang.org/x/sys/windows"
)

// deviceMissing says whether there is no device at all: oto then plays into nothing and reports no error.
func deviceMissing() error {
	count := windows.NewLazySystemDLL("winmm.dll").NewProc("waveOutGetNumDevs")
	if err := count.Find(); err != nil {
		return err
	}
	if n, _, _ := count.Call(); n == 0 {
		return errors.New("none is connected")
	}
	return nil
}

// hushStderr has nothing to do here: only libasound writes straight to file descriptor 2.
func hushStderr() (restore func()) { return func() {} }

// openPatience is how long a device may take to open.
func openPatience() time.Duration { return 4 * time.Second }
