package shapes

import (
	"slices"
	"testing"

	"sparetone/drills/trial"
)

// A string is known by its number and by what it is called; a letter that two strings have is not enough.
func TestStringsAreReadAsTheyAreCalled(t *testing.T) {
	for _, row := range []struct {
		on, text string
		want     []int
	}{
		{"ukulele", "g and E", []int{4, 2}},
		{"ukulele", "4 2", []int{4, 2}},
		{"ukulele", "the g string", []int{4}},
		{"guitar", "low E and D", []int{6, 4}},
		{"guitar", "the high E string", []int{1}},
		{"guitar", "E and D", nil},
		{"ukulele", "5", nil},
		{"ukulele", "H", nil},
	} {
		got, ok := stringNumbers(trial.Instrument(t, row.on).Tuning, row.text)
		if ok != (row.want != nil) || ok && !slices.Equal(got, row.want) {
			t.Errorf("%s, %q: %v, %v, want %v", row.on, row.text, got, ok, row.want)
		}
	}
}
