package song

import (
	"slices"
	"strings"
	"unicode"
)

// Sung is what is sung from where a chord comes to where the next does.
type Sung struct {
	Verses []string // the first is what stands under the chord; then what stands under its line as further lines of words
	Inside [2]bool  // the first verse begins, and ends, inside a word
	Ends   bool     // a line of words ends with it
}

// sung divides the words of a line at its chords. What stands before the first is sung with it, for there is no time of its own.
func (l Line) sung() (all []Sung) {
	words := []rune(l.Words)
	inside := func(at int) bool { // a word
		return at > 0 && at < len(words) && !unicode.IsSpace(words[at-1]) && !unicode.IsSpace(words[at])
	}
	over := slices.DeleteFunc(slices.Clone(l.Over), func(o Over) bool { return o.What == BarLine })
	from := 0
	for n := range over {
		to := len(words)
		if n+1 < len(over) {
			to = max(from, min(over[n+1].At, to))
		}
		s := Sung{Verses: []string{strings.Join(strings.Fields(string(words[from:to])), " ")}, Ends: n == len(over)-1 && strings.TrimSpace(l.Words) != ""}
		if from < to {
			s.Inside = [2]bool{inside(from), inside(to)}
		}
		all, from = append(all, s), to
	}
	return all
}

// sungIn returns what is sung in each bar of a section's lines, entry by entry; nil for a bar without words. Lines of words alone
// are further verses of the line with chords before them.
func sungIn(lines []Line) (bars [][]Sung) {
	first := 0 // bar of the line with chords before
	last := 0  // entry of its last bar
	for _, l := range lines {
		if l.Form == Words {
			if words := strings.Join(strings.Fields(l.Words), " "); first < len(bars) && words != "" {
				if end := &bars[len(bars)-1]; *end == nil {
					*end = make([]Sung, last+1)
					(*end)[last].Ends = true
				}
				if bars[first] == nil {
					bars[first] = make([]Sung, 1)
				}
				bars[first][0].Verses = append(bars[first][0].Verses, words)
			}
			continue
		}
		first = len(bars)
		all := l.sung()
		for _, b := range l.measures() {
			if l.Form == Bars {
				bars, last = append(bars, nil), max(0, len(b.Entries)-1)
				continue
			}
			n := len(b.Entries)
			bars, all = append(bars, all[:n:n]), all[n:]
		}
	}
	return bars
}

// join takes up what is sung while a chord goes on.
func (s *Sung) join(more Sung) {
	if len(s.Verses) == 0 {
		s.Inside[0] = more.Inside[0]
	}
	for n, words := range more.Verses {
		if n == len(s.Verses) {
			s.Verses = append(slices.Clone(s.Verses), "")
		} else {
			s.Verses = slices.Clone(s.Verses)
		}
		s.Verses[n] = strings.TrimSpace(s.Verses[n] + " " + words)
	}
	s.Inside[1], s.Ends = more.Inside[1], s.Ends || more.Ends
}
