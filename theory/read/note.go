package read

import (
	"strings"

	"sparetone/theory"
)

// syllables are the notes as they are named in the Romance languages, do being C, and German H, which is B. A B on its
// own is B as in English; beside German notes it is in doubt, see whichB. Common practice, no source.
var syllables = []struct {
	name   string
	letter theory.Letter
}{
	{"do", theory.C}, {"ut", theory.C}, {"re", theory.D}, {"mi", theory.E}, {"fa", theory.F},
	{"sol", theory.G}, {"so", theory.G}, {"la", theory.A}, {"si", theory.B}, {"ti", theory.B}, {"h", theory.B},
}

// inflection is a word for an accidental, or an ending of the letter. With letters it follows those alone: German As
// and Es drop a vowel.
type inflection struct {
	word    string
	alter   int8
	ending  bool
	letters string
}

// inflections are the words and endings for accidentals beside their signs: English, French, Italian, Spanish,
// Portuguese, German and Dutch, without their accents.
var inflections = []inflection{
	{word: "sharp", alter: 1}, {word: "flat", alter: -1}, {word: "natural"}, {word: "diese", alter: 1}, {word: "dieze", alter: 1},
	{word: "bemol", alter: -1}, {word: "diesis", alter: 1}, {word: "bemolle", alter: -1}, {word: "sostenido", alter: 1},
	{word: "sustenido", alter: 1}, {word: "becarre"},
	{"is", 1, true, ""}, {"es", -1, true, ""}, {"s", -1, true, "AE"}, {"isis", 2, true, ""}, {"eses", -2, true, ""},
	{"ses", -2, true, "AE"}, {"sas", -2, true, "A"},
}

// twice are the words that double the accidental after them.
var twice = []string{"double", "doble", "doppio", "duplo"}

// Note reads a note in any usual spelling or language of accidentals: F#, B♭, b flat, Fis, Es, fa dièse. The error says
// what was read and what would be right.
func Note(text string) (theory.Note, error) {
	name, signs := splitNote(text)
	if n, rest, ok := cutNote(name + signs); ok && rest == "" {
		return n, nil
	}
	wrong := UnreadError{text, ANote}
	low := bareWord(name)
	letter, rest, ok := cutLetter(low)
	if !ok || rest != "" && signs != "" {
		return theory.Note{}, wrong
	}
	lettered := len(low)-len(rest) == 1
	alter, ok := inflected(letter, lettered, rest+signs)
	if !ok {
		return theory.Note{}, wrong
	}
	return theory.Note{Letter: letter, Alter: alter}, nil
}

// cutNote reads the letter, of either case, and the signs that s starts with, and returns what follows them.
func cutNote(s string) (n theory.Note, rest string, ok bool) {
	l := -1
	if s != "" {
		l = strings.IndexByte("CDEFGABcdefgab", s[0])
	}
	if l < 0 {
		return theory.Note{}, s, false
	}
	n.Letter = theory.Letter(l % 7)
	n.Alter, rest = theory.CutAccidentals(s[1:])
	return n, rest, true
}

// inflected reads what follows the name of a note: signs, or a word up to three times. German and Dutch endings follow
// letters only.
func inflected(letter theory.Letter, lettered bool, rest string) (alter int8, ok bool) {
	if alter, rest := theory.CutAccidentals(rest); rest == "" {
		return alter, true
	}
	for _, t := range twice {
		if word, doubled := strings.CutPrefix(rest, t); doubled {
			rest = word + word
		}
	}
	for _, i := range inflections {
		switch {
		case i.ending && !lettered:
		case i.letters != "" && !strings.Contains(i.letters, letter.String()):
		case rest == i.word:
			return i.alter, true
		case !i.ending && rest == strings.Repeat(i.word, 2), !i.ending && rest == strings.Repeat(i.word, 3):
			return i.alter * int8(len(rest)/len(i.word)), true
		}
	}
	return 0, false
}

// splitNote divides a note into its first word and, in lower case, what the others say.
func splitNote(text string) (name, signs string) {
	fields := strings.Fields(strings.ReplaceAll(unaccented.Replace(text), "-", " "))
	if len(fields) == 0 {
		return "", ""
	}
	return fields[0], bareWord(strings.Join(fields[1:], ""))
}

// cutLetter reads the letter or syllable that a note begins with.
func cutLetter(low string) (letter theory.Letter, rest string, ok bool) {
	for _, s := range syllables {
		if rest, ok := strings.CutPrefix(low, s.name); ok {
			return s.letter, rest, true
		}
	}
	if n, _, ok := cutNote(low); ok {
		return n.Letter, low[1:], true
	}
	return 0, low, false
}
