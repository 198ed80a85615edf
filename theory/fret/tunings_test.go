package fret

import (
	"strings"
	"testing"
)

// Every string of every tuning begins at the nut, but the short one of a five-string banjo, which begins at the fifth fret.
func TestWhereStringsBegin(t *testing.T) {
	for _, tuning := range Tunings() {
		for i := range tuning.Strings {
			want := 0
			if strings.HasPrefix(tuning.Name, "banjo") && i == 0 {
				want = 5
			}
			if got := tuning.Start(i); got != want {
				t.Errorf("%s: string %d begins at fret %d, want %d", tuning.Name, tuning.StringNumber(i), got, want)
			}
		}
	}
}
