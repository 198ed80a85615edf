package capture

import (
	"context"
	"slices"
	"sync"
)

// Line is a device whose samples are put into it, as they come: a test's microphone. It is for several goroutines at once.
type Line struct {
	rate  float64
	mu    sync.Mutex
	now   []*feed // that were opened and not closed
	fault error
}

// NewLine returns a line for so many samples a second.
func NewLine(rate float64) *Line { return &Line{rate: rate} }

// Put sends samples. Those for which nobody listens are lost.
func (l *Line) Put(samples []float64) {
	l.mu.Lock()
	defer l.mu.Unlock()
	for _, f := range l.now {
		f.put(samples)
	}
}

// Fail has the line fail with an error, as soon as what came before is read, and opening it from now on; nil mends it for whoever
// opens it again.
func (l *Line) Fail(err error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	l.fault = err
	for _, f := range l.now {
		if err != nil {
			f.fail(err)
		}
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
	var f *feed
	f = newFeed(l.rate, func() {
		l.mu.Lock()
		defer l.mu.Unlock()
		l.now = slices.DeleteFunc(l.now, func(o *feed) bool { return o == f })
	})
	l.now = append(l.now, f)
	return f, nil
}
