package theory

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// A chord symbol is read in three steps. The root is cut off the front and a bass off the end: a slash
// belongs to a bass only if a note and nothing else follows it, so the one in C6/9 does not. What is left
// is looked up among the symbols of the table. Whatever is not there is read by its grammar, in suffix.go.

// maxSymbol is the longest symbol that is read, in bytes.
const maxSymbol = 80

// SymbolError says what is wrong with a chord symbol, and where.
type SymbolError struct {
	Symbol  string
	At      int // the character that is wrong, from 1
	Problem string
}

func (e *SymbolError) Error() string {
	return fmt.Sprintf("%s: character %d: %s", strconv.QuoteToGraphic(clip(e.Symbol)), e.At, e.Problem)
}

// ParseChord reads a chord symbol as people write it: C, F#m7b5, B♭maj7, C7(b9,#11), C6/9, Cm/Bb. The error
// is a *SymbolError that points at the character.
func ParseChord(s string) (Chord, error) {
	fail := func(byteAt int, format string, args ...any) (Chord, error) {
		return Chord{}, &SymbolError{s, utf8.RuneCountInString(s[:byteAt]) + 1, fmt.Sprintf(format, args...)}
	}
	if len(s) > maxSymbol {
		return fail(maxSymbol, "too long for a chord symbol")
	}
	for i, r := range s {
		if r == utf8.RuneError && !strings.HasPrefix(s[i:], "\uFFFD") {
			return fail(i, "not valid UTF-8")
		}
		if unicode.IsControl(r) && r != '\t' {
			return fail(i, "a control character")
		}
	}
	start := len(s) - len(strings.TrimLeft(s, " \t"))
	end := len(strings.TrimRight(s, " \t"))
	if start >= end {
		return fail(0, "empty; a chord symbol starts with its root, such as C or F#")
	}
	root, rest, err := cutNote(s[start:end])
	if err != nil {
		return fail(start, "a chord symbol starts with its root, a letter from A to G, such as C or F#")
	}
	c := NewChord(root, nil)
	start = end - len(rest)
	if slash := strings.LastIndexByte(rest, '/'); slash >= 0 {
		after := strings.TrimLeft(rest[slash+1:], " ")
		if bass, err := ParseNote(after); err == nil {
			c.Bass = bass
			end = start + slash
		} else if after == "" {
			return fail(start+slash, "a bass note or a number should follow the slash, as in C/E or C6/9")
		}
	}
	suffix := strings.TrimRight(s[start:end], " ")
	if k, ok := kindBySymbol[plainSigns.Replace(strings.TrimLeft(suffix, " "))]; ok {
		c.Kind = k
		return c, nil
	}
	r := reading{rest: suffix}
	if err := r.read(); err != "" {
		return fail(start+len(suffix)-len(r.rest), "%s", err)
	}
	tones := r.tones()
	kind, ok := KindByFormula(tones)
	if !ok {
		return fail(start, "%s has the tones %s, which are no kind of chord we know", strings.TrimSpace(suffix), degrees(tones))
	}
	c.Kind = kind
	for _, tone := range r.without {
		n := tone.in(kind.Formula)
		if n < 0 || len(kind.Formula)-len(r.without) < 2 {
			return fail(start, "%s: there is no such tone to leave out", strings.TrimSpace(suffix))
		}
		c.Without |= 1 << n
	}
	return c, nil
}

// plainSigns writes the signs of accidentals as they are typed.
var plainSigns = strings.NewReplacer("♯", "#", "♭", "b", "−", "-", "–", "-", "∆", "Δ", "△", "Δ", "º", "°", "Ø", "ø")

var kindBySymbol = func() map[string]*Kind {
	m := make(map[string]*Kind, 3*len(kinds))
	for _, k := range kinds {
		for _, sym := range k.Symbols {
			m[sym] = k
		}
	}
	return m
}()

func degrees(tones []Interval) string {
	words := make([]string, len(tones))
	for n, i := range tones {
		words[n] = i.Degree()
	}
	return strings.Join(words, " ")
}
