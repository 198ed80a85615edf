package playback

import (
	"errors"
	"time"

	"golang.org/x/sys/windows"
)

// openDevice opens the machine's sound device for a mixer, or says why that cannot be. Where there is none oto would
// play into nothing and report no error.
func openDevice(mix *mixer) (device, error) {
	count := windows.NewLazySystemDLL("winmm.dll").NewProc("waveOutGetNumDevs")
	if err := count.Find(); err != nil {
		return nil, err
	}
	if n, _, _ := count.Call(); n == 0 {
		return nil, errors.New("none is connected")
	}
	return openOto(mix)
}

// openPatience is how long a device may take to open.
func openPatience() time.Duration { return 4 * time.Second }
