package read

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"sparetone/theory"
	"sparetone/theory/say"
)

// A chord is read in three steps. The root is cut off the front and a bass off the end: a slash belongs to a bass
// only if a note and nothing else follows it, so the one in C6/9 does not. What is left is looked up among the
// symbols of the table, and what is not there is read by their grammar, in suffix.go. If no letter begins it, or the
// grammar cannot follow, the root is looked for once more as a word or two (B flat, Fis, sol), and the kind in words.

// maxSymbol is the longest symbol that is read, in bytes.
const maxSymbol = 80

func tooLong(text string) bool { return len(text) > maxSymbol }

// Chord reads a chord as people write or say it: C, F#m7b5, B♭maj7, C7(b9,#11), C6/9, Cm/Bb, B flat minor, Fism7, sol7.
// The error is a *SymbolError that points at the character, or says which two chords could be meant.
func Chord(text string) (theory.Chord, error) {
	c, _, err := ChordOrAlt(text)
	return c, err
}

// ChordOrAlt reads a chord as Chord does, and reports whether it was written alt: that means several chords, with fifth and
// ninth altered in whichever way the player chooses, and this is one of them.
func ChordOrAlt(text string) (c theory.Chord, alt bool, err error) {
	ascii := asciiSigns(text)
	if err := legible(text); err != nil {
		return theory.Chord{}, false, err
	}
	c, s, wrong := lettered(text, ascii)
	named, namedSuffix, doubt := named(ascii, wrong != nil)
	switch {
	case doubt != nil:
		return theory.Chord{}, false, doubt
	case named.Kind != nil && wrong == nil:
		if c, s, err = sharedDo(ascii, c, s, named, namedSuffix); err != nil {
			return theory.Chord{}, false, err
		}
	case named.Kind != nil:
		c, s = named, namedSuffix
	case wrong != nil:
		return theory.Chord{}, false, wrong
	}
	return c, s.alt, nil
}

// legible says whether a text can be looked at as a symbol at all.
func legible(text string) error {
	fail := func(at int, problem say.Text) error {
		return &SymbolError{Symbol: text, At: utf8.RuneCountInString(text[:at]) + 1, Problem: problem}
	}
	if tooLong(text) {
		return fail(maxSymbol, tooLongSymbol)
	}
	for i, r := range text {
		switch {
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\uFFFD"):
			return fail(i, notUTF8)
		case unicode.IsControl(r) && r != '\t':
			return fail(i, control)
		case unicode.Is(unicode.Cf, r) || theory.Moves(r) && r != '\t':
			return fail(i, invisible)
		}
	}
	if slices.Contains(noChord, strings.ToLower(strings.TrimSpace(text))) {
		return fail(0, noChordPlayed)
	}
	return nil
}

// noChord are the ways in which charts say that no chord is played.
var noChord = []string{"n.c.", "n.c", "nc", "n. c.", "no chord", "tacet"}

// lettered reads a chord whose root is a letter with signs. text is the symbol as typed, for its errors.
func lettered(text, ascii string) (theory.Chord, suffix, error) {
	start := len(ascii) - len(strings.TrimLeft(ascii, " "))
	end := len(strings.TrimRight(ascii, " "))
	fail := func(at int, problem say.Text) (theory.Chord, suffix, error) {
		return theory.Chord{}, suffix{}, &SymbolError{Symbol: text, At: utf8.RuneCountInString(ascii[:at]) + 1, Problem: problem}
	}
	if start >= end {
		return fail(0, empty)
	}
	root, rest, ok := cutNote(ascii[start:end])
	if !ok {
		return fail(start, noRoot)
	}
	c := theory.NewChord(root, nil)
	start = end - len(rest)
	above, bass, over := cutBass(rest)
	if over && bass == nil {
		return fail(start+len(above), noBass)
	}
	if bass != nil {
		c.Bass = *bass
	}
	if err := germanB(rootName{root, ascii[len(ascii)-len(strings.TrimLeft(ascii, " ")) : start], rest}); err != nil {
		return theory.Chord{}, suffix{}, err
	}
	s, wrong := readSuffix(above)
	if wrong != nil {
		_, _, err := fail(start+wrong.at, wrong.problem)
		err.(*SymbolError).Nearest = root.ASCII() + nearest(strings.TrimSpace(above))
		return theory.Chord{}, suffix{}, err
	}
	c.Kind, c.Without = s.kind, s.without
	return c, s, nil
}

