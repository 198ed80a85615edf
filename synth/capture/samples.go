package capture

import (
	"context"
	"io"
	"sync"

	"sparetone/synth"
)

// Of returns a source of samples that are there already, so many a second.
func Of(rate float64, samples []float64) Source {
	return &given{rate: rate, next: func(into []float64) (int, error) {
		n := copy(into, samples)
		samples = samples[n:]
		if n == 0 {
			return 0, io.EOF
		}
		return n, nil
	}}
}

// OfFile returns a source of the samples of a file or a pipe. Close does not close what they are read from.
func OfFile(s *synth.Samples) Source { return &given{rate: s.Rate, next: s.Read} }

// OfReader returns a source of raw samples, signed whole numbers of 16 bits, little-endian, one channel, so many a second. The error
// says what is wrong with the rate. A Read that waits for a pipe does not end with its context.
func OfReader(r io.Reader, rate float64) (Source, error) {
	s, err := synth.ReadRaw(r, rate)
	if err != nil {
		return nil, err
	}
	return OfFile(s), nil
}

type given struct {
	rate float64
	next func([]float64) (int, error)
}

func (g *given) Rate() float64 { return g.rate }
func (g *given) Close() error  { return nil }

func (g *given) Read(ctx context.Context, into []float64) (int, error) {
	if err := ctx.Err(); err != nil {
		return 0, err
	}
	return g.next(into)
}

// Line is a device whose samples are put into it, as they come: a test's microphone. It is for several goroutines at once.
type Line struct {
	rate  float64
	mu    sync.Mutex
	wait  chan struct{} // closed when something is put in
	came  []float64
	fault error
}

// NewLine returns a line for so many samples a second.
func NewLine(rate float64) *Line { return &Line{rate: rate, wait: make(chan struct{})} }

// Put sends samples. Those that nobody listens for are lost.
func (l *Line) Put(samples []float64) {
	l.change(func() { l.came = append(l.came, samples...) })
}

// Fail has the line fail with an error from now on, as soon as what came before is read, and opening it too; nil mends it.
func (l *Line) Fail(err error) {
	l.change(func() { l.fault = err })
}

func (l *Line) change(do func()) {
	l.mu.Lock()
	defer l.mu.Unlock()
	do()
	close(l.wait)
	l.wait = make(chan struct{})
}

// Name returns what the line is called.
func (l *Line) Name() string { return "the microphone" }

// Open returns a source of what is put in from now on.
func (l *Line) Open(context.Context) (Source, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	if l.fault != nil {
		return nil, l.fault
	}
	l.came = nil
	return &lineSource{line: l, closed: make(chan struct{})}, nil
}

type lineSource struct {
	line   *Line
	once   sync.Once
	closed chan struct{}
}

func (s *lineSource) Rate() float64 { return s.line.rate }

func (s *lineSource) Close() error {
	s.once.Do(func() { close(s.closed) })
	return nil
}

func (s *lineSource) Read(ctx context.Context, into []float64) (int, error) {
	l := s.line
	for {
		l.mu.Lock()
		n := copy(into, l.came)
		l.came = l.came[n:]
		wait, fault := l.wait, l.fault
		l.mu.Unlock()
		switch {
		case n > 0:
			return n, nil
		case fault != nil:
			return 0, fault
		}
		select {
		case <-wait:
		case <-ctx.Done():
			return 0, ctx.Err()
		case <-s.closed:
			return 0, io.ErrClosedPipe
		}
	}
}
