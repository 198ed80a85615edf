package song

import (
	"slices"
	"strings"
	"unicode"

	"sparetone/theory"
)

// A chart is read line by line, and what a line is, is found out from itself and its neighbours (kindOf). Three things
// depend on the chart as a whole: whether it has chords in brackets within words, so that a lone [A] is a chord and no
// section and a lone A is a word; whether its first line is a title; and where its header ends.

// reader is a chart being read.
type reader struct {
	song      Song
	rows      []row
	said      map[int]bool // lines of the header so far
	begun     bool         // the header is over
	bracketed bool         // the chart has chords in brackets within words
	blank     bool         // the line before was blank, or there was none
	pending   []Line       // blank lines that are kept if something follows in the section
	hasChords bool
	letters   letters
	key       *theory.Key // a key that was said after the header, of the next line that is not blank; nil if there is none
	keyAt     error       // where that was said, as the error if nothing follows
	keyBefore int         // how many sections had begun by then
}

// Read reads a chart. The error is a *ChartError.
func Read(chart string) (Song, error) {
	all, err := rows(chart)
	if err != nil {
		return Song{}, err
	}
	r := &reader{rows: all, said: map[int]bool{}, blank: true, song: Song{Sections: []Section{{}}}}
	r.bracketed = slices.ContainsFunc(all, inWords)
	for n := 0; n < len(all); {
		used, err := r.line(n)
		if err != nil {
			return Song{}, err
		}
		n += used
	}
	if !r.hasChords {
		return Song{}, &ChartError{Line: 1, Column: 1, Problem: nothing}
	}
	if r.key != nil {
		return Song{}, r.keyAt
	}
	if err := r.letters.mixed(); err != nil {
		return Song{}, err
	}
	if first := r.song.Sections[0]; first.Name == "" && len(first.Lines) == 0 {
		r.song.Sections = r.song.Sections[1:]
	}
	return r.song, nil
}

// line reads a line and, where they belong to it, the words under it. It returns how many lines that were.
func (r *reader) line(n int) (used int, err error) {
	w := r.rows[n]
	cells := trim(w.cells)
	if len(cells) == 0 {
		if r.begun && !r.blank {
			r.pending = append(r.pending, Line{})
		}
		r.blank = true
		return 1, nil
	}
	defer func() { r.blank = false }()
	if cells[0].r == '\\' {
		r.add(Line{Words: text(w.cells[index(w.cells, '\\')+1:])})
		return 1, nil
	}
	if is, err := r.readHeader(w); is || err != nil {
		return 1, err
	}
	if !r.begun && r.song.Header.Title == "" && r.isTitle(n) {
		r.song.Header.Title, r.said[0] = text(cells), true
		return 1, nil
	}
	name, rest, named, err := r.section(w)
	switch {
	case err != nil:
		return 1, err
	case named:
		if r.keyMissed() {
			return 1, r.keyAt
		}
		r.begun, r.pending = true, nil
		r.song.Sections = append(r.song.Sections, Section{Name: name})
		if len(rest) == 0 {
			return 1, nil
		}
		cells = rest
	}
	switch r.kindOf(n, cells) {
	case Bars:
		return 1, r.bars(w.number, cells)
	case Brackets:
		return 1, r.brackets(row{w.number, w.cells})
	case Above:
		return r.above(n)
	}
	r.add(Line{Words: text(w.cells)})
	return 1, nil
}

// add adds a line to the section.
func (r *reader) add(l Line) {
	last := &r.song.Sections[len(r.song.Sections)-1]
	if r.key != nil {
		l.Key, r.key = r.key, nil
	}
	if len(last.Lines) > 0 {
		last.Lines = append(last.Lines, r.pending...)
	}
	r.pending, r.begun = nil, true
	last.Lines = append(last.Lines, l)
	r.hasChords = r.hasChords || slices.ContainsFunc(l.entries(), func(s Entry) bool { return s.What == Chord })
}

// keyMissed reports whether the section that is read has begun after a key was said, and has no lines that could be in it.
func (r *reader) keyMissed() bool {
	return r.key != nil && len(r.song.Sections) > r.keyBefore && len(r.song.Sections[len(r.song.Sections)-1].Lines) == 0
}

// isTitle reports whether the first line of a chart that is not blank is its title: words with a blank line or a line of the
// header after them.
func (r *reader) isTitle(n int) bool {
	for _, before := range r.rows[:n] {
		if len(before.cells) > 0 {
			return false
		}
	}
	if _, _, named, err := r.section(r.rows[n]); named || err != nil || r.kindOf(n, trim(r.rows[n].cells)) != Words || n+1 == len(r.rows) {
		return false
	}
	next := r.rows[n+1]
	name, _, header := cutHeader(next)
	return len(next.cells) == 0 || header && headerOf(name) >= 0
}

