package read

import "strings"

// betweenWords writes signs as they are typed, and spaces for what stands between words.
var betweenWords = strings.NewReplacer("-", " ", "‐", " ", "–", " ", ",", " ", ".", " ", "!", " ", "♭", "b", "♯", "#")

// articles do not count in a name.
var articles = []string{"a", "an", "the"}

// Words brings a name to the form in which names are compared: lower case, single spaces, no hyphens, and no article.
func Words(s string) string {
	s = betweenWords.Replace(strings.ToLower(s))
	s = strings.Join(strings.Fields(s), " ")
	for _, article := range articles {
		s = strings.TrimPrefix(s, article+" ")
	}
	return s
}

// unaccented takes the accents off vowels, and one kind of hyphen for all.
var unaccented = strings.NewReplacer("é", "e", "è", "e", "á", "a", "à", "a", "ó", "o", "ò", "o", "í", "i", "ì", "i",
	"É", "E", "\u0301", "", "\u0300", "", "‐", "-", "‑", "-", "–", "-", "—", "-")

// bareWord writes a word in lower case and without accents.
func bareWord(s string) string { return unaccented.Replace(strings.ToLower(s)) }
