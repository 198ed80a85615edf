package drills

import (
	"fmt"
	"strings"

	"sparetone/theory"
)

// readChord understands a chord as a symbol, and in words with its root in any usual spelling: B flat minor, Fism7.
// The error is that of the symbol.
func readChord(text string) (theory.Chord, error) {
	c, wrong := theory.ParseChord(text)
	if strings.EqualFold(strings.TrimSpace(text), "do") {
		return c, fmt.Errorf("%s could be C or D diminished: write C, or Ddim", strings.TrimSpace(text))
	}
	if wrong == nil {
		return c, nil
	}
	above, bass, over := strings.Cut(text, "/")
	root, kind, ok := cutRoot(above)
	if !ok {
		return c, wrong
	}
	c = theory.NewChord(root, kind)
	if over {
		n, err := readNote(bass)
		if err != nil {
			return c, wrong
		}
		c.Bass = n
	}
	return c, nil
}

// cutRoot reads a root, of as many words as there may be, and the kind of chord that follows it.
func cutRoot(text string) (theory.Note, *theory.Kind, bool) {
	fields := strings.FieldsFunc(unaccented.Replace(text), func(r rune) bool { return strings.ContainsRune(" -,\t", r) })
	if len(fields) > 1 && strings.EqualFold(fields[0], "an") {
		fields = fields[1:]
	}
	for n := min(len(fields), 3); n > 0; n-- {
		if root, err := readNote(strings.Join(fields[:n], " ")); err == nil {
			k, ok := kindOn(strings.Join(fields[n:], " "))
			return root, k, ok
		}
	}
	if len(fields) == 0 {
		return theory.Note{}, nil, false
	}
	for n := len(fields[0]) - 1; n > 0; n-- {
		if root, err := readNote(fields[0][:n]); err == nil {
			k, ok := kindOn(fields[0][n:] + " " + strings.Join(fields[1:], " "))
			return root, k, ok
		}
	}
	return theory.Note{}, nil, false
}

// kindOn understands what follows a root; nothing is a major chord.
func kindOn(text string) (*theory.Kind, bool) {
	if text = strings.TrimSpace(text); text == "" || text == "chord" {
		return mustKind("major"), true
	}
	return kindNamed(text)
}
