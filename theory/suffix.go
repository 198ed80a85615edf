package theory

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// What follows the root of a symbol that is not in the table is read by this grammar:
//
//	quality   m  maj  dim  ø  aug           which triad
//	number    5 6 69 7 9 11 13              how far the thirds are stacked
//	then any of                             in any order, with or without brackets, commas and spaces
//	  maj7                                  the seventh is major: mmaj7, dim(maj7)
//	  sus2 sus4                             in place of the third
//	  b5 #5 b9 #9 #11 b13 …                 in place of the plain tone, or beside the others
//	  add9 add4 … (9) /9 …                  beside the others
//	  alt                                   #5 and #9
//	  no3 no5                               left out
//
// The tones so read are a kind if the table has a row with the same tones.

// sign is a word of the grammar.
type sign int

const (
	major    sign = iota // the word; a major seventh if a number follows
	delta                // the triangle: a major seventh whether or not a number follows
	minor                //
	dim                  //
	halfDim              //
	aug                  //
	dominant             // says nothing that the number does not
	sus                  //
	add                  //
	no                   //
	sharp                //
	flat                 //
	alt                  // fifth and ninth of a seventh chord are raised
	minus                // minor, or a flat before a number
	plus                 // augmented, or a sharp before a number
)

// signs are the ways in which people write each word, the longer before those they start with.
var signs = []struct {
	written string
	sign    sign
}{
	{"dominant", dominant}, {"dom", dominant}, {"major", major}, {"minor", minor}, {"omit", no}, {"without", no},
	{"maj", major}, {"Maj", major}, {"MAJ", major}, {"min", minor}, {"Min", minor}, {"MIN", minor}, {"dim", dim},
	{"Dim", dim}, {"aug", aug}, {"Aug", aug}, {"sus", sus}, {"add", add}, {"Add", add}, {"no", no}, {"alt", alt},
	{"madd", minor}, {"Madd", major}, {"ma", major}, {"Ma", major}, {"mi", minor}, {"M", major}, {"j", major}, {"m", minor},
	{"Δ", delta}, {"∆", delta}, {"△", delta}, {"^", major}, {"°", dim}, {"º", dim}, {"o", dim}, {"ø", halfDim},
	{"Ø", halfDim}, {"h", halfDim}, {"#", sharp}, {"♯", sharp}, {"b", flat}, {"♭", flat},
	{"-", minus}, {"−", minus}, {"–", minus}, {"+", plus},
}

// reading is a symbol's suffix as far as it has been read.
type reading struct {
	rest     string
	quality  sign // major if none was written
	written  bool // a quality was
	number   int  // 5, 6, 69, 7, 9, 11, 13; 0 for a triad
	majorSev bool // the seventh is major
	bothSev  bool // the major seventh stands beside the diminished one
	alt      bool // a seventh goes without saying
	sus      []int
	altered  []Interval
	added    []Interval
	without  []missing
}

// missing is a tone that is left out: its number, and its accidental if one was written.
type missing struct {
	number int
	sign   sign // sharp, flat, or major if none was written
}

// in returns the place of the tone in a formula, -1 if it has no such tone.
func (m missing) in(f []Interval) int {
	return slices.IndexFunc(f, func(i Interval) bool {
		return i.Number == m.number && (m.sign == major || i == alteredTone(m.number, m.sign))
	})
}

// read reads the whole suffix. It returns what is wrong, with rest where it is.
func (r *reading) read() string {
	depth, wanting := 0, false // wanting: a bracket, comma or slash needs something after it
	slash := false             // the next word follows a slash
	for r.rest != "" {
		switch c := r.rest[0]; c {
		case ' ', '\t':
			r.rest = r.rest[1:]
			continue
		case '(':
			if depth++; depth > 1 {
				return "a bracket within a bracket"
			}
			wanting = true
			r.rest = r.rest[1:]
			continue
		case ')':
			if depth--; depth < 0 {
				return "a closing bracket without an opening one"
			} else if wanting {
				return "nothing stands before the closing bracket"
			}
			r.rest = r.rest[1:]
			continue
		case ',', '/':
			if wanting {
				return fmt.Sprintf("nothing stands before the %c", c)
			}
			wanting, slash = true, c == '/'
			r.rest = r.rest[1:]
			continue
		}
		if err := r.word(depth > 0 || slash); err != "" {
			return err
		}
		wanting, slash = false, false
	}
	switch {
	case depth > 0:
		return "the bracket is not closed"
	case wanting:
		return "something should follow"
	}
	return ""
}

