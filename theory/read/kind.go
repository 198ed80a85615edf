package read

import (
	"strconv"
	"strings"
	"sync"
	"unicode"

	"sparetone/theory"
)

// kindByWords finds a kind by its name or its id.
var kindByWords = sync.OnceValue(func() map[string]*theory.Kind {
	m := map[string]*theory.Kind{}
	for _, k := range theory.Kinds() {
		m[Words(k.Name)] = k
	}
	for _, k := range theory.Kinds() {
		if w := Words(k.ID); m[w] == nil {
			m[w] = k
		}
	}
	return m
})

// kindInFull finds a kind by its name with every word written out: minor 7th, sus fourth, dominant 7th; and by the
// words of other languages for major and minor.
var kindInFull = sync.OnceValue(func() map[string]*theory.Kind {
	m := map[string]*theory.Kind{}
	for w, k := range kindByWords() {
		m[InFull(w)] = k
	}
	for n := 7; n <= 13; n += 2 {
		m["dominant "+ordinal(n)] = m[ordinal(n)]
	}
	major, minor := m["major"], m["minor"]
	for _, w := range []string{"dur", "majeur", "maggiore", "mayor", "maior"} {
		m[w] = major
	}
	for _, w := range []string{"moll", "mineur", "minore", "menor"} {
		m[w] = minor
	}
	m["suspended"] = m["suspended fourth"]
	m["half diminished seventh"] = m["half diminished"]
	return m
})

// Kind reads a kind of chord in words or as a symbol without its root: minor seventh, m7, sus 4.
func Kind(text string) (*theory.Kind, bool) {
	s, ok := suffixInWords(text)
	return s.kind, ok && text != "" && s.without == 0
}

// suffixInWords reads what follows a root in words or as a symbol. Nothing is a major chord.
func suffixInWords(text string) (suffix, bool) {
	w := strings.TrimSpace(strings.TrimSuffix(strings.TrimSuffix(Words(text), "chord"), "triad"))
	if k, ok := kindByWords()[w]; ok {
		return suffix{kind: k}, true
	}
	if s, wrong := readSuffix(asciiSigns(text)); wrong == nil {
		return s, true
	}
	if !hyphenated(text) {
		return suffix{}, false
	}
	if k, ok := kindInFull()[InFull(w)]; ok {
		return suffix{kind: k}, true
	}
	s, wrong := readSuffix(asSymbol(w))
	return s, wrong == nil
}

// hyphenated reports whether every hyphen of a text joins words, as in half-diminished and fis-Moll, and none is a
// minus.
func hyphenated(text string) bool {
	before := 'a'
	for i, r := range text {
		after := rune('-')
		if i+1 < len(text) {
			after = rune(text[i+1])
		}
		joins := unicode.IsLetter(before) && (unicode.IsLetter(after) || i > 0 && unicode.IsDigit(after))
		if r == '-' && !joins {
			return false
		}
		before = r
	}
	return true
}

// asSymbol writes the words for a kind of chord with the signs of a symbol: seven flat five becomes 7b5. Each word
// stands for one piece of the symbol, in the same order.
func asSymbol(words string) string {
	fields := strings.Fields(strings.ReplaceAll(words, "half diminished", "halfdiminished"))
	var out strings.Builder
	for _, f := range fields {
		if n, ok := Number(f); ok {
			f = strconv.Itoa(n)
		} else if sign, ok := signOfWord[f]; ok {
			f = sign
		}
		out.WriteString(f)
	}
	return out.String()
}

// signOfWord is the sign of a symbol that a word stands for.
var signOfWord = map[string]string{
	"major": "maj", "minor": "m", "diminished": "dim", "augmented": "aug", "halfdiminished": "ø", "dominant": "dom",
	"dur": "maj", "majeur": "maj", "maggiore": "maj", "mayor": "maj", "maior": "maj",
	"moll": "m", "mineur": "m", "minore": "m", "menor": "m", "suspended": "sus", "added": "add", "adding": "add", "with": "", "and": "", "the": "", "sharp": "#", "flat": "b",
	"raised": "#", "lowered": "b", "plus": "#", "minus": "b", "altered": "alt", "without": "no", "omit": "no", "root": "1",
}
