package sheet

import (
	"slices"
	"strings"

	"github.com/clipperhouse/displaywidth"

	"sparetone/theory"
	"sparetone/theory/song"
)

// segments divides a line of a song where it may be broken. A blank line has none.
func segments(l song.Line) (out []segment) {
	l = withSigns(l)
	if l.Form == song.Bars {
		for _, word := range strings.Fields(l.String()) {
			if len(out) == 0 || strings.Contains(word, "|") && len(strings.Fields(out[len(out)-1].below)) > 1 {
				out = append(out, segment{})
			}
			out[len(out)-1].below += word + " "
		}
		return out
	}
	words := []rune(strings.TrimRight(l.Words, " "))
	piece := func(from, to int) string {
		return theory.Clean(string(words[min(from, len(words)):min(to, len(words))]))
	}
	at, above := 0, ""
	for _, o := range l.Over {
		if o.At > at || above != "" {
			out = append(out, segment{above, piece(at, o.At)})
		}
		at, above = o.At, theory.Clean(o.Written())
	}
	if above != "" || at < len(words) {
		out = append(out, segment{above, piece(at, len(words))})
	}
	return out
}

// withSigns is a line whose chords have ♯ and ♭ as those beside their shapes have. A chord that is written otherwise than by its symbol stays.
func withSigns(l song.Line) song.Line {
	sign := func(e song.Entry) song.Entry {
		if e.What == song.Chord && (e.Typed == "" || e.Typed == e.Chord.Symbol() || e.Typed == e.Chord.FullSymbol()) {
			e.Typed = e.Chord.String()
		}
		return e
	}
	l.Bars, l.Over = slices.Clone(l.Bars), slices.Clone(l.Over)
	for i := range l.Bars {
		l.Bars[i].Entries = slices.Clone(l.Bars[i].Entries)
		for n, e := range l.Bars[i].Entries {
			l.Bars[i].Entries[n] = sign(e)
		}
	}
	for i := range l.Over {
		l.Over[i].Entry = sign(l.Over[i].Entry)
	}
	return l
}

// width is how many columns a segment takes: a chord has a space after it.
func (s segment) width() int {
	above := displaywidth.String(s.above)
	if above > 0 {
		above++
	}
	return max(above, displaywidth.String(s.below))
}

// broken breaks segments into lines of at most so many columns, and writes each as a line of chords, empty if it has none, and a
// line of words.
func broken(all []segment, columns int) (lines [][2]string) {
	var above, below strings.Builder
	used := 0
	end := func() {
		if used > 0 {
			lines = append(lines, [2]string{strings.TrimRight(above.String(), " "), strings.TrimRight(below.String(), " ")})
		}
		above.Reset()
		below.Reset()
		used = 0
	}
	for _, s := range all {
		for _, s := range s.cut(columns) {
			if used+s.width() > columns {
				end()
			}
			w := s.width()
			above.WriteString(s.above + strings.Repeat(" ", w-displaywidth.String(s.above)))
			below.WriteString(s.below + strings.Repeat(" ", w-displaywidth.String(s.below)))
			used += w
		}
	}
	end()
	return lines
}

// cut divides a segment that is longer than a line, at a space if there is one.
func (s segment) cut(columns int) (out []segment) {
	for s.width() > columns {
		words := []rune(s.below)
		at, width := 0, 0
		for at < len(words) && width+displaywidth.Rune(words[at]) <= columns {
			width += displaywidth.Rune(words[at])
			at++
		}
		if space := strings.LastIndexByte(string(words[:at]), ' '); space > 0 {
			at = len([]rune(string(words[:at])[:space+1]))
		}
		if at == 0 || at >= len(words) {
			break
		}
		out = append(out, segment{s.above, string(words[:at])})
		s = segment{"", string(words[at:])}
	}
	return append(out, s)
}
