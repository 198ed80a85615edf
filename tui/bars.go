package tui

import (
	"fmt"
	"slices"
	"strings"

	"github.com/charmbracelet/x/ansi"

	"sparetone/drills/practice/songwork"
	"sparetone/tui/page"
)

// How bars stand on the screen.
const (
	barsInRow    = 4
	rowsOfBars   = 5 // shown at once where there is room
	fewRows      = 2 // and where there is little
	betweenBars  = "│ "
	barIsPlaying = "♪"
	chordIsHeard = "✓" // as the student played it
)

// cellOf is a bar as it is written, with the chord that is marked between brackets.
func cellOf(b page.Bars, one songwork.SongBar) string {
	var words []string
	for _, n := range one.Places {
		word := b.Symbol(n)
		if b.Lit != nil && b.Lit(n) {
			word += chordIsHeard
		}
		if n == b.Mark {
			word = "[" + word + "]"
		}
		words = append(words, word)
	}
	if words == nil {
		words = []string{"/"}
	}
	text := strings.Join(words, " ")
	if one.Number == b.Sounds {
		text = barIsPlaying + " " + text
	}
	return text
}

// barRows divides bars into rows, each as many as there is room for; a section begins a row.
func barRows(all []songwork.SongBar, inRow int) (rows [][]songwork.SongBar) {
	for _, b := range all {
		last := len(rows) - 1
		if last < 0 || len(rows[last]) == inRow || b.Section != "" {
			rows = append(rows, nil)
			last++
		}
		rows[last] = append(rows[last], b)
	}
	return rows
}

// bars draws the rows of bars around the chord that is marked.
func (b *body) bars(s page.Bars) {
	widest := 0
	for _, one := range s.All {
		widest = max(widest, ansi.StringWidth(cellOf(s, one))+2) // with room for the sign of what plays
	}
	inRow := barsInRow
	for inRow > 1 && inRow*(widest+len([]rune(betweenBars))+1) > b.col {
		inRow /= 2
	}
	cell := b.col / inRow
	rows := barRows(s.All, inRow)
	most := rowsOfBars
	if b.small {
		most = fewRows
	}
	at := max(0, slices.IndexFunc(rows, func(row []songwork.SongBar) bool {
		return slices.ContainsFunc(row, func(one songwork.SongBar) bool { return slices.Contains(one.Places, s.Mark) })
	}))
	first := max(0, min(at-most/2, len(rows)-most))
	shown := rows[first:min(len(rows), first+most)]
	for n, row := range shown {
		if name := row[0].Section; name != "" && !b.small {
			b.say(b.theme.Quiet, name)
		}
		line := ""
		for i, one := range row {
			style := b.theme.Text
			if one.Number == s.Sounds {
				style = b.theme.Strong
			}
			if slices.Contains(one.Places, s.Mark) {
				style = b.theme.Accent
			}
			text := ansi.Truncate(cellOf(s, one), cell-len([]rune(betweenBars))-1, "")
			line += b.theme.Quiet.Render(betweenBars) + style.Render(pad(text, cell-len([]rune(betweenBars))-1)) + " "
			if len(one.Places) > 0 {
				b.click(b.next(), i*cell, (i+1)*cell, chosenMsg{one.Places[0]})
			}
		}
		if first+n == at {
			b.keep(b.next())
		}
		b.add(strings.TrimRight(line, " "))
	}
	if len(shown) < len(rows) {
		b.say(b.theme.Quiet, fmt.Sprintf("bars %d to %d of %d", shown[0][0].Number, shown[len(shown)-1][len(shown[len(shown)-1])-1].Number, s.All[len(s.All)-1].Number))
	}
}

// overBars marks the chord a row up or down, and from the outermost rows the first or the last. It reports whether the key was for it.
func (a *app) overBars(s page.Bars, key string) (next page.Next, done bool) {
	by := map[string]int{"up": -1, "down": 1}[key]
	if by == 0 {
		return next, false
	}
	at := max(0, slices.IndexFunc(s.All, func(one songwork.SongBar) bool { return slices.Contains(one.Places, s.Mark) }))
	for to := min(max(at+by*barsInRow, 0), len(s.All)-1); to >= 0 && to < len(s.All); to += by {
		if len(s.All[to].Places) > 0 {
			return s.Point(s.All[to].Places[0]), true
		}
	}
	return next, true
}
