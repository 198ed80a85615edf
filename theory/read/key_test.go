package read_test

import (
	"testing"

	"sparetone/theory/read"
)

func TestKeys(t *testing.T) {
	for text, want := range map[string]string{
		"C": "C major", "Cm": "C minor", "C-": "C minor", "CM": "C major", "F#m": "F# minor", "g# min": "G# minor", "Cb major": "Cb major",
		"Bb minor": "Bb minor", "B♭m": "Bb minor", "B flat minor": "Bb minor", "f sharp": "F# major", "Fis minor": "F# minor",
		"mi bémol major": "Eb major", "a minor": "A minor", "a-Moll": "A minor", "Es-Dur": "Eb major", "H": "B major", "h-Moll": "B minor",
		"Do": "C major", "do dièse mineur": "C# minor", "sol menor": "G minor", "Dm": "D minor", "Dom": "C minor",
	} {
		if got, err := read.Key(text); err != nil || got.ASCII() != want {
			t.Errorf("%q is read as %s, %v; want %s", text, got.ASCII(), err, want)
		}
	}
}

func TestWrongKeys(t *testing.T) {
	const right = ": write its tonic, and m or minor for a minor key, such as Eb or F#m"
	for text, want := range map[string]string{
		"":                       `"" is not a key` + right,
		"purple":                 `"purple" is not a key` + right,
		"C seventh":              `"C seventh" is not a key` + right,
		"C dorian":               `"C dorian" is not a key` + right,
		"C\x1b[31m \u202edorian": `"C[31m dorian" is not a key` + right,
		"G# major":               "G♯ major has no key signature: keys go from seven flats to seven sharps",
		"G sharp major":          "G♯ major has no key signature: keys go from seven flats to seven sharps",
		"B-Dur":                  "B beside dur could be B flat or B natural: write Bb, or H",
	} {
		if got, err := read.Key(text); err == nil || err.Error() != want {
			t.Errorf("%q: %v, %v; want %s", text, got, err, want)
		}
	}
}
