package catalogue

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"sparetone/drills/trial"
)

// The ids of targets stand in progress files: they stay as they are.
func TestTargetIDsStay(t *testing.T) {
	text, err := os.ReadFile("testdata/targets.tsv")
	if err != nil {
		t.Fatal(err)
	}
	var want, got []string
	for line := range strings.Lines(string(text)) {
		if !strings.HasPrefix(line, "#") {
			want = append(want, strings.TrimSuffix(line, "\n"))
		}
	}
	for _, name := range []string{"ukulele", "guitar", "baritone", "mandolin"} {
		on := trial.Instrument(t, name)
		for _, d := range All() {
			for _, target := range d.Targets(on) {
				line := fmt.Sprintf("%s\t%s", target.ID, strings.Join(target.Near, " "))
				if !slices.Contains(got, line) {
					got = append(got, line)
				}
			}
		}
	}
	for _, line := range got {
		if !slices.Contains(want, line) {
			t.Errorf("%q is no target that files may hold", line)
		}
	}
	for _, line := range want {
		if !slices.Contains(got, line) {
			t.Errorf("%q is no target any more", line)
		}
	}
}
