//go:build !windows && (!unix || darwin)

package synth

import "time"

// deviceMissing has nothing to say here: oto reports a device that is not there when it opens it.
func deviceMissing() error { return nil }

// hushStderr has nothing to do here: only libasound writes straight to file descriptor 2.
func hushStderr() (restore func()) { return func() {} }

// openPatience is how long a device may take to open.
func openPatience() time.Duration { return 4 * time.Second }
