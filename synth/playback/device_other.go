//go:build !windows && (!unix || darwin)

package playback

import "time"

// openDevice opens the machine's sound device for a mixer, or says why that cannot be.
func openDevice(mix *mixer) (device, error) { return openOto(mix) }

// openPatience is how long a device may take to open.
func openPatience() time.Duration { return 4 * time.Second }
