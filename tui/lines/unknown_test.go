package lines

import (
	"strings"
	"testing"
)

// The key that says on the screen that one does not know says so in lines too, but where it is a note or a chord.
func TestTheKeyOfNotKnowingIsAWord(t *testing.T) {
	for drill, passes := range map[string]bool{"chord-ear": true, "interval-ear": true, "doubled": false, "same-or-not": true, "added-ear": true, "shape-tones": true, "build": true, "swap": true, "spell": false, "shape-name": false, "key-add": false} {
		a := newAnswering(t, drill, "ukulele", 1)
		if said := a.types("d"); strings.Contains(said, "Not known yet") != passes {
			t.Errorf("%s: d says %q", drill, said)
		}
	}
}

// A question mark asks for help, as its key does on the screen, and is no answer.
func TestAQuestionMarkAsksForHelp(t *testing.T) {
	for _, drill := range []string{"chord-ear", "shape-tones", "build", "spell", "key-add"} {
		a := newAnswering(t, drill, "ukulele", 1)
		if said := a.types("?"); !strings.Contains(said, "Everywhere: ") || strings.Contains(said, "Not known yet") {
			t.Errorf("%s: ? says %q", drill, said)
		}
		if said := a.types("?"); strings.Contains(said, "Not known yet") {
			t.Errorf("%s: the second ? says %q", drill, said)
		}
	}
}
