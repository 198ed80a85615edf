package capture

import (
	"context"
	"sync"
)

// Line is a device whose samples are put into it, as they come: a test's microphone. It is for several goroutines at once.
type Line struct {
	rate  float64
	mu    sync.Mutex
	now   *feed // that was opened last; nil if none was
	fault error
}

// NewLine returns a line for so many samples a second.
func NewLine(rate float64) *Line { return &Line{rate: rate} }

// Put sends samples. Those for which nobody listens are lost.
func (l *Line) Put(samples []float64) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.now != nil {
		l.now.put(samples)
	}
}

// Fail has the line fail with an error, as soon as what came before is read, and opening it from now on; nil mends it for whoever
// opens it again.
func (l *Line) Fail(err error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.fault = err; err != nil && l.now != nil {
		l.now.fail(err)
	}
}

// Name returns what the line is called.
func (l *Line) Name() string { return theMicrophone }

// Open returns a source of what is put in from now on.
func (l *Line) Open(context.Context) (Source, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.fault != nil {
		return nil, l.fault
	}
	l.now = newFeed(l.rate, nil)
	return l.now, nil
}
