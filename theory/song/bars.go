package song

import (
	"regexp"
	"slices"
	"strconv"
	"strings"

	"sparetone/theory/say"
)

// barSigns are the signs of Unicode for what is typed as | and : in bars, and for a bar that is as the one before.
var barSigns = map[rune]string{
	'|': "|", ':': ":", '𝄀': "|", '𝄁': "||", '𝄂': "||", '𝄃': "||", '𝄆': "|:", '𝄇': ":|", '‖': "||", '│': "|", '┃': "|", '｜': "|", '¦': "|", '：': ":",
}

// barSign writes a rune as it is typed in bars, empty if it is no part of a bar line.
func barSign(r rune) string { return barSigns[r] }

// endingToken is how the number of an ending is written: 1, 1., [1., 1,2., 1-3.
var endingToken = regexp.MustCompile(`^\[?(\d{1,2}(?:[,\-–]\d{1,2})*)[.:)\]]*$`)

// bars reads a line of bars.
func (r *reader) bars(number int, cells []cell) error {
	b := barReader{number: number, first: r.hasBars(), letters: &r.letters}
	for len(cells) > 0 {
		c := cells[0]
		switch sign := barSign(c.r); {
		case c.r == ' ':
			cells = cells[1:]
		case sign != "":
			end := slices.IndexFunc(cells, func(c cell) bool { return barSign(c.r) == "" })
			if end < 0 {
				end = len(cells)
			}
			if err := b.barLine(cells[:end]); err != nil {
				return err
			}
			if cells = cells[end:]; len(cells) > 0 && cells[0].r == ']' {
				cells = cells[1:]
			}
		default:
			end := slices.IndexFunc(cells, func(c cell) bool { return c.r == ' ' || barSign(c.r) != "" })
			if end < 0 {
				end = len(cells)
			}
			if err := b.token(cells[:end]); err != nil {
				return err
			}
			cells = cells[end:]
		}
	}
	b.close()
	if b.times > 0 && len(b.done) > 0 {
		b.done[0].Start = true
		b.done[len(b.done)-1].End, b.done[len(b.done)-1].Times = true, b.times
	}
	r.add(Line{Form: Bars, Bars: b.done})
	return nil
}

// hasBars reports whether the song has bars so far, of whatever form.
func (r *reader) hasBars() bool {
	return slices.ContainsFunc(r.song.Sections, func(s Section) bool {
		return slices.ContainsFunc(s.Lines, func(l Line) bool { return len(l.Bars) > 0 || len(l.Over) > 0 })
	})
}

// barReader is a line of bars being read.
type barReader struct {
	letters *letters
	number  int
	first   bool // a bar may stand for the one before
	done    []Bar
	now     Bar
	open    bool // the bar has something in it, or a sign before it
	filled  bool // the bar has something in it
	times   int  // how often the whole line is played, 0 for once
}

// barLine reads a bar line with its repeat signs.
func (b *barReader) barLine(cells []cell) error {
	signs := ""
	for _, c := range cells {
		signs += barSign(c.r)
	}
	if !strings.Contains(signs, "|") && signs != "::" {
		return wrong(b.number, cells, badBarLine)
	}
	ends := strings.HasPrefix(signs, ":")
	starts := strings.HasSuffix(signs, ":")
	if ends && !b.filled && len(b.done) > 0 && !b.open {
		b.done[len(b.done)-1].End = true
	} else {
		if ends {
			b.now.End, b.open = true, true
		}
		b.close()
	}
	b.now.Start, b.open = starts, starts
	return nil
}

// close ends a bar, if one has begun. A bar of which nothing but signs are written goes on with what sounds.
func (b *barReader) close() {
	if b.filled || b.open && (b.now.End || b.now.Endings != nil) {
		b.done = append(b.done, b.now)
		b.now, b.open, b.filled = Bar{}, false, false
	}
}

// token reads what stands between bar lines.
func (b *barReader) token(token []cell) error {
	typed := text(token)
	if n, is, err := times(b.number, token); err != nil {
		return err
	} else if is {
		last := len(b.done) - 1
		switch {
		case b.filled || last < 0:
			return wrong(b.number, token, sayTimesWhere)
		case b.done[last].End:
			b.done[last].Times = n
		default:
			b.times = n
		}
		return nil
	}
	if m := endingToken.FindStringSubmatch(typed); m != nil {
		if b.filled || b.now.Endings != nil {
			return wrong(b.number, token, lateEnding)
		}
		endings, ok := EndingNumbers(m[1])
		if !ok {
			return wrong(b.number, token, lateEnding)
		}
		b.now.Endings, b.open = endings, true
		return nil
	}
	if b.now.Same {
		return wrong(b.number, token, notAlone)
	}
	switch typed {
	case "%", "𝄎", "./.", "٪":
		switch {
		case len(b.now.Entries) > 0:
			return wrong(b.number, token, notAlone)
		case len(b.done) == 0 && !b.first:
			return wrong(b.number, token, noBarBefore)
		}
		b.now.Same = true
	case "/", "-", ".", "𝄍":
		b.now.Entries = append(b.now.Entries, Entry{What: Hold, Typed: typed})
	default:
		entry, err := b.letters.entry(b.number, token)
		if err != nil {
			return err
		}
		b.now.Entries = append(b.now.Entries, entry)
	}
	b.open, b.filled = true, true
	return nil
}

// sayTimesWhere says where it stands how often something is played.
var sayTimesWhere = say.Of("how often a repeat is played stands after its end: |: C | G :| x3")

// EndingNumbers reads the numbers of an ending: 1, 1,2 or 1-3.
func EndingNumbers(typed string) (out []int, ok bool) {
	for part := range strings.SplitSeq(typed, ",") {
		from, to, ranged := strings.Cut(strings.ReplaceAll(part, "–", "-"), "-")
		a, _ := strconv.Atoi(from)
		z, _ := strconv.Atoi(to)
		if !ranged {
			z = a
		}
		for n := a; n <= z; n++ {
			out = append(out, n)
		}
	}
	slices.Sort(out)
	out = slices.Compact(out)
	return out, len(out) > 0 && out[0] >= 1 && out[len(out)-1] <= MostTimes
}
