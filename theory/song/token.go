package song

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"sparetone/theory"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

// On a line above words a text is taken for a chord only if it is written as chords are in charts: a large letter, signs,
// and what follows in signs and the short words of symbols. So what is a word as well is none: Go, Add, Dad. What could be
// a chord with a German name, such as As or Es, is one where other chords stand beside it.

// strongToken is how chords are written that are no words.
var strongToken = regexp.MustCompile(`^\(?[A-H](?:##?|bb?|♯♯?|♭♭?|x|𝄪|𝄫)?` + suffixPiece + `*(?:/[A-H](?:#|b|♯|♭)?)?\)?$`)

// suffixPiece is a part of what follows a root.
const suffixPiece = `(?:maj|Maj|MAJ|ma|Ma|MA|min|Min|MIN|mi|MI|m|M|dim|aug|sus|add|alt|no|omit|dom|o[79]|°|º|ø|Ø|Δ|△|\^|\+|-|–|#|♯|b|♭|\d|\(|\)|,|/\d|[⁰¹²³⁴⁵⁶⁷⁸⁹])`

// weakToken is how chords are written that could be words.
var weakToken = regexp.MustCompile(`^(?:[CDFGAEH]is|[DGCH]es|[AE]s)(?:` + suffixPiece + `*)$`)

// symbolLike is how a chord is written that is mistyped.
var symbolLike = regexp.MustCompile(`^[A-H][#b♯♭]?(?:[aijmndsugtbMø°Δ()/,#♯♭+-]|\d){1,10}$`)

// isChord reports whether a text is a chord on a line above words.
func isChord(token string) (strong, weak bool) {
	strong, weak = strongToken.MatchString(token), weakToken.MatchString(token)
	if !strong && !weak {
		return false, false
	}
	_, err := read.Chord(bare(token))
	return strong && err == nil, weak && err == nil
}

// bare returns a chord without the brackets that stand around all of it: (G7).
func bare(token string) string {
	inner, opened := strings.CutPrefix(token, "(")
	if inner, closed := strings.CutSuffix(inner, ")"); opened && closed && !strings.ContainsAny(inner, "()") {
		return inner
	}
	return token
}

// silences are the ways in which a chart says that no chord is played.
var silences = []string{"N.C.", "N.C", "NC", "n.c.", "n.c", "nc", "—"}

// chordEntry reads a chord, or that none is played.
func chordEntry(line int, token []cell) (Entry, error) {
	typed := text(token)
	if slices.Contains(silences, bare(typed)) {
		return Entry{What: Silent, Typed: typed}, nil
	}
	c, err := read.Chord(bare(typed))
	if err != nil {
		return Entry{}, wrong(line, token, say.Said(err))
	}
	return Entry{What: Chord, Chord: c, Typed: typed}, nil
}

// letters finds out whether a chart calls one note by two letters: where H is written, B is the note below it for some, and B natural for others.
type letters struct {
	h bool  // a root is written H
	b error // the first root that is written B, as the error if there is an H as well; nil if there is none
}

// entry reads a chord as chordEntry does, and notes how its root is written.
func (l *letters) entry(line int, token []cell) (Entry, error) {
	e, err := chordEntry(line, token)
	if err != nil || e.What != Chord {
		return e, err
	}
	switch letter := bare(e.Typed)[0]; {
	case letter == 'H':
		l.h = true
	case letter == 'B' && e.Chord.Root == theory.Note{Letter: theory.B} && l.b == nil:
		l.b = wrong(line, token, twoLetters)
	}
	return e, err
}

// mixed is the error of a chart that writes both H and B; nil if it does not.
func (l *letters) mixed() error {
	if l.h {
		return l.b
	}
	return nil
}

// wrong is an error about a token.
func wrong(line int, token []cell, problem say.Text) error {
	return &ChartError{Line: line, Column: token[0].column, Token: text(token), Problem: problem}
}

// MostTimes is how often a repeat is played at the most.
const MostTimes = 16

// timesToken is how it is written how often something is played: x3, 3x, (x3), ×3.
var timesToken = regexp.MustCompile(`^\(?(?:[x×X](\d{1,3})|(\d{1,3})[x×X])\)?$`)

// times reads how often something is played.
func times(line int, token []cell) (n int, is bool, err error) {
	m := timesToken.FindStringSubmatch(text(token))
	if m == nil {
		return 0, false, nil
	}
	n, _ = strconv.Atoi(m[1] + m[2])
	if n < 2 || n > MostTimes {
		return 0, true, wrong(line, token, badTimes)
	}
	return n, true, nil
}
