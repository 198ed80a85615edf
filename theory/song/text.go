package song

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/clipperhouse/displaywidth"

	"sparetone/theory"
)

// mostCharacters is how long a chart may be.
const mostCharacters = 200_000

// tabWidth is how far apart the columns are to which a tab goes on.
const tabWidth = 8

// cell is a character of a line and where it stands.
type cell struct {
	r      rune
	column int // in the line as it was written, from 1
	at     int // on the screen, from 0
	width  int // on the screen: 2 for wide characters of East Asia, 0 for signs that stand over others
}

// row is a line of a chart, with tabs as spaces and without what is not shown.
type row struct {
	number int // of the line, from 1
	cells  []cell
}

// rows divides a text into its lines, however they end.
func rows(text string) ([]row, error) {
	if utf8.RuneCountInString(text) > mostCharacters {
		return nil, &ChartError{Line: 1, Column: 1, Problem: tooLong(mostCharacters)}
	}
	text = strings.TrimPrefix(text, "\uFEFF")
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n", "\u2028", "\n", "\u2029", "\n", "\v", "\n", "\f", "\n").Replace(text)
	var out []row
	for line := range strings.SplitSeq(text, "\n") {
		w := row{number: len(out) + 1}
		column, at := 0, 0
		for i, r := range line {
			column++
			if r == utf8.RuneError && !strings.HasPrefix(line[i:], "\uFFFD") {
				return nil, &ChartError{Line: w.number, Column: column, Problem: notText}
			}
			switch {
			case r == '\t':
				for next := (at/tabWidth + 1) * tabWidth; at < next; at++ {
					w.cells = append(w.cells, cell{' ', column, at, 1})
				}
				continue
			case theory.Moves(r), r == utf8.RuneError:
				continue
			}
			wide := displaywidth.Rune(r)
			if unicode.IsSpace(r) {
				r = ' '
			}
			w.cells = append(w.cells, cell{r, column, at, wide})
			at += wide
		}
		for len(w.cells) > 0 && w.cells[len(w.cells)-1].r == ' ' {
			w.cells = w.cells[:len(w.cells)-1]
		}
		if !slices.ContainsFunc(w.cells, func(c cell) bool { return c.r != ' ' && c.r != '\\' }) {
			w.cells = nil // a backslash before nothing
		}
		out = append(out, w)
	}
	return out, nil
}

// text writes cells out.
func text(cells []cell) string {
	var b strings.Builder
	for _, c := range cells {
		b.WriteRune(c.r)
	}
	return b.String()
}

// trim returns cells without the spaces around them.
func trim(cells []cell) []cell {
	for len(cells) > 0 && cells[0].r == ' ' {
		cells = cells[1:]
	}
	for len(cells) > 0 && cells[len(cells)-1].r == ' ' {
		cells = cells[:len(cells)-1]
	}
	return cells
}

// fields divides cells at spaces.
func fields(cells []cell) (words [][]cell) {
	for {
		cells = trim(cells)
		if len(cells) == 0 {
			return words
		}
		end := slices.IndexFunc(cells, func(c cell) bool { return c.r == ' ' })
		if end < 0 {
			end = len(cells)
		}
		words, cells = append(words, cells[:end]), cells[end:]
	}
}

// index returns where a character stands first among cells, -1 if nowhere.
func index(cells []cell, r rune) int {
	return slices.IndexFunc(cells, func(c cell) bool { return c.r == r })
}

// under returns over which character of words something stands that is written at a place on the screen above them: the
// character there, or so many after the last as there are places.
func under(words []cell, at int) int {
	for n, c := range words {
		if c.at <= at && at < c.at+c.width {
			return n
		}
	}
	end := 0
	if len(words) > 0 {
		last := words[len(words)-1]
		end = last.at + last.width
	}
	return len(words) + max(0, at-end)
}

// placeOf is the way back: where on the screen the character with an index stands.
func placeOf(words string, at int) int {
	place := 0
	for _, r := range words {
		if at == 0 {
			return place
		}
		place += displaywidth.Rune(r)
		at--
	}
	return place + at
}

// padded returns words with spaces behind them, so that something may stand over a character.
func padded(words string, at int) string {
	return words + strings.Repeat(" ", max(0, at-utf8.RuneCountInString(words)))
}
