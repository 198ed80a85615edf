package read

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/theory"
	"sparetone/theory/say"
)

// What follows the root of a symbol that is not in the table is read by this grammar:
//
//	quality   m  maj  dim  ø  aug           which triad
//	number    5 6 69 7 9 11 13              how far the thirds are stacked
//	then any of                             in any order, with or without brackets, commas and spaces
//	  maj7                                  the seventh is major: mmaj7, dim(maj7); beside a sixth: m6(maj7)
//	  sus2 sus4 4                           in place of the third
//	  b5 #5 b9 #9 #11 b13 … -5 +5 5- 5+     in place of the plain tone, or beside the others
//	  add9 add4 … (9) /9 …                  beside the others
//	  alt                                   fifth and ninth altered: read as #5 and #9
//	  no3 no5                               left out
//
// The tones so read are a kind if the table has a row with the same tones. signs.go lists how each sign is written,
// tones.go turns what was read into tones.

// suffix is what follows a root, understood.
type suffix struct {
	kind    *theory.Kind
	without theory.ToneSet
	alt     bool // fifth and ninth are altered in one of several ways
}

// fault is what is wrong with a suffix, and at which byte.
type fault struct {
	at      int
	problem say.Text
}

// readSuffix reads what follows a root, in ASCII.
func readSuffix(text string) (suffix, *fault) {
	trimmed := strings.Trim(text, " ")
	start := strings.Index(text, trimmed)
	alt := hasFold(strings.Trim(trimmed, " (7"), "alt")
	if k, ok := kindBySymbol()[trimmed]; ok {
		return suffix{kind: k, alt: alt}, nil
	}
	if k, ok := theory.KindByID(trimmed); ok { // as MusicXML has it: dominant-13th
		return suffix{kind: k}, nil
	}
	r := reading{rest: trimmed}
	if problem := r.read(); !problem.IsZero() {
		return suffix{}, &fault{start + len(trimmed) - len(r.rest), problem}
	}
	if problem := r.contradiction(); !problem.IsZero() {
		return suffix{}, &fault{start, problem}
	}
	tones := r.tones()
	kind, ok := theory.KindByFormula(tones)
	if !ok {
		return suffix{}, &fault{start, sayNoKind(trimmed, tones)}
	}
	out := suffix{kind: kind, alt: r.alt}
	for _, tone := range r.without {
		n := tone.in(kind)
		switch {
		case n >= 0:
			out.without |= 1 << n
		case tone == (missing{11, major}) && r.number == 13: // said to be sure
		default:
			return suffix{}, &fault{start, sayNoSuchTone(trimmed)}
		}
	}
	if len(kind.Formula)-len(r.without) < 2 {
		return suffix{}, &fault{start, sayOneTone(trimmed)}
	}
	return out, nil
}

// contradiction says which two signs of a suffix cannot both be meant; empty if all can.
func (r *reading) contradiction() say.Text {
	lowered, raised := false, false
	for _, i := range r.altered {
		lowered = lowered || i == theory.DiminishedFifth
		raised = raised || i == theory.AugmentedFifth
	}
	switch {
	case r.augWord && lowered:
		return raisedLowered
	case (r.quality == dim || r.quality == halfDim) && raised:
		return loweredRaised
	case r.quality != major && r.quality != minor && len(r.sus) > 0:
		return suspendedNoThird
	}
	return say.Text{}
}

// read reads the whole suffix. It returns what is wrong, with rest where it is.
func (r *reading) read() say.Text {
	depth, wanting := 0, false // wanting: a bracket, comma or slash needs something after it
	parted := false            // the next word follows a comma or a slash
	for r.rest != "" {
		switch c := r.rest[0]; c {
		case ' ':
			r.rest = r.rest[1:]
			continue
		case '(':
			if depth++; depth > 1 {
				return bracketInBracket
			}
			wanting = true
			r.rest = r.rest[1:]
			continue
		case ')':
			if depth--; depth < 0 {
				return bracketNotOpened
			} else if wanting {
				return bracketEmpty
			}
			r.rest = r.rest[1:]
			continue
		case ',', '/':
			if wanting {
				return sayNothingBefore(c)
			}
			wanting, parted = true, true
			r.rest = r.rest[1:]
			continue
		}
		if problem := r.word(depth > 0 || parted); !problem.IsZero() {
			return problem
		}
		wanting, parted = false, false
	}
	switch {
	case depth > 0:
		return bracketNotClosed
	case wanting:
		return shouldFollow
	}
	return say.Text{}
}

