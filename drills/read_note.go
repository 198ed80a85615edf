package drills

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"sparetone/theory"
)

// syllables are the notes as they are named in the Romance languages. German H is B, and B on its own is B here;
// beside German notes it is in doubt, see whichB. Common practice, no source.
var syllables = []struct {
	name   string
	letter theory.Letter
}{
	{"do", theory.C}, {"ut", theory.C}, {"re", theory.D}, {"mi", theory.E}, {"fa", theory.F},
	{"sol", theory.G}, {"so", theory.G}, {"la", theory.A}, {"si", theory.B}, {"ti", theory.B}, {"h", theory.B},
}

// inflection is a word for an accidental. With letters it follows those alone: German As and Es drop a vowel.
type inflection struct {
	word    string
	alter   int8
	letters string
}

// inflections are the words and endings for accidentals beside their signs: English, French, Italian, Spanish,
// Portuguese, German and Dutch, without their accents.
var inflections = []inflection{
	{"sharp", 1, ""}, {"flat", -1, ""}, {"natural", 0, ""}, {"diese", 1, ""}, {"dieze", 1, ""}, {"bemol", -1, ""},
	{"diesis", 1, ""}, {"bemolle", -1, ""}, {"sostenido", 1, ""}, {"sustenido", 1, ""}, {"becarre", 0, ""},
	{"is", 1, ""}, {"es", -1, ""}, {"s", -1, "AE"}, {"isis", 2, ""}, {"eses", -2, ""}, {"ses", -2, "AE"}, {"sas", -2, "A"},
}

// twice are the words that double the accidental after them.
var twice = []string{"double", "doble", "doppio", "duplo"}

// unaccented takes the accents off vowels, and one kind of hyphen for all.
var unaccented = strings.NewReplacer("é", "e", "è", "e", "á", "a", "à", "a", "ó", "o", "ò", "o", "í", "i", "ì", "i",
	"\u0301", "", "\u0300", "", "‐", "-", "‑", "-", "–", "-", "—", "-")

// plainWord writes a word in lower case and without accents.
func plainWord(s string) string { return unaccented.Replace(strings.ToLower(s)) }

// readNote understands a note in any usual spelling or language of accidentals: F#, B♭, b flat, Fis, Es, fa
// dièse. The error says what was read and what would be right.
func readNote(text string) (theory.Note, error) {
	name, signs := splitNote(text)
	if n, err := theory.ParseNote(name + signs); err == nil {
		return n, nil
	}
	wrong := fmt.Errorf("%q is not a note", clean(text))
	letter, rest, ok := cutLetter(plainWord(name))
	if !ok || rest != "" && signs != "" {
		return theory.Note{}, wrong
	}
	alter, ok := inflected(letter, rest+signs)
	if !ok {
		return theory.Note{}, wrong
	}
	return theory.Note{Letter: letter, Alter: alter}, nil
}

// inflected reads what follows the letter of a note: signs, or a word, alone or twice.
func inflected(letter theory.Letter, rest string) (alter int8, ok bool) {
	if n, err := theory.ParseNote("C" + rest); err == nil {
		return n.Alter, true
	}
	for _, t := range twice {
		if word, doubled := strings.CutPrefix(rest, t); doubled {
			rest = word + word
		}
	}
	for _, i := range inflections {
		switch {
		case i.letters != "" && !strings.Contains(i.letters, letter.String()):
		case rest == i.word:
			return i.alter, true
		case len(i.word) > 3 && rest == i.word+i.word:
			return 2 * i.alter, true
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
	return fields[0], plainWord(strings.Join(fields[1:], ""))
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

// runTogether is a chord's notes without anything between them, in capitals so that b is a flat: CEGBb.
var runTogether = regexp.MustCompile(`^(?:[A-G][#b♯♭]{0,2}){2,}$`)

// oneOf is one note of those.
var oneOf = regexp.MustCompile(`[A-G][#b♯♭]{0,2}`)

// readNotes reads notes with spaces, commas, hyphens, slashes or nothing between them; accidentals may be words of
// their own.
func readNotes(text string) ([]theory.Note, error) {
	var out []theory.Note
	typed := strings.FieldsFunc(unaccented.Replace(text), func(r rune) bool { return strings.ContainsRune(" ,;-/|&+.\t", r) })
	typed = slices.DeleteFunc(typed, func(w string) bool { return strings.EqualFold(w, "and") })
	if err := whichB(typed); err != nil {
		return nil, err
	}
	for n := 0; n < len(typed); {
		end := n + 1
		for end < len(typed) && isAccidentalWord(typed[n], typed[end]) {
			end++
		}
		note, err := readNote(strings.Join(typed[n:end], " "))
		switch {
		case err == nil:
			out = append(out, note)
		case end == n+1 && runTogether.MatchString(typed[n]):
			out = append(out, notes(strings.Join(oneOf.FindAllString(typed[n], -1), " "))...)
		default:
			return nil, err
		}
		n = end
	}
	if len(out) == 0 {
		return nil, errUnread
	}
	return out, nil
}

// isAccidentalWord reports whether a word of its own is an accidental of the note before it. A b is that after a
// syllable alone: si b is B flat, A b is two notes.
func isAccidentalWord(note, word string) bool {
	low := plainWord(word)
	if _, rest, _ := cutLetter(plainWord(note)); low == "b" && rest == "" && len(note) > 1 {
		return true
	}
	return slices.Contains(twice, low) || strings.ContainsAny(low, "#♯♭♮") && strings.Trim(low, "#♯♭♮") == "" ||
		(low == "flat" || len(low) > len("eses")) && slices.ContainsFunc(inflections, func(i inflection) bool { return i.word == low })
}

// germanNote is a note that is written in German or Dutch alone.
var germanNote = regexp.MustCompile(`^(?:h(?:is|es)?|[a-g](?:isis|eses|is|es)|es|as|ases|asas)$`)

// whichB says that a B is in doubt: among German notes it is B flat, among Dutch ones it is B.
func whichB(typed []string) error {
	german := slices.IndexFunc(typed, func(w string) bool { return germanNote.MatchString(plainWord(w)) })
	if b := slices.IndexFunc(typed, func(w string) bool { return strings.EqualFold(w, "b") }); german >= 0 && b >= 0 {
		return fmt.Errorf("%s beside %s could be B flat or B natural: write Bb, or H", typed[b], clean(typed[german]))
	}
	return nil
}
