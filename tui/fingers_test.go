package tui

import (
	"regexp"
	"testing"
)

var twoFingers = regexp.MustCompile("[1-4]▁▁▁[1-4]▁")

// Which finger stops what is told on demand: in the dots of the screen, in words in lines of text.
func TestFingersOnDemand(t *testing.T) {
	a := sized(revealed(t, "added-ear", true), 60, 20)
	numbered := func() bool {
		return twoFingers.MatchString(plainText(drawn(a)))
	}
	before := numbered()
	keyed(a, "f")
	on := numbered()
	keyed(a, "f")
	if before || !on || numbered() {
		t.Errorf("before %v, asked for %v, and again %v:\n%s", before, on, numbered(), plainText(drawn(a)))
	}

	p, _ := practiceOf(t, true)
	text := plainly(t, p, "try", "2010", "fingers", "0000", "fingers", "F", "leave", "")
	says(t, text, "Finger 2 on the g string, fret 2; finger 1 on the E string, fret 1.", "finger 2, A")
}