// word reads one word of the grammar. A plain number in brackets or after a comma or a slash is a tone that is
// added.
func (r *reading) word(apart bool) say.Text {
	if r.rest[0] >= '0' && r.rest[0] <= '9' {
		return r.plainNumber(apart)
	}
	at := r.rest
	w, ok := r.cutSign()
	if !ok {
		return sayMeaningless(at)
	}
	fail := func(problem say.Text) say.Text {
		r.rest = at
		return problem
	}
	next := r.peekNumber()
	switch {
	case w == plus && next == 7 && r.quality == minor && r.number == 0:
		if !apart {
			return fail(plusSeven)
		}
		w = sharp // Cm(+7)
	case w == plus && (next == 5 || next > 0 && (apart || r.number > 0)):
		w = sharp
	case w == minus && (next == 5 || next > 0 && (apart || r.number > 0)):
		w = flat
	case w == minus:
		w = minor
	case w == plus:
		w = aug
	}
	switch w {
	case sharp, flat, natural:
		return r.alter(w, fail)
	case add:
		return r.addTone(fail)
	case no:
		n, w, ok := r.cutTone()
		if !ok && r.cutRoot() {
			n, w, ok = 1, major, true
		}
		if !ok {
			return fail(leftOutNumber)
		}
		r.without = append(r.without, missing{n, w})
	case alt:
		r.altered = append(r.altered, theory.AugmentedFifth, theory.AugmentedNinth)
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
		r.augWord = true
		if next == 5 { // aug5
			r.cutNumber()
		}
		if (r.number > 0 || r.quality == minor) && !r.hasAltered(5) { // C7+, Cm+
			r.altered = append(r.altered, theory.AugmentedFifth)
			return say.Text{}
		}
		return r.triad(w, fail)
	default:
		return r.triad(w, fail)
	}
	return say.Text{}
}

// triad reads the quality of the triad.
func (r *reading) triad(w sign, fail func(say.Text) say.Text) say.Text {
	if r.written || r.number > 0 || r.sus != nil {
		return fail(qualityTwice)
	}
	r.quality, r.written = w, true
	return say.Text{}
}

// alter reads what follows a sharp, a flat or a natural.
func (r *reading) alter(w sign, fail func(say.Text) say.Text) say.Text {
	n, ok := r.cutNumber()
	switch {
	case n == 7 && w == sharp && !r.majorSev: // Cm#7
		r.majorSev, r.number = true, max(r.number, 7)
	case ok && w == natural && slices.Contains([]int{9, 11, 13}, n):
		r.added = append(r.added, theory.Plain(n))
	case ok && w != natural && slices.Contains([]int{4, 5, 6, 9, 11, 13}, n):
		r.altered = append(r.altered, alteredTone(n, w))
	default:
		return fail(noAlteration)
	}
	return say.Text{}
}

// addable are the numbers of tones that stand beside the others.
var addable = []int{2, 4, 6, 9, 11, 13}

// addTone reads what follows add: a tone beside the others. A suspended chord can take its third, and a triad or a
// sixth chord a seventh.
func (r *reading) addTone(fail func(say.Text) say.Text) say.Text {
	r.rest = strings.TrimLeft(r.rest, " ")
	before := r.rest
	if w, ok := r.cutSign(); ok && (w == major || w == delta) {
		if n, _ := r.cutNumber(); n == 7 {
			r.added = append(r.added, theory.MajorSeventh)
			return say.Text{}
		}
	}
	r.rest = before
	n, w, ok := r.cutTone()
	switch {
	case ok && slices.Contains(addable, n):
		r.added = append(r.added, alteredTone(n, w))
	case n == 7 && w == flat:
		r.added = append(r.added, theory.MinorSeventh)
	case (n == 3 || n == 10) && w == major && len(r.sus) > 0:
		r.added = append(r.added, theory.MajorThird)
	case n == 7:
		return fail(eitherSeventh)
	default:
		return fail(addedNumber)
	}
	return say.Text{}
}

// suspend reads what follows sus: nothing, 2, 4 or both.
func (r *reading) suspend(fail func(say.Text) say.Text) say.Text {
	if next := strings.TrimLeft(r.rest, " "); next != "" && (next[0] == '2' || next[0] == '4') {
		r.rest = next
	}
	if r.peekNumber() == 5 {
		return fail(suspendedBy)
	}
	switch {
	case strings.HasPrefix(r.rest, "24"), strings.HasPrefix(r.rest, "42"):
		r.sus, r.rest = append(r.sus, 2, 4), r.rest[2:]
	case strings.HasPrefix(r.rest, "2"), strings.HasPrefix(r.rest, "4"):
		r.sus, r.rest = append(r.sus, int(r.rest[0]-'0')), r.rest[1:]
	default:
		r.sus = append(r.sus, 4)
	}
	if len(r.sus) > 2 {
		return fail(suspendedOnce)
	}
	r.cutOrdinal()
	return say.Text{}
}

