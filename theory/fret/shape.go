package fret

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"sparetone/theory"
)

// Muted is the fret of a string that is not played.
const Muted = -1

// Shape is a fret for each string in the tuning's order: 0 is the open string, Muted is not played.
type Shape []int

// digitStrings is how many strings a shape has at least to be written a digit a string: 12 alone is a fret. What is no fret, such as 00 and x2, is
// a digit a string anyway.
const digitStrings = 3

// String writes the shape as it is typed: a digit a string (0003, x32010), or with commas where a fret
// has two digits (10,12,12,10) or the strings are fewer than three.
func (s Shape) String() string {
	sep := ""
	if len(s) < digitStrings || slices.Max(s) > 9 {
		sep = ","
	}
	var b strings.Builder
	for i, f := range s {
		if i > 0 {
			b.WriteString(sep)
		}
		if f == Muted {
			b.WriteByte('x')
		} else {
			b.WriteString(strconv.Itoa(f))
		}
	}
	return b.String()
}

// maxTypedFret is the highest fret that is taken for one.
const maxTypedFret = 36

// ParseShape reads a shape: a digit a string (0003, x32010), or frets apart (0 0 0 3, 10,12,12,10, x-3-2-0-1-0). A
// muted string is x. The error says which string is wrong.
func ParseShape(s string) (Shape, error) {
	s = strings.TrimSpace(s)
	words := strings.FieldsFunc(s, func(r rune) bool { return r == ' ' || r == ',' || r == '\t' })
	switch {
	case len(words) != 1:
	case strings.Contains(s, "-"):
		words = strings.Split(s, "-")
	case len(s) >= digitStrings, len(s) > 1 && (s[0] == '0' || strings.ContainsAny(s, "xX")):
		words = strings.Split(s, "")
	}
	if len(words) == 0 {
		return nil, fmt.Errorf("no frets: write one for each string, such as 0003, x32010 or 10,12,12,10")
	}
	if len(words) > maxStrings {
		return nil, fmt.Errorf("%q has %d frets: no tuning has more than %d strings", theory.Clip(s), len(words), maxStrings)
	}
	shape := make(Shape, len(words))
	for i, w := range words {
		if w == "x" || w == "X" {
			shape[i] = Muted
			continue
		}
		f, err := strconv.ParseUint(w, 10, 8)
		if err != nil || f > maxTypedFret {
			return nil, fmt.Errorf("%q: %q is not a fret: a fret is a number from 0 to %d, or x for a muted string", theory.Clip(s), theory.Clip(w), maxTypedFret)
		}
		shape[i] = int(f)
	}
	return shape, nil
}