// word reads one word of the grammar. A plain number in brackets or after a slash is a tone that is added.
func (r *reading) word(apart bool) string {
	if r.rest[0] >= '0' && r.rest[0] <= '9' {
		return r.plainNumber(apart)
	}
	at := r.rest
	w, ok := r.sign()
	if !ok {
		return unknown(at)
	}
	fail := func(problem string) string {
		r.rest = at
		return problem
	}
	next := r.peekNumber()
	switch {
	case w == plus && (next == 5 || next > 0 && r.number > 0):
		w = sharp
	case w == minus && (next == 5 || next > 0 && r.number > 0):
		w = flat
	case w == minus:
		w = minor
	case w == plus:
		w = aug
	}
	switch w {
	case sharp, flat:
		return r.alter(w, fail)
	case add:
		n, w, ok := r.cutTone()
		if !ok || !slices.Contains([]int{2, 4, 6, 9, 11, 13}, n) {
			return fail("a number should follow add, as in add9")
		}
		r.added = append(r.added, alteredTone(n, w))
	case no:
		n, w, ok := r.cutTone()
		if !ok {
			return fail("the number of the tone left out should follow, as in no5")
		}
		r.without = append(r.without, missing{n, w})
	case alt:
		r.altered = append(r.altered, AugmentedFifth, AugmentedNinth)
		r.alt = true
	case sus:
		return r.suspend(fail)
	case dominant:
		if next == 0 {
			r.number = 7
		}
		r.written = true
	case major, delta:
		return r.majorSeventh(w, next, fail)
	case aug:
		if (r.number > 0 || r.quality == minor) && !r.hasAltered(5) { // C7+, Cm+
			r.altered = append(r.altered, AugmentedFifth)
			return ""
		}
		return r.triad(w, fail)
	default:
		return r.triad(w, fail)
	}
	return ""
}

// triad reads the quality of the triad.
func (r *reading) triad(w sign, fail func(string) string) string {
	if r.written || r.number > 0 {
		return fail("the quality of the triad stands once, right after the root")
	}
	r.quality, r.written = w, true
	return ""
}

// alter reads what follows a sharp or a flat.
func (r *reading) alter(w sign, fail func(string) string) string {
	n, ok := r.cutNumber()
	switch {
	case n == 7 && w == sharp && !r.majorSev: // Cm#7
		r.majorSev, r.number = true, max(r.number, 7)
	case ok && slices.Contains([]int{4, 5, 6, 9, 11, 13}, n):
		r.altered = append(r.altered, alteredTone(n, w))
	default:
		return fail("an alteration is b5, #5, b9, #9, #11, b13 or the like")
	}
	return ""
}

// suspend reads what follows sus: nothing, 2, 4 or both.
func (r *reading) suspend(fail func(string) string) string {
	switch {
	case strings.HasPrefix(r.rest, "24"):
		r.sus, r.rest = append(r.sus, 2, 4), r.rest[2:]
	case strings.HasPrefix(r.rest, "2"), strings.HasPrefix(r.rest, "4"):
		r.sus, r.rest = append(r.sus, int(r.rest[0]-'0')), r.rest[1:]
	default:
		r.sus = append(r.sus, 4)
	}
	if len(r.sus) > 2 {
		return fail("a chord is suspended once")
	}
	return ""
}

// majorSeventh reads maj, M or a triangle: the plain triad, or the size of a seventh.
func (r *reading) majorSeventh(w sign, next int, fail func(string) string) string {
	stacked := next == 7 || next == 9 || next == 11 || next == 13
	switch {
	case r.number == 0 && (stacked || w == delta || !r.written):
		r.majorSev = true // of no account if the chord has no seventh
		if w == delta && !stacked {
			r.number = 7
		}
	case r.number == 7 && r.quality == dim && next == 7:
		r.cutNumber()
		r.bothSev = true
	case r.number >= 7 && r.number <= 13 && next == 0 && !r.majorSev && r.quality != halfDim:
		r.majorSev = true // C7M, as written in much of Europe and South America
	default:
		return fail("maj should stand right after the root or before 7, 9, 11 or 13")
	}
	r.written = true
	return ""
}