// majorSeventh reads maj, M or a triangle: the plain triad, or the size of a seventh.
func (r *reading) majorSeventh(w sign, next int, fail func(say.Text) say.Text) say.Text {
	stacked := next == 7 || next == 9 || next == 11 || next == 13
	switch {
	case r.number == 0 && (stacked || w == delta || !r.written):
		r.majorSev = true // of no account if the chord has no seventh
		if w == delta && !stacked {
			r.number = 7
		}
	case next == 7 && (r.number == 7 && r.quality == dim || r.number == 6):
		r.cutNumber()
		r.bothSev = true
	case r.number >= 7 && r.number <= 13 && next == 0 && !r.majorSev && r.quality != halfDim:
		r.majorSev = true // C7M, as written in much of Europe and South America
	default:
		return fail(majorMisplaced)
	}
	r.written = true
	return say.Text{}
}

// plainNumber reads a number without an accidental before it: how far the thirds are stacked, a tone that is added,
// or one whose accidental follows it, as in 7(9-).
func (r *reading) plainNumber(apart bool) say.Text {
	at := r.rest
	n, _ := r.cutNumber()
	if w, ok := r.signAfter(n, apart); ok {
		r.rest = r.rest[1:]
		r.altered = append(r.altered, alteredTone(n, w))
		return say.Text{}
	}
	switch {
	case apart && (r.number == 9 || r.number == 6 && n == 9) && (n == 6 || n == 9) && !r.written: // C9/6, C6/9
		r.number = 69
	case n == 4 && r.quality == major && len(r.sus) == 0: // C4, C7(4): in charts, in place of the third; one beside it is written add4 or 11
		r.sus = append(r.sus, 4)
	case apart && (r.number > 0 || n != 7 && !r.majorSev) && slices.Contains(addable, n):
		r.added = append(r.added, alteredTone(n, major))
	case r.number == 6 && n == 9:
		r.number = 69
	case r.number == 0 && slices.Contains([]int{5, 6, 7, 9, 11, 13, 69}, n):
		r.number = n
	case r.number == 0 && n == 2:
		r.added = append(r.added, theory.MajorNinth)
	case r.number == 0 && n == 4 && (r.quality == minor || len(r.sus) > 0):
		r.rest = at
		return fourthWhere
	default:
		r.rest = at
		if n == 0 {
			return zero
		}
		return sayNoNumber(n)
	}
	return say.Text{}
}

// signAfter tells the sign that follows a number and belongs to it: 5+, and in brackets or after a number 9-.
func (r *reading) signAfter(n int, apart bool) (sign, bool) {
	if r.rest == "" || r.rest[0] != '+' && r.rest[0] != '-' || n != 5 && (!apart || !slices.Contains([]int{9, 11, 13}, n)) {
		return 0, false
	}
	if after := r.rest[1:]; after != "" && after[0] >= '0' && after[0] <= '9' {
		return 0, false
	}
	if r.rest[0] == '+' {
		return sharp, true
	}
	return flat, true
}

// cutTone cuts a number off, with a sharp or a flat before it or neither, which it returns as major.
func (r *reading) cutTone() (n int, w sign, ok bool) {
	r.rest = strings.TrimLeft(r.rest, " ")
	switch w, ok = r.cutSign(); {
	case !ok, w == natural:
		w = major
	case w == plus:
		w = sharp
	case w == minus:
		w = flat
	case w != sharp && w != flat:
		return 0, w, false
	}
	n, ok = r.cutNumber()
	return n, w, ok
}

// cutRoot cuts the word for a root off that is left out: no root, noR. It follows cutTone, which has cut the spaces.
func (r *reading) cutRoot() bool {
	for _, root := range []string{"root", "r"} {
		if hasFold(r.rest, root) {
			r.rest = r.rest[len(root):]
			return true
		}
	}
	return false
}

// cutNumber cuts the number off that comes next, at most two digits, with the ending of an ordinal.
func (r *reading) cutNumber() (int, bool) {
	n := r.peekNumber()
	if n == 0 {
		return 0, false
	}
	r.rest = strings.TrimLeft(r.rest, " ")
	r.rest = r.rest[len(strconv.Itoa(n)):]
	r.cutOrdinal()
	return n, true
}

// cutOrdinal cuts the ending of an ordinal off: the rd of no3rd.
func (r *reading) cutOrdinal() {
	for _, ending := range ordinalEndings {
		if hasFold(r.rest, ending) {
			r.rest = r.rest[len(ending):]
			return
		}
	}
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
