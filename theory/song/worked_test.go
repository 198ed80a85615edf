package song

import (
	"strings"
	"testing"
)

// Twelve progressions of ours, worked by hand: the key by its cadence, numerals by the degrees of the scale with the quality of each
// chord, and which chords are of the key and which are borrowed or applied. The rules are those of Mount, Fundamentals, Function, and Form
// (2020), on diatonic triads and seventh chords, applied chords and modal mixture; from memory. ! stands before a chord that is not
// of the key.
func TestProgressionsWorkedByHand(t *testing.T) {
	for _, row := range []struct{ chords, key, numerals string }{
		{"C Am Dm G7 C", "C major", "I vi ii V7 I"},
		{"G Em Am D7 G", "G major", "I vi ii V7 I"},
		{"F Bb Gm C7 F", "F major", "I IV ii V7 I"},
		{"D Bm Em A7 D", "D major", "I vi ii V7 I"},
		{"Am Dm E7 Am", "A minor", "i iv V7 i"},
		{"Em C Am B7 Em", "E minor", "i VI iv V7 i"},
		{"Dm Gm Edim A7 Dm", "D minor", "i iv ii° V7 i"},
		{"C E7 Am F G C", "C major", "I !III7 vi IV V I"},
		{"C D7 G7 C", "C major", "I !II7 V7 I"},
		{"G C Cm G", "G major", "I IV !iv I"},
		{"Cmaj7 Am7 Dm7 G7 Cmaj7", "C major", "Imaj7 vi7 ii7 V7 Imaj7"},
		{"Gm Cm Adim D7 Gm", "G minor", "i iv ii° V7 i"},
	} {
		a := arrangeChart(t, "| "+strings.Join(strings.Fields(row.chords), " | ")+" |", Wishes{Rich: 5})
		var numerals []string
		for _, p := range a.Places {
			mark := ""
			if p.Outside {
				mark = "!"
			}
			numerals = append(numerals, mark+a.Key.Numeral(p.Chord))
		}
		if got := strings.Join(numerals, " "); a.Key.String() != row.key || got != row.numerals {
			t.Errorf("%s: %s in %s, want %s in %s", row.chords, got, a.Key, row.numerals, row.key)
		}
		// A colour of the path is of the key, keeps what tells the chord, and is no other chord of the same root and plainer kind.
		for _, p := range a.Places {
			if c := p.Path.Colour; c != nil && (!c.InKey() || c.Lost || c.Harder || c.Chord.Root != p.Chord.Root) {
				t.Errorf("%s in %s: %s", row.chords, row.key, list([]Colour{*c}))
			}
		}
	}
}
