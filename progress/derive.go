package progress

// derive works out from the first answer on what the derived tables should hold, and shows each answer to see.
func derive(from reader, see func(kept)) (*derived, error) {
	var runs runs
	d, err := deriveWith(from, doubts{}, func(k kept) {
		see(k)
		runs.add(k.n, k.At)
	})
	if doubted := doubtsOf(runs); err == nil && len(doubted.spans) > 0 {
		return deriveWith(from, doubted, func(kept) {})
	}
	return d, err
}

// deriveWith works out what follows from the answers where these are doubted.
func deriveWith(from reader, doubted doubts, see func(kept)) (*derived, error) {
	d := newDerived(DefaultWeights)
	if err := loadWeights(from, d); err != nil {
		return nil, err
	}
	return d, answersIn(from, func(k kept) error {
		see(k)
		if doubted.of(k.n, k.At) {
			d.doubt(k.n, k.Answer)
		} else {
			d.add(k.Answer, k.Day)
		}
		return nil
	})
}
