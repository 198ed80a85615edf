package song

import (
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/read"
)

// Progressions of ours in keys that are plain by their cadence.
func TestKeysAreFound(t *testing.T) {
	for chords, want := range map[string]string{
		"C G Am F":             "C major",
		"Am F C G":             "A minor",
		"G Em C D":             "G major",
		"D A Bm G":             "D major",
		"Dm Bb C Dm":           "D minor",
		"Em B7 Em Am B7 Em":    "E minor",
		"F Bb C7 F":            "F major",
		"Gm Cm D7 Gm":          "G minor",
		"Dm7 G7 Cmaj7":         "C major",
		"Bm7b5 E7 Am":          "A minor",
		"C7 F7 C7 G7 F7 C7":    "C major",
		"A D E7 A":             "A major",
		"Eb Ab Bb7 Eb":         "E♭ major",
		"F#m D A E F#m":        "F♯ minor",
		"G D/F# Em C G":        "G major",
		"C E7 Am F Fm C":       "C major",
		"Bb Gm Eb F7 Bb":       "B♭ major",
		"C#m A B C#m":          "C♯ minor",
		"Gb Db Ebm Cb Gb":      "G♭ major",
		"F#7 B":                "B major",
		"C Cadd9 F G7 C":       "C major",
		"Am Dm E7 Am F Dm E7":  "A minor",
		"D G A7 D Bm Em A7":    "D major",
		"Csus4 C Gsus4 G F C":  "C major",
		"E A E B7 E":           "E major",
		"Fm Db Ab Eb Fm C7 Fm": "F minor",
		"Cm Ab Eb Bb Cm G7 Cm": "C minor",
		"Dm7 Gm7 C7 Fmaj7":     "F major",
	} {
		var all []theory.Chord
		for symbol := range strings.FieldsSeq(chords) {
			all = append(all, chord(t, symbol))
		}
		best, next, ok := FindKey(all)
		if !ok || best.Key.String() != want {
			t.Errorf("%s: %s (%s), then %s (%s); want %s", chords, best.Key, best.Reason(), next.Key, next.Reason(), want)
		}
		if best.Key == next.Key {
			t.Errorf("%s: the runner-up is the same", chords)
		}
	}
}

func TestKeysAreFoundForAReason(t *testing.T) {
	best, next, _ := FindKey([]theory.Chord{chord(t, "C"), chord(t, "Am"), chord(t, "F"), chord(t, "G7"), chord(t, "C")})
	if got, want := best.Reason().Screen(), "5 of 5 chords are of it, the song begins and ends on its tonic, G7 leads to C"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if next.Key.String() == "C major" || next.Reason().IsZero() {
		t.Errorf("the runner-up is %s: %s", next.Key, next.Reason())
	}
	if _, _, ok := FindKey(nil); ok {
		t.Error("a key of no chords")
	}
}

// Of keys for which as much speaks, the one with the fewest signs comes first.
func TestOfKeysThatAreAsLikelyTheOneWithFewerSignsIsFound(t *testing.T) {
	for _, symbol := range []string{"Baug", "Db7#5b9", "Ebaug"} {
		best, next, ok := FindKey([]theory.Chord{chord(t, symbol)})
		if !ok || best.Key.String() != "C major" || next.Key.String() != "A minor" {
			t.Errorf("%s: %s, then %s", symbol, best.Key, next.Key)
		}
	}
}

// chord reads a symbol.
func chord(t testing.TB, symbol string) theory.Chord {
	t.Helper()
	c, err := read.Chord(symbol)
	if err != nil {
		t.Fatal(err)
	}
	return c
}