// sectionWords are the names of sections that stand on a line without brackets or a colon, in small letters. Common
// practice, no source.
var sectionWords = []string{
	"intro", "verse", "chorus", "refrain", "bridge", "pre-chorus", "prechorus", "interlude", "instrumental", "solo", "break",
	"outro", "coda", "ending", "tag", "strophe", "refrain", "couplet", "estribillo", "estrofa", "ritornello", "puente", "vers",
}

// longestName is how many characters the name of a section has at the most where a colon follows it.
const longestName = 40

// section reads the name of a section that a line begins with, and returns what follows it.
func (r *reader) section(w row) (name string, rest []cell, ok bool, err error) {
	cells := trim(w.cells)
	if cells[0].r == '[' {
		end := index(cells, ']')
		switch {
		case end < 0:
			return "", nil, false, wrong(w.number, cells, unclosed)
		case end == 1:
			return "", nil, false, wrong(w.number, cells, emptyName)
		}
		name, rest = text(trim(cells[1:end])), trim(cells[end+1:])
		if strings.Contains(name, "[") || name == "" || len(rest) > 0 && !isBars(rest) {
			return "", nil, false, nil
		}
		if _, err := chordEntry(w.number, trim(cells[1:end])); err == nil && r.bracketed && len(rest) == 0 {
			return "", nil, false, nil
		}
		return name, rest, true, nil
	}
	if colon := index(cells, ':'); colon > 0 && colon <= longestName {
		name, rest = text(trim(cells[:colon])), trim(cells[colon+1:])
		bars := len(rest) > 0 && isBars(rest)
		if !strings.ContainsAny(name, "|[]\\") && (bars || len(rest) == 0 && (r.blank || isSectionWord(name))) {
			return name, rest, true, nil
		}
	}
	name = text(cells)
	return name, nil, isSectionWord(name), nil
}

// isSectionWord reports whether a text is a word for a section, with a number behind it or not.
func isSectionWord(name string) bool {
	words := strings.Fields(strings.ToLower(name))
	if len(words) == 0 || len(words) > 2 || !slices.Contains(sectionWords, words[0]) {
		return false
	}
	return len(words) == 1 || strings.Trim(words[1], "0123456789") == ""
}

// inWords reports whether a line has chords in brackets within words, or several.
func inWords(w row) bool {
	cells := trim(w.cells)
	if index(cells, '[') < 0 || cells[0].r == '\\' {
		return false
	}
	if end := index(cells, ']'); cells[0].r == '[' && end > 0 {
		if rest := trim(cells[end+1:]); len(rest) > 0 && isBars(rest) {
			return false // a section and its bars
		}
	}
	found, words := 0, false
	for len(cells) > 0 {
		if cells[0].r != '[' {
			words = words || cells[0].r != ' ' && cells[0].r != '|'
			cells = cells[1:]
			continue
		}
		end := index(cells, ']')
		if end < 2 {
			return false
		}
		if _, err := chordEntry(w.number, cells[1:end]); err == nil {
			found++
		}
		cells = cells[end+1:]
	}
	return found > 1 || found == 1 && words
}

// kindOf finds out how the chords of a line are written.
func (r *reader) kindOf(n int, cells []cell) Form {
	switch {
	case isBars(cells):
		return Bars
	case index(cells, '[') >= 0 && index(cells, ']') >= 0:
		return Brackets
	case r.areChords(cells) && !r.underChords(n), r.areMistyped(cells) && !r.isChordRow(n-1):
		return Above
	}
	return Words
}

// isBars reports whether a line is of bars: it begins with a bar line, or has one after a chord.
func isBars(cells []cell) bool {
	if inBars := slices.IndexFunc(cells, func(c cell) bool { return c.r == '[' }); inBars >= 0 && !opensEnding(cells[inBars:]) {
		return false
	}
	first := barSign(cells[0].r)
	if strings.HasPrefix(first, "|") || first == ":|" {
		return true
	}
	if !slices.ContainsFunc(cells, func(c cell) bool { return strings.Contains(barSign(c.r), "|") }) || index(cells, '[') >= 0 {
		return false
	}
	token := fields(cells)[0]
	if bar := slices.IndexFunc(token, func(c cell) bool { return strings.Contains(barSign(c.r), "|") }); bar > 0 {
		token = token[:bar]
	}
	strong, weak := isChord(text(token))
	return strong || weak
}

// opensEnding reports whether a bracket opens the number of an ending and no chord.
func opensEnding(cells []cell) bool {
	return len(cells) > 1 && unicode.IsDigit(cells[1].r)
}

// leastLoneChords is how many chords a line has at the least where chords stand in brackets within words elsewhere.
const leastLoneChords = 2

// between is what may stand between the chords of a line of chords; it says nothing.
var between = []string{"-", "–", "→", "/", "."}

