package theory

// longestQuote is how many characters of what was typed an error repeats.
const longestQuote = 32

// Clip makes what was typed fit to be repeated in one line of an error: clean, and cut off at 32 characters.
func Clip(s string) string {
	s = Clean(s)
	if r := []rune(s); len(r) > longestQuote {
		return string(r[:longestQuote-1]) + "…"
	}
	return s
}
