package song

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/clipperhouse/displaywidth"
)

// Write writes a song as a chart that Read reads as the same song.
func Write(s Song) string {
	var b strings.Builder
	header := false
	for _, line := range headerLines {
		if value := line.write(s.Header); value != "" {
			fmt.Fprintf(&b, "%s: %s\n", line.name, value)
			header = true
		}
	}
	bracketed := false
	for _, section := range s.Sections {
		for _, line := range section.Lines {
			bracketed = bracketed || line.Form == Brackets
		}
	}
	for n, section := range s.Sections {
		if n > 0 || header {
			b.WriteByte('\n')
		}
		if section.Name != "" {
			b.WriteString(written(section.Name, bracketed) + "\n")
		}
		for i, line := range section.Lines {
			if line.Key != nil {
				fmt.Fprintf(&b, "key: %s\n", line.Key.Symbol())
			}
			chart := line.String()
			if i+1 < len(section.Lines) && line.wordless() && section.Lines[i+1].Form == Above && (i == 0 || !section.Lines[i-1].wordless()) {
				chart = line.above(" -") // with wide gaps the chords on the next line would be read as its words
			}
			if n == 0 && i == 0 && section.Name == "" && line.Form == Words && chart[0] != '\\' {
				b.WriteByte('\\') // no title
			}
			b.WriteString(chart)
			b.WriteByte('\n')
		}
	}
	return b.String()
}

// wordless reports whether a line is of chords that stand above no words.
func (l Line) wordless() bool { return l.Form == Above && strings.TrimSpace(l.Words) == "" }

// written writes the name of a section: in brackets, or with a colon where what is in brackets would be read as a chord.
func written(name string, bracketed bool) string {
	cells := rowOf(name).cells
	if strings.ContainsAny(name, "[]") {
		return name + ":"
	}
	if len(cells) > 0 && bracketed { // a backslash alone leaves none
		if _, err := chordEntry(0, cells); err == nil {
			return name + ":"
		}
	}
	return "[" + name + "]"
}

// rowOf returns a text as a line of a chart.
func rowOf(line string) row {
	all, err := rows(line)
	if err != nil || len(all) == 0 {
		return row{}
	}
	return all[0]
}

// String writes a line as it stands in a chart, with its words under it where they stand on a line of their own.
func (l Line) String() string {
	switch l.Form {
	case Bars:
		return writeBars(l.Bars)
	case Brackets:
		return l.inBrackets()
	case Above:
		return l.above("")
	}
	if l.Words == "" {
		return ""
	}
	return asWords(l.Words)
}

// asWords writes words, after a backslash where they would be read as something else.
func asWords(words string) string {
	cells := trim(rowOf(words).cells)
	r := &reader{blank: true, begun: true, rows: []row{{1, cells}}, said: map[int]bool{}}
	if len(cells) == 0 {
		return `\` + words
	}
	name, _, header := cutHeader(row{1, cells})
	_, _, named, err := r.section(row{1, cells})
	if named || err != nil || header && (headerOf(name) >= 0 || nearHeader(name) != "") || cells[0].r == '\\' || r.kindOf(0, cells) != Words {
		return `\` + words
	}
	return words
}

// Written writes an entry as it was written.
func (s Entry) Written() string {
	switch {
	case s.What == BarLine:
		return "|"
	case s.Typed != "":
		return s.Typed
	case s.What == Silent:
		return silences[0]
	case s.What == Hold:
		return "/"
	}
	return s.Chord.FullSymbol()
}

// writeBars writes bars with their repeat signs.
func writeBars(bars []Bar) string {
	var b strings.Builder
	for n, bar := range bars {
		switch {
		case bar.Start && n > 0 && bars[n-1].End && bars[n-1].Times == 0:
			b.WriteString(":|:")
		case bar.Start:
			b.WriteString("|:")
		case n > 0 && bars[n-1].End && bars[n-1].Times == 0:
			b.WriteString(":|")
		default:
			b.WriteString("|")
		}
		if len(bar.Endings) > 0 {
			numbers := make([]string, len(bar.Endings))
			for i, e := range bar.Endings {
				numbers[i] = strconv.Itoa(e)
			}
			b.WriteString(strings.Join(numbers, ",") + ".")
		}
		for _, s := range bar.Entries {
			b.WriteString(" " + s.Written())
		}
		if bar.Same {
			b.WriteString(" %")
		}
		b.WriteByte(' ')
		if bar.End && bar.Times > 0 {
			fmt.Fprintf(&b, ":| x%d ", bar.Times)
		}
	}
	switch last := len(bars) - 1; {
	case last < 0:
		return "|"
	case !bars[last].End:
		b.WriteString("|")
	case bars[last].Times == 0:
		b.WriteString(":|")
	}
	return strings.TrimRight(b.String(), " ")
}

// inBrackets writes words with chords in brackets.
func (l Line) inBrackets() string {
	var b strings.Builder
	words := []rune(l.Words)
	at := 0
	write := func(to int) {
		for ; at < to && at < len(words); at++ {
			b.WriteRune(words[at])
		}
	}
	for _, o := range l.Over {
		write(o.At)
		if o.What == BarLine {
			b.WriteByte('|')
		} else {
			b.WriteString("[" + o.Written() + "]")
		}
	}
	write(len(words))
	return b.String()
}

// above writes chords on a line above words, with something in the gaps between them; empty leaves them.
func (l Line) above(between string) string {
	var b strings.Builder
	end := -1 // of the chord before
	for _, o := range l.Over {
		place := max(placeOf(l.Words, o.At), end+1) // two may stand over one wide character
		if gap := place - end; between != "" && end >= 0 && gap > 2 && gap%len(between) == 1 {
			b.WriteString(strings.Repeat(between, gap/len(between)))
			end = place - 1
		}
		b.WriteString(strings.Repeat(" ", place-max(0, end)))
		b.WriteString(o.Written())
		end = place + displaywidth.String(o.Written())
	}
	if l.Times > 0 {
		fmt.Fprintf(&b, " x%d", l.Times)
	}
	words := strings.TrimRight(l.Words, " ")
	if words == "" {
		return b.String()
	}
	return b.String() + "\n" + asWords(words)
}
