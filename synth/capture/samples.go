package capture

import (
	"context"
	"io"
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
func OfFile(s *Samples) Source { return &given{rate: s.Rate, next: s.Read} }

// OfReader returns a source of raw samples, signed whole numbers of 16 bits, little-endian, one channel, so many a second. The error
// says what is wrong with the rate. A Read that waits for a pipe does not end with its context.
func OfReader(r io.Reader, rate float64) (Source, error) {
	s, err := ReadRaw(r, rate)
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