// areChords reports whether a line is of chords alone. So is one where one or a few are mistyped.
func (r *reader) areChords(cells []cell) bool {
	strong, weak, like, others := 0, 0, 0, 0
	for _, f := range fields(cells) {
		token := text(f)
		s, w := isChord(token)
		switch {
		case s || slices.Contains(silences[:3], bare(token)):
			strong++
		case w:
			weak++
		case strong+weak+like > 0 && (timesToken.MatchString(token) || slices.Contains(between, token)):
		case symbolLike.MatchString(token):
			like++
		default:
			others++
		}
	}
	if r.bracketed && strong+weak < leastLoneChords {
		return false
	}
	return others == 0 && strong > 0 && (like == 0 || strong > 1 && strong >= like)
}

// areMistyped reports whether a line is of chords with something among them that is none: it has wide gaps, as words have not, and two
// chords at the least, and more than what else stands there. As words it would be lost without a sign.
func (r *reader) areMistyped(cells []cell) bool {
	if r.bracketed || !gaps(cells) {
		return false
	}
	chords, others := 0, 0
	for _, f := range fields(cells) {
		token := text(f)
		switch s, _ := isChord(token); {
		case s || slices.Contains(silences[:3], bare(token)):
			chords++
		case !timesToken.MatchString(token) && !slices.Contains(between, token):
			if _, err := chordEntry(0, f); err == nil {
				return false // as a or es, which are words as well
			}
			others++
		}
	}
	return chords > 1 && others > 0 && chords > others
}

// underChords reports whether a line that could be of chords is the words under a line of chords: that one is written with
// wide gaps, this one as words are, and no other words follow.
func (r *reader) underChords(n int) bool {
	if n == 0 || !r.isChordRow(n-1) || r.isChordRow(n-2) || !gaps(r.rows[n-1].cells) || gaps(r.rows[n].cells) {
		return false
	}
	return n+1 == len(r.rows) || len(r.rows[n+1].cells) == 0 || r.isChordRow(n+1)
}

// isChordRow reports whether a line is of chords alone by itself.
func (r *reader) isChordRow(n int) bool {
	if n < 0 || n >= len(r.rows) {
		return false
	}
	cells := trim(r.rows[n].cells)
	return len(cells) > 0 && cells[0].r != '\\' && !isBars(cells) && index(cells, '[') < 0 && r.areChords(cells)
}

// gaps reports whether words stand further apart than one space somewhere in a line.
func gaps(cells []cell) bool { return strings.Contains(text(trim(cells)), "  ") }

// above reads a line of chords and the words under it.
func (r *reader) above(n int) (used int, err error) {
	w := r.rows[n]
	line, used := Line{Form: Above}, 1
	var words []cell
	if n+1 < len(r.rows) {
		next := r.rows[n+1]
		if r.isUnder(n + 1) {
			words, used = next.cells, 2
			if trim(words)[0].r == '\\' {
				words = slices.Delete(slices.Clone(words), index(words, '\\'), index(words, '\\')+1)
				for i := range words {
					words[i].at = placeOf(text(words), i)
				}
			}
		}
	}
	line.Words = text(words)
	for _, token := range fields(w.cells) {
		if n, is, err := times(w.number, token); err != nil {
			return used, err
		} else if is && len(line.Over) > 0 {
			line.Times = n
			continue
		}
		if slices.Contains(between, text(token)) {
			continue
		}
		entry, err := r.letters.entry(w.number, token)
		if err != nil {
			return used, err
		}
		line.Over = append(line.Over, Over{under(words, token[0].at), entry})
		line.Words = padded(line.Words, line.Over[len(line.Over)-1].At)
	}
	r.add(line)
	return used, nil
}

// isUnder reports whether a line under a line of chords is its words.
func (r *reader) isUnder(n int) bool {
	cells := trim(r.rows[n].cells)
	if len(cells) == 0 {
		return false
	}
	if cells[0].r == '\\' {
		return true
	}
	if name, value, is := cutHeader(r.rows[n]); is && headerOf(name) >= 0 && len(value) > 0 && headerLines[headerOf(name)].set(&Header{}, text(value)) == nil {
		return false
	}
	before := r.blank
	r.blank = false
	_, _, named, err := r.section(r.rows[n])
	r.blank = before
	return !named && err == nil && r.kindOf(n, cells) == Words
}

// brackets reads words with chords in brackets.
func (r *reader) brackets(w row) error {
	line := Line{Form: Brackets}
	var words []cell
	for i := 0; i < len(w.cells); i++ {
		c := w.cells[i]
		switch {
		case c.r == '|':
			line.Over = append(line.Over, Over{len(words), Entry{What: BarLine}})
			continue
		case c.r != '[':
			words = append(words, c)
			continue
		}
		end := index(w.cells[i:], ']')
		if end < 0 {
			return wrong(w.number, w.cells[i:], unclosed)
		}
		inner := trim(w.cells[i+1 : i+end])
		if len(inner) == 0 {
			return wrong(w.number, w.cells[i:i+end+1], emptyName)
		}
		entry, err := r.letters.entry(w.number, inner)
		if err != nil {
			return err
		}
		line.Over = append(line.Over, Over{len(words), entry})
		i += end
	}
	line.Words = text(words)
	r.add(line)
	return nil
}
