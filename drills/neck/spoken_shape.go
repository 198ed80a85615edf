package neck

import (
	"strconv"
	"strings"

	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// stopWords are the words for how a string is stopped without a fret.
var stopWords = map[string]string{"open": "0", "zero": "0", "muted": "x", "mute": "x"}

// ReadSpoken reads a fret for each string as it is written, 0003 or 10 12 12 10, or in words as it is spoken: open open open three.
func ReadSpoken(text string) (fret.Shape, error) {
	s, err := fret.ParseShape(text)
	if err == nil {
		return s, nil
	}
	words := strings.Fields(strings.ReplaceAll(strings.ToLower(text), ",", " "))
	for i, w := range words {
		if stop, ok := stopWords[w]; ok {
			words[i] = stop
		} else if n, ok := read.Cardinal(w); ok {
			words[i] = strconv.Itoa(n)
		}
	}
	if spoken, wrong := fret.ParseShape(strings.Join(words, " ")); wrong == nil && len(words) > 1 {
		return spoken, nil
	}
	return nil, err
}
