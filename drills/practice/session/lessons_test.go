package session

import (
	"testing"

	"sparetone/progress"
)

// Two of two choices are luck in one case of four, and five in one of 32; what is answered freely is done at the second time.
func TestWhenAThingIsDone(t *testing.T) {
	for choices, want := range map[int]int{2: 5, 3: 3, 4: 3, 5: 2, 0: 2} {
		r := run{}
		for n := 1; n <= want; n++ {
			r = r.after(progress.Answer{Result: progress.Right, Choices: choices})
			if r.done() != (n == want) {
				t.Errorf("of %d choices it is done after %d: %v", choices, n, r.done())
			}
		}
		if r = r.after(progress.Answer{Result: progress.Partly, Choices: choices}); r.done() {
			t.Error("it is done after a miss")
		}
	}
}
