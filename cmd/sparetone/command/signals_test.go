package command

import (
	"context"
	"errors"
	"os"
	"sync/atomic"
	"syscall"
	"testing"
	"testing/synctest"
	"time"
)

// A command learns of a signal at once, and is left 0.8 s later with the signal's status, so that each has ended within a second; one
// that is to end by itself is left for as long as it takes. The clock is the test's.
func TestACommandIsLeftAfterTheGrace(t *testing.T) {
	for by, status := range map[syscall.Signal]Status{syscall.SIGINT: 130, syscall.SIGTERM: 143, syscall.SIGHUP: 129} {
		for _, patientFor := range []time.Duration{0, 2 * time.Second} {
			synctest.Test(t, func(t *testing.T) {
				ctx, end := context.WithCancelCause(context.Background())
				caught, patient, left := make(chan os.Signal, 1), &atomic.Bool{}, Status(-1)
				patient.Store(patientFor > 0)
				go endAfterSignal(caught, end, patient, func(s Status) { left = s })
				time.Sleep(time.Hour)
				if ctx.Err() != nil || left >= 0 {
					t.Fatal("it is ended without a signal")
				}
				caught <- by
				synctest.Wait()
				if why := (EndedBySignal{}); !errors.As(context.Cause(ctx), &why) || why.by != by || StatusOf(context.Cause(ctx)) != status {
					t.Errorf("after %v the cause is %v", by, context.Cause(ctx))
				}
				time.Sleep(max(patientFor, 800*time.Millisecond) - time.Nanosecond)
				synctest.Wait()
				if left >= 0 {
					t.Errorf("after %v it is left too early", by)
				}
				patient.Store(false)
				if patientFor > 0 {
					time.Sleep(800 * time.Millisecond) // when it looks again
				}
				time.Sleep(time.Nanosecond)
				synctest.Wait()
				if left != status {
					t.Errorf("after %v it is left with %d, want %d", by, left, status)
				}
			})
		}
	}
}
