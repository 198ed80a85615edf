package read

import (
	"regexp"
	"slices"
	"strings"

	"sparetone/theory"
)

// runTogether is a chord's notes without anything between them, in capitals so that b is a flat: CEGBb.
var runTogether = regexp.MustCompile(`^(?:[A-G][#b♯♭]{0,2}){2,}$`)

// oneOf is one note of those.
var oneOf = regexp.MustCompile(`[A-G][#b♯♭]{0,2}`)

// inSmallLetters is the same in small letters, where a b could be a flat or a note.
var inSmallLetters = regexp.MustCompile(`^[a-g][a-g#♯♭]+$`)

// Notes reads notes with spaces, commas, hyphens, slashes or nothing between them; accidentals may be words of
// their own.
func Notes(text string) ([]theory.Note, error) {
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
		note, err := Note(strings.Join(typed[n:end], " "))
		switch {
		case err == nil:
			out = append(out, note)
		case end == n+1 && runTogether.MatchString(typed[n]):
			for _, name := range oneOf.FindAllString(typed[n], -1) {
				note, _, _ := cutNote(name)
				out = append(out, note)
			}
		case end == n+1 && inSmallLetters.MatchString(typed[n]):
			return nil, TogetherError{typed[n]}
		default:
			return nil, err
		}
		n = end
	}
	if len(out) == 0 {
		return nil, NoNotesError{}
	}
	return out, nil
}

// isAccidentalWord reports whether a word of its own is an accidental of the note before it. A b is that after a
// syllable alone: si b is B flat, A b is two notes.
func isAccidentalWord(note, word string) bool {
	low := bareWord(word)
	if _, rest, _ := cutLetter(bareWord(note)); low == "b" && rest == "" && len(note) > 1 {
		return true
	}
	return slices.Contains(twice, low) || strings.ContainsAny(low, "#♯♭♮") && strings.Trim(low, "#♯♭♮") == "" ||
		(low == "flat" || len(low) > len("eses")) && slices.ContainsFunc(inflections, func(i inflection) bool { return i.word == low })
}

// germanNote is a note that is written in German or Dutch alone.
var germanNote = regexp.MustCompile(`^(?:h(?:is|es)?|[a-g](?:isis|eses|is|es)|es|as|ases|asas)$`)

// whichB says that a B is in doubt: among German notes it is B flat, among Dutch ones it is B.
func whichB(typed []string) error {
	german := slices.IndexFunc(typed, func(w string) bool { return germanNote.MatchString(bareWord(w)) })
	if b := slices.IndexFunc(typed, func(w string) bool { return strings.EqualFold(w, "b") }); german >= 0 && b >= 0 {
		return GermanBError{typed[b], typed[german]}
	}
	return nil
}
