package lines

import (
	"strings"
	"testing"

	"sparetone/drills/practice"
)

// Nothing in the first run is of keys or drawings that lines of text do not have.
func TestGreetingsAreOfWords(t *testing.T) {
	for _, g := range practice.Greetings {
		for _, screen := range []string{"press", "drawn on its", "see necks"} {
			if strings.Contains(plainWords(g.About), screen) {
				t.Errorf("%q is of the screen: %s", screen, plainWords(g.About))
			}
		}
	}
}
