package session

import "time"

// mostIdle is for how long a student may do nothing and still be taken to think: the rest is time away, and none of the
// practice (from judgement).
const mostIdle = 2 * time.Minute

// away is for how long the student has been away until now; what comes before mostIdle is not.
func (s *Session) away() time.Duration {
	if s.here.IsZero() || !s.still.IsZero() {
		return 0
	}
	return max(0, s.clock().Sub(s.here)-mostIdle)
}

// isHere leaves out the time the student was away, now that something is done again.
func (s *Session) isHere() {
	s.leaveOutSuspension()
	s.leaveOut(s.away())
	s.here = s.clock()
}
