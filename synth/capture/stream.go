package capture

import (
	"context"
	"time"
)

// stream is a source that is read in the background, block by block.
type stream struct {
	rate   float64
	blocks <-chan []float64
	failed <-chan error // once
	stop   func()       // closes the source
}

// streamOf reads a source until it fails, it is stopped, or the context ends.
func streamOf(ctx context.Context, s Source) *stream {
	ctx, stop := context.WithCancel(ctx)
	blocks, failed := make(chan []float64), make(chan error, 1)
	go func() {
		defer s.Close()
		for {
			block := make([]float64, int(readTime*s.Rate()))
			n, err := s.Read(ctx, block)
			if n > 0 {
				select {
				case blocks <- block[:n]:
				case <-ctx.Done():
					return
				}
			}
			if err != nil {
				failed <- err
				return
			}
		}
	}()
	return &stream{rate: s.Rate(), blocks: blocks, failed: failed, stop: stop}
}

// found is a stream that gives sound, and what came from it so far.
type found struct {
	stream *stream
	came   []float64
}

// lookBeside opens the source once more, beside the stream that gives nothing but zeros and is heard on, and returns a channel that receives
// the other stream once it has given sound for a moment. Nothing is received where none comes. end gives it up.
func (m *Microphone) lookBeside(ctx context.Context) (gives <-chan found, end func()) {
	into := make(chan found)
	life, over := context.WithCancel(ctx) // of the stream, if it is taken
	look, end := context.WithTimeout(life, anewFor)
	go func() {
		defer end()
		s, err := m.opener.Open(look)
		if err != nil {
			over()
			return
		}
		f := found{stream: streamOf(life, s)}
		var settled <-chan time.Time
		for {
			select {
			case b := <-f.stream.blocks:
				f.came = append(f.came, b...)
				if settled == nil && hasSound(b) {
					settled = time.After(anewIn)
				}
			case <-settled:
				select {
				case into <- f:
				case <-look.Done():
					over()
				}
				return
			case <-f.stream.failed:
				over()
				return
			case <-look.Done():
				over()
				return
			}
		}
	}()
	return into, end
}

// hasSound reports whether not all samples are exactly zero.
func hasSound(samples []float64) bool {
	for _, x := range samples {
		if x != 0 {
			return true
		}
	}
	return false
}
