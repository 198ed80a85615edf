package session

import (
	"context"
	"sync"
	"time"
)

// A program that is suspended (ctrl+z, SIGSTOP) does not think, and nor does whoever sits before it. Not every signal that
// suspends can be caught, so the clock is looked at again and again: where nobody looked for long, the program did not run.

const (
	lookEvery      = 500 * time.Millisecond
	leastSuspended = 2 * time.Second // less may be a machine that is busy
)

// Suspension measures for how long the program was suspended.
type Suspension struct {
	now    func() time.Time
	mu     sync.Mutex
	looked time.Time
	total  time.Duration
}

// WatchSuspension begins to measure, and goes on until the context ends.
func WatchSuspension(ctx context.Context, now func() time.Time) *Suspension {
	s := &Suspension{now: now, looked: now()}
	go func() {
		beat := time.NewTicker(lookEvery)
		defer beat.Stop()
		for {
			select {
			case <-beat.C:
				s.Total()
			case <-ctx.Done():
				return
			}
		}
	}()
	return s
}

// Total returns for how long the program was suspended until now, half a second too little at most each time.
func (s *Suspension) Total() time.Duration {
	s.mu.Lock()
	defer s.mu.Unlock()
	now := s.now()
	if unseen := now.Sub(s.looked); unseen >= leastSuspended {
		s.total += unseen - lookEvery // it may have run so long after the last look
	}
	s.looked = now
	return s.total
}
