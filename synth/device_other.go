//go:build !windows

package synth

// deviceMissing has nothing to say here: oto reports a device that is not there when it opens it.
func deviceMissing() error { return nil }
