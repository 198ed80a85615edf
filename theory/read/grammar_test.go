package read

import (
	"testing"

	"sparetone/theory"
)

// The grammar reads the symbols of the table as the table does. Only these are known by habit.
func TestGrammarAgreesWithTheTable(t *testing.T) {
	habits := map[string]bool{
		"2": true, "4": true, "67": true, "b9sus": true, "phryg": true, "quartal": true,
		"Tristan": true, "m11A": true,
	}
	for _, k := range theory.Kinds() {
		for _, symbol := range k.Symbols {
			if habits[symbol] {
				continue
			}
			r := reading{rest: symbol}
			if problem := r.read(); problem != "" {
				t.Errorf("%s by grammar: %s", symbol, problem)
			} else if got, _ := theory.KindByFormula(r.tones()); got != k {
				t.Errorf("%s by grammar is %v, by the table %s", symbol, got, k.ID)
			}
		}
	}
}
