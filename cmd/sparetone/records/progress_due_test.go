package records

import "testing"

// One thing needs practice, and others need it.
func TestWhatIsDueIsCounted(t *testing.T) {
	for _, c := range []struct {
		due, weak int
		want      string
	}{{0, 1, "0 things need practice now, 1 weak."}, {1, 0, "1 thing needs practice now, 0 weak."}, {2, 2, "2 things need practice now, 2 weak."}} {
		if got := sayDue(c.due, c.weak); got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
	}
}
