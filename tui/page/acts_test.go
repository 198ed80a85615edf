package page

import "testing"

// An act that is not in the table has no keys, no words and no help: whoever calls for one is told at once.
func TestAnActThatIsNotInTheTable(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("there is an act that nobody can find")
		}
	}()
	Called("nothing of the kind", nil)
}
