package capture

import (
	"context"
	"io"
	"sync"
)

// feed is a source into which a device's own goroutine puts what comes. It holds what is not read yet, as much as it must.
type feed struct {
	rate  float64
	close func() // lets the device go; nil does nothing
	mu    sync.Mutex
	wait  chan struct{} // closed when something changes
	came  []float64
	ended error // what Read returns when all that came is read
}

func newFeed(rate float64, close func()) *feed {
	return &feed{rate: rate, close: close, wait: make(chan struct{})}
}

// unread is for how many seconds a feed keeps what is not read; older samples are dropped.
const unread = 20

// put adds samples that came, unless the feed has ended.
func (f *feed) put(samples []float64) {
	f.change(func() {
		if f.ended != nil {
			return
		}
		f.came = append(f.came, samples...)
		if most := int(unread * f.rate); len(f.came) > most {
			f.came = append([]float64(nil), f.came[len(f.came)-most/2:]...)
		}
	})
}

// fail ends the feed with an error, unless it has ended.
func (f *feed) fail(err error) {
	f.change(func() {
		if f.ended == nil {
			f.ended = err
		}
	})
}

func (f *feed) change(do func()) {
	f.mu.Lock()
	defer f.mu.Unlock()
	do()
	close(f.wait)
	f.wait = make(chan struct{})
}

func (f *feed) Rate() float64 { return f.rate }

func (f *feed) Read(ctx context.Context, into []float64) (int, error) {
	for {
		f.mu.Lock()
		n := copy(into, f.came)
		f.came = f.came[n:]
		wait, ended := f.wait, f.ended
		f.mu.Unlock()
		switch {
		case n > 0:
			return n, nil
		case ended != nil:
			return 0, ended
		}
		select {
		case <-wait:
		case <-ctx.Done():
			return 0, ctx.Err()
		}
	}
}

func (f *feed) Close() error {
	f.fail(io.ErrClosedPipe)
	f.mu.Lock()
	end := f.close
	f.close = nil
	f.mu.Unlock()
	if end != nil {
		end()
	}
	return nil
}
