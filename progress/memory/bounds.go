package memory

// weightBounds keep every weight where the equations make sense. Source: npm ts-fsrs 5.4.2 (MIT),
// CLAMP_PARAMETERS.
var weightBounds = [len(Weights{})]struct{ least, most float64 }{
	{0.001, 100}, {0.001, 100}, {0.001, 100}, {0.001, 100}, {1, 10}, {0.001, 4}, {0.001, 4},
	{0.001, 0.75}, {0, 4.5}, {0, 0.8}, {0.001, 3.5}, {0.001, 5}, {0.001, 0.25}, {0.001, 0.9},
	{0, 4}, {0, 1}, {1, 6}, {0, 2}, {0, 2}, {0.01, 0.8}, {0.1, 0.8},
}

// Sensible reports whether weights are within their bounds.
func (w Weights) Sensible() bool {
	for i, b := range weightBounds {
		if !(w[i] >= b.least && w[i] <= b.most) {
			return false
		}
	}
	return true
}
