package drills

import (
	"fmt"
	"slices"
	"strings"

	"sparetone/theory"
)

// syllables are the notes as they are named in the Romance languages. German H is B, and its B is not read as
// B flat: here B is B. Common practice, no source.
var syllables = []struct {
	name   string
	letter theory.Letter
}{
	{"do", theory.C}, {"ut", theory.C}, {"re", theory.D}, {"ré", theory.D}, {"mi", theory.E}, {"fa", theory.F},
	{"sol", theory.G}, {"so", theory.G}, {"la", theory.A}, {"si", theory.B}, {"ti", theory.B}, {"h", theory.B},
}

// inflection is a word for an accidental.
type inflection struct {
	word  string
	alter int8
}

// inflections are the words and endings for accidentals beside their signs: English, French, Italian, Spanish,
// German. The longer stand before those they begin with.
var inflections = []inflection{
	{"doublesharp", 2}, {"doubleflat", -2}, {"doubledièse", 2}, {"doublebémol", -2},
	{"sharp", 1}, {"flat", -1}, {"natural", 0}, {"dièse", 1}, {"diese", 1}, {"bémol", -1}, {"bemol", -1},
	{"diesis", 1}, {"bemolle", -1}, {"sostenido", 1}, {"isis", 2}, {"eses", -2}, {"is", 1}, {"es", -1}, {"s", -1},
}

// readNote understands a note in any usual spelling or language of accidentals: F#, B♭, b flat, Fis, Es, fa
// dièse. The error says what was read and what would be right.
func readNote(text string) (theory.Note, error) {
	name, signs := splitNote(text)
	if n, err := theory.ParseNote(name + signs); err == nil {
		return n, nil
	}
	wrong := fmt.Errorf("%q is not a note", clean(text))
	letter, rest, ok := cutLetter(strings.ToLower(name))
	if !ok || rest != "" && signs != "" {
		return theory.Note{}, wrong
	}
	rest += signs
	if n, err := theory.ParseNote("C" + rest); err == nil {
		return theory.Note{Letter: letter, Alter: n.Alter}, nil
	}
	for _, i := range inflections {
		// German As and Es drop a vowel; no other letter takes a bare s.
		if rest == i.word && (i.word != "s" || letter == theory.A || letter == theory.E) {
			return theory.Note{Letter: letter, Alter: i.alter}, nil
		}
	}
	return theory.Note{}, wrong
}

// splitNote divides a note into its first word and, in lower case, what the others say.
func splitNote(text string) (name, signs string) {
	fields := strings.Fields(strings.ReplaceAll(text, "-", " "))
	if len(fields) == 0 {
		return "", ""
	}
	return fields[0], strings.ToLower(strings.Join(fields[1:], ""))
}

// cutLetter reads the letter or syllable that a note begins with.
func cutLetter(low string) (letter theory.Letter, rest string, ok bool) {
	for _, s := range syllables {
		if rest, ok := strings.CutPrefix(low, s.name); ok {
			return s.letter, rest, true
		}
	}
	if low == "" {
		return 0, "", false
	}
	n, err := theory.ParseNote(low[:1])
	return n.Letter, low[1:], err == nil
}

// readNotes reads notes with spaces, commas or hyphens between them; accidentals may be words of their own.
func readNotes(text string) ([]theory.Note, error) {
	var out []theory.Note
	typed := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" ,;-\t", r) })
	for n := 0; n < len(typed); {
		end := n + 1
		for end < len(typed) && isAccidentalWord(typed[end]) {
			end++
		}
		note, err := readNote(strings.Join(typed[n:end], " "))
		if err != nil {
			return nil, err
		}
		out, n = append(out, note), end
	}
	if len(out) == 0 {
		return nil, errUnread
	}
	return out, nil
}

// isAccidentalWord reports whether a word of its own is an accidental of the note before it.
func isAccidentalWord(word string) bool {
	low := strings.ToLower(word)
	return low == "double" || strings.ContainsAny(low, "#♯♭") && strings.Trim(low, "#♯♭") == "" ||
		len(low) > 3 && slices.ContainsFunc(inflections, func(i inflection) bool { return i.word == low })
}
