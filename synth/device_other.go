//go:build !windows && (!unix || darwin)

package synth

// deviceMissing has nothing to say here: oto reports a device that is not there when it opens it.
func deviceMissing() error { return nil }

// hushStderr has nothing to do here: only libasound writes straight to file descriptor 2.
func hushStderr() (restore func()) { return func() {} }
