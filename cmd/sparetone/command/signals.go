package command

import (
	"context"
	"os"
	"os/signal"
	"sync/atomic"
	"syscall"
	"time"

	"sparetone/progress/whole"
)

// EndedBySignal is the error of a command that a signal has ended.
type EndedBySignal struct{ by syscall.Signal }

func (s EndedBySignal) Error() string { return "ended by a signal: " + s.by.String() }

// status is what the program then ends with: 128 and the signal's number, as shells have it.
func (s EndedBySignal) status() Status { return 128 + Status(s.by) }

// graceAfterSignal is how long a command may take to end in order after a signal.
const graceAfterSignal = 800 * time.Millisecond

// patientKey is the key of a context's value that says whether its command is left to end by itself.
type patientKey struct{}

// EndedBySignals returns a context that the first SIGINT, SIGTERM or SIGHUP ends, with a cause that carries the exit
// status. A command that has not ended after the grace is ended as it is, and what it had not finished writing is taken
// away. A second signal ends the program at once.
func EndedBySignals(ctx context.Context) context.Context {
	patient := &atomic.Bool{}
	ctx, end := context.WithCancelCause(context.WithValue(ctx, patientKey{}, patient))
	caught := make(chan os.Signal, 1)
	signal.Notify(caught, os.Interrupt, syscall.SIGTERM, syscall.SIGHUP)
	go endAfterSignal(caught, end, patient, func(status Status) {
		whole.Abandon()
		os.Exit(int(status))
	})
	return ctx
}

// endAfterSignal waits for a signal, ends a context with it, and leaves with its status after the grace, or later where the command is
// left to end by itself.
func endAfterSignal(caught chan os.Signal, end context.CancelCauseFunc, patient *atomic.Bool, leave func(Status)) {
	by, _ := (<-caught).(syscall.Signal)
	signal.Stop(caught)
	why := EndedBySignal{by}
	end(withStatus{why, why.status()})
	time.Sleep(graceAfterSignal)
	for patient.Load() {
		time.Sleep(graceAfterSignal)
	}
	leave(why.status())
}

// EndsByItself says that a command is to end a terminal's full screen in order, however long that takes.
func EndsByItself(ctx context.Context) {
	if patient, ok := ctx.Value(patientKey{}).(*atomic.Bool); ok {
		patient.Store(true)
	}
}
