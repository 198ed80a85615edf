package say

import (
	"testing"

	"sparetone/theory"
)

// Words are found whole, in any case, across facts, and as they are said aloud.
func TestMentions(t *testing.T) {
	text := Sentence("{} is the {}: it rubs.", Note(theory.Note{Letter: theory.F, Alter: 1}), Role(theory.MinorThird))
	for words, want := range map[string]bool{
		"third": true, "minor third": true, "Minor Third": true, "f sharp": true, "rubs": true,
		"thir": false, "third minor": false, "rub": false, "the third": false,
	} {
		if got := text.Mentions(words); got != want {
			t.Errorf("%q mentions %q: %v", text.Aloud(), words, got)
		}
	}
	if Of("a re-entrant tuning").Mentions("entrant") {
		t.Error("half a word is found")
	}
}
