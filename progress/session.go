package progress

import (
	"crypto/rand"
	"time"
)

// Session is one practice.
type Session struct {
	ID      string
	Began   time.Time
	Ended   time.Time     // zero if it was never closed
	Minutes time.Duration // asked for
	Doubted bool          // when it was is not known: the clock was wrong
}

// NewID returns an id that no other session and no other machine has.
func NewID() string { return rand.Text() }
