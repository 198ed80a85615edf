package fret

// mod returns the remainder of a by n that is not below 0.
func mod(a, n int) int { return ((a % n) + n) % n }
