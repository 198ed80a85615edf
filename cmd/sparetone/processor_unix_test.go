//go:build unix

package main

import (
	"syscall"
	"time"
)

// processorTime is how long processors have worked for this process, however busy they are elsewhere.
func processorTime() time.Duration {
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		panic(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}
