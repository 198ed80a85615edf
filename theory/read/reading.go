package read

import (
	"slices"
	"strings"

	"sparetone/theory"
)

// reading is a symbol's suffix as far as it has been read.
type reading struct {
	rest     string
	quality  sign // major if none was written
	written  bool // a quality was
	number   int  // 5, 6, 69, 7, 9, 11, 13; 0 for a triad
	majorSev bool // the seventh is major
	bothSev  bool // the major seventh stands beside a sixth or a diminished seventh
	alt      bool // a seventh goes without saying
	augWord  bool // the fifth was raised by a word or a plus, which says that there is one fifth
	sus      []int
	altered  []theory.Interval
	added    []theory.Interval
	without  []missing
}

// missing is a tone that is left out: its number, and its accidental if one was written.
type missing struct {
	number int
	sign   sign // sharp, flat, or major if none was written
}

// in returns the place of the tone in a kind's formula, -1 if it has no such tone.
func (m missing) in(k *theory.Kind) int {
	if m.sign == major {
		return k.Numbered(m.number)
	}
	return slices.Index(k.Formula, alteredTone(m.number, m.sign))
}

// cutSign cuts the next sign off.
func (r *reading) cutSign() (sign, bool) {
	for _, s := range signWords {
		if len(r.rest) < len(s.written) || !strings.EqualFold(r.rest[:len(s.written)], s.written) {
			continue
		}
		if s.written == "ma" && hasFold(r.rest[1:], "add") { // the m of madd9 is not the ma of ma7
			break
		}
		r.rest = r.rest[len(s.written):]
		return s.sign, true
	}
	for _, s := range signMarks {
		if rest, ok := strings.CutPrefix(r.rest, s.written); ok {
			r.rest = rest
			return s.sign, true
		}
	}
	return 0, false
}
