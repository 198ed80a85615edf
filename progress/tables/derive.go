package tables

import (
	"sparetone/progress/clock"
	"sparetone/progress/memory"
)

// derive works out from the first answer on what the derived tables should hold, and shows each answer to see.
func derive(from Reader, see func(AnswerRow)) (*memory.Derived, error) {
	doubted, err := DoubtsAnew(from)
	if err != nil {
		return nil, err
	}
	return DeriveWith(from, doubted, see)
}

// DeriveWith works out what follows from the answers where these are doubted.
func DeriveWith(from Reader, doubted clock.Doubts, see func(AnswerRow)) (*memory.Derived, error) {
	d := memory.NewDerived(memory.StartWeights)
	if err := loadWeights(from, d); err != nil {
		return nil, err
	}
	return d, Answers(from, func(k AnswerRow) error {
		see(k)
		if doubted.Of(k.N, k.At) {
			d.Doubt(k.N, k.Answer)
		} else {
			d.Add(k.Answer, k.Day)
		}
		return nil
	})
}
