package brisk

import "time"

// OwnTime returns a watch that began to run. It tells how long the process has taken of its own accord: the time that went by without
// that for which its threads stood in line for a processor. So a test holds what it runs to a time, and a busy machine does not
// change it. Where nobody knows how long they stood in line it is the time that went by.
func OwnTime() func() time.Duration {
	began, inLine := time.Now(), timeInLine()
	return func() time.Duration {
		return time.Since(began) - max(0, timeInLine()-inLine)
	}
}