// plainNumber reads a number without an accidental: how far the thirds are stacked, or a tone that is added.
func (r *reading) plainNumber(apart bool) string {
	at := r.rest
	n, _ := r.cutNumber()
	switch {
	case apart && (r.number > 0 || n != 7 && !r.majorSev) && slices.Contains([]int{2, 4, 6, 9, 11, 13}, n):
		r.added = append(r.added, alteredTone(n, major))
	case r.number == 6 && n == 9:
		r.number = 69
	case r.number == 0 && slices.Contains([]int{5, 6, 7, 9, 11, 13, 69}, n):
		r.number = n
	default:
		r.rest = at
		return fmt.Sprintf("%d: the number of a chord is 5, 6, 7, 9, 11, 13 or 6/9", n)
	}
	return ""
}

// sign cuts the next word off.
func (r *reading) sign() (sign, bool) {
	for _, s := range signs {
		if strings.HasPrefix(r.rest, s.written) {
			cut := len(s.written)
			if strings.HasSuffix(s.written, "add") && cut == len("madd") {
				cut = 1 // the m of madd9 is not the ma of ma7
			}
			r.rest = r.rest[cut:]
			return s.sign, true
		}
	}
	return 0, false
}

// cutTone cuts a number off, with a sharp or a flat before it or neither, which it returns as major.
func (r *reading) cutTone() (n int, w sign, ok bool) {
	if w, ok = r.sign(); !ok {
		w = major
	} else if w != sharp && w != flat {
		return 0, w, false
	}
	n, ok = r.cutNumber()
	return n, w, ok
}

// cutNumber cuts the number off that comes next, at most two digits.
func (r *reading) cutNumber() (int, bool) {
	n := r.peekNumber()
	if n == 0 {
		return 0, false
	}
	r.rest = strings.TrimLeft(r.rest, " ")
	r.rest = r.rest[len(strconv.Itoa(n)):]
	return n, true
}

// peekNumber returns the number that comes next, 0 if none does.
func (r *reading) peekNumber() int {
	n := 0
	for i, c := range strings.TrimLeft(r.rest, " ") {
		if c < '0' || c > '9' || i == 2 || i == 0 && c == '0' {
			break
		}
		n = 10*n + int(c-'0')
	}
	return n
}

func unknown(at string) string {
	r, _ := utf8.DecodeRuneInString(at)
	return fmt.Sprintf("%q says nothing in a chord symbol here", r)
}

// alteredTone returns the tone of a number, major or perfect as written, or a semitone off.
func alteredTone(n int, w sign) Interval {
	if n == 2 {
		n = 9
	}
	i := Interval{n, natural(n)}
	switch w {
	case sharp:
		i.Semitones++
	case flat:
		i.Semitones--
	}
	return i
}

func (r *reading) hasAltered(number int) bool {
	return slices.ContainsFunc(r.altered, func(i Interval) bool { return i.Number == number })
}

// tones returns the formula that was read.
func (r *reading) tones() []Interval {
	third, fifth, seventh := MajorThird, PerfectFifth, MinorSeventh
	switch r.quality {
	case minor:
		third = MinorThird
	case dim:
		third, fifth, seventh = MinorThird, DiminishedFifth, DimSeventh
	case halfDim:
		third, fifth = MinorThird, DiminishedFifth
		r.number = max(r.number, 7)
	case aug:
		fifth = AugmentedFifth
	}
	if r.majorSev {
		seventh = MajorSeventh
	}
	if r.alt {
		r.number = max(r.number, 7)
	}
	out := []Interval{Unison}
	switch {
	case r.number == 5:
	case len(r.sus) > 0:
		for _, s := range r.sus {
			out = append(out, Interval{s, natural(s)})
		}
	default:
		out = append(out, third)
	}
	if !r.hasAltered(5) {
		out = append(out, fifth)
	}
	switch r.number {
	case 6:
		out = append(out, MajorSixth)
	case 69:
		out = append(out, MajorSixth, MajorNinth)
	case 7, 9, 11, 13:
		out = append(out, seventh)
		for _, stacked := range []Interval{MajorNinth, Eleventh, Thirteenth} {
			left := stacked == Eleventh && r.number == 13 // a thirteenth chord has no eleventh
			if stacked.Number <= r.number && !left && !r.hasAltered(stacked.Number) {
				out = append(out, stacked)
			}
		}
	}
	if r.bothSev {
		out = append(out, MajorSeventh)
	}
	return append(append(out, r.altered...), r.added...)
}
