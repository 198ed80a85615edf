package read

import "strings"

// inFull are the words that people shorten in the names of intervals and chords.
var inFull = map[string]string{
	"maj": "major", "min": "minor", "dim": "diminished", "aug": "augmented", "sus": "suspended", "add": "added", "dom": "dominant",
}

// InFull writes out what people shorten in the name of an interval or of a chord: min 3rd becomes minor third, sus 4
// suspended fourth.
func InFull(s string) string {
	fields := strings.Fields(s)
	for n, f := range fields {
		if number, ok := Number(f); ok && number > 1 {
			fields[n] = ordinal(number)
		} else if full, ok := inFull[f]; ok {
			fields[n] = full
		}
	}
	return strings.Join(fields, " ")
}
