package records

import (
	"fmt"

	"sparetone/progress/memory"
)

// SayDoubted says that answers do not count.
func SayDoubted(n int) string {
	if n == 1 {
		return "1 answer was given while the clock was wrong: it is kept, but does not count."
	}
	return fmt.Sprintf("%d answers were given while the clock was wrong: they are kept, but do not count.", n)
}

// Rate writes a share with its interval.
func Rate(right, asked int) string {
	if asked == 0 {
		return "not asked"
	}
	r := memory.RateOf(memory.Tally{Asked: asked, Right: right})
	return fmt.Sprintf("%d of %d (%.0f to %.0f %%)", right, asked, 100*r.Low, 100*r.High)
}
