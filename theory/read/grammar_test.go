package read

import (
	"testing"

	"sparetone/theory"
)

// The grammar reads the symbols of the table as the table does. Only these are known by habit.
func TestGrammarAgreesWithTheTable(t *testing.T) {
	habits := map[string]bool{
		"67": true, "phryg": true, "quartal": true, "Tristan": true, "m11A": true,
	}
	for _, k := range theory.Kinds() {
		for _, symbol := range k.Symbols {
			r := reading{rest: symbol}
			problem := r.read()
			if habits[symbol] {
				if kind, ok := theory.KindByFormula(r.tones()); problem.IsZero() && ok && kind == k {
					t.Errorf("%s is no habit: the grammar reads it", symbol)
				}
				continue
			}
			if !problem.IsZero() {
				t.Errorf("%s by grammar: %s", symbol, problem)
			} else if got, _ := theory.KindByFormula(r.tones()); got != k {
				t.Errorf("%s by grammar is %v, by the table %s", symbol, got, k.ID)
			}
		}
	}
}
