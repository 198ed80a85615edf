package capture

import "context"

// Source gives samples, one channel, one after another. It is for one goroutine; Close may be called from another, and ends a Read.
type Source interface {
	// Rate returns how many samples come in a second.
	Rate() float64
	// Read waits until there are samples, -1 to 1, puts as many as there are and fit into a slice, and returns how many: at least
	// one, or none and an error. That is io.EOF when a file or a pipe has ended, a *Fault when something went wrong with a device,
	// and the context's when that ended first.
	Read(ctx context.Context, into []float64) (int, error)
	// Close lets go of what the samples come from.
	Close() error
}

// Opener opens a source, as often as it is asked for.
type Opener interface {
	// Open returns a source, or a *Fault that says why there is none.
	Open(ctx context.Context) (Source, error)
	// Name returns what the source is called in a sentence, such as "the microphone".
	Name() string
}