// cutBass divides what follows a root from the bass after its last slash. If nothing follows the slash, over is true
// and there is no bass; if it is no bass, above is all.
func cutBass(rest string) (above string, bass *theory.Note, over bool) {
	slash := strings.LastIndexByte(rest, '/')
	if slash < 0 {
		return rest, nil, false
	}
	after := strings.TrimSpace(rest[slash+1:])
	if after == "" {
		return rest[:slash], nil, true
	}
	if n, err := Note(after); err == nil {
		return rest[:slash], &n, true
	}
	return rest, nil, false
}

// rootName is a root that a text begins with, and what follows it.
type rootName struct {
	note       theory.Note
	name, rest string
}

// longestRoot is how long the name of a root is at most, in bytes: sol doppio bemolle.
const longestRoot = 24

// roots lists the roots that a text may begin with, the longest name first: B flat before B.
func roots(text string) []rootName {
	if hasFold(text, "an ") {
		text = text[len("an "):]
	}
	var out []rootName
	for end := min(len(text), longestRoot); end > 0; end-- {
		if end < len(text) && !utf8.RuneStart(text[end]) || strings.ContainsRune(" -,", rune(text[end-1])) {
			continue
		}
		if strings.IndexByte(text[end:], '#') == 0 || strings.IndexByte(text[end:], 'b') == 0 { // a sign of the root
			continue
		}
		if n, err := Note(text[:end]); err == nil {
			out = append(out, rootName{n, text[:end], text[end:]})
		}
	}
	return out
}

// named reads a chord whose root is a name of any kind, and its kind in words or as a symbol. Unless words are wanted,
// only the fixed-do names that begin as a letter does are looked at. The error says what could be two things.
func named(ascii string, words bool) (theory.Chord, suffix, error) {
	ascii = strings.TrimSpace(ascii)
	if !words && !hasFold(ascii, "do") {
		return theory.Chord{}, suffix{}, nil
	}
	for _, r := range roots(strings.ReplaceAll(ascii, " over ", "/")) {
		if !words && len(r.name) < len("do") {
			continue
		}
		above, bass, over := cutBass(r.rest)
		if over && bass == nil {
			continue
		}
		s, ok := suffixInWords(above)
		if !ok {
			continue
		}
		if err := germanB(r); err != nil {
			return theory.Chord{}, suffix{}, err
		}
		c := theory.NewChord(r.note, s.kind)
		c.Without = s.without
		if bass != nil {
			c.Bass = *bass
		}
		return c, s, nil
	}
	return theory.Chord{}, suffix{}, nil
}

// sharedDo decides between D with a small o, which is a diminished chord, and the fixed-do name of C. What says major
// or minor can only follow the name, as can a bass that is such a name; the rest could be either.
func sharedDo(ascii string, letter theory.Chord, s suffix, do theory.Chord, doSuffix suffix) (theory.Chord, suffix, error) {
	rest := strings.TrimSpace(ascii)[len("do"):]
	above, bass, _ := strings.Cut(rest, "/")
	if strings.ContainsAny(above, "mMjΔ^") || len(strings.TrimRight(strings.TrimSpace(bass), "#b")) > 1 {
		return do, doSuffix, nil
	}
	return letter, s, TwoChordsError{strings.TrimSpace(ascii), [2]theory.Chord{do, letter}}
}

// germanB says that a B is in doubt beside a German word or over a bass with a German name: there it is B flat.
func germanB(r rootName) error {
	if !strings.EqualFold(r.name, "b") {
		return nil
	}
	kind, bass, _ := strings.Cut(r.rest, "/")
	for _, w := range strings.Fields(Words(kind) + " " + bareWord(bass)) {
		if w == "dur" || w == "moll" || w == bareWord(strings.TrimSpace(bass)) && germanNote.MatchString(w) {
			return GermanBError{r.name, w}
		}
	}
	return nil
}
