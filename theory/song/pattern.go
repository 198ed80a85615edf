package song

import (
	"strconv"
	"strings"

	"sparetone/theory/say"
)

// Pattern is what a plucking hand does over and over, in steps of equal length. The zero Pattern says nothing.
type Pattern struct{ Steps []Step }

// Step is what a hand does at one step. Of its fields one is set; the zero Step lets all strings ring on.
type Step struct {
	Stroke Stroke
	Pluck  []int // numbers of the strings that are plucked together
	Hammer bool  // the string, just one, is plucked as the plain chord has it and hammered to what the coloured one has
	Still  bool  // all strings are stilled
}

// Stroke is the way of a stroke over all strings.
type Stroke byte

// The strokes.
const (
	Down Stroke = 'D'
	Up   Stroke = 'U'
)

// mostSteps is how long a pattern is at the most.
const mostSteps = 64

// IsZero reports whether a pattern says nothing.
func (p Pattern) IsZero() bool { return len(p.Steps) == 0 }

// ParseStrum reads strokes: D . D U . U D U, where . and - let the strings ring on. They need no spaces between them: D-DU-UDU.
func ParseStrum(typed string) (Pattern, error) {
	return parsePattern(strings.Join(strings.Split(typed, ""), " "), "strokes are D for down, U for up, and . for none, such as D . D U . U D U", func(token string) (Step, bool) {
		switch token {
		case "D", "d", "↓":
			return Step{Stroke: Down}, true
		case "U", "u", "↑":
			return Step{Stroke: Up}, true
		}
		return Step{}, token == "." || token == "-"
	})
}

// ParsePick reads a picking order by the numbers of strings, of which there are so many: 4 2 3 1, where . stills the
// strings, - lets them ring on, (41) plucks two together, and 4h hammers on.
func ParsePick(typed string, strings int) (Pattern, error) {
	return parsePattern(typed, "an order is the numbers of strings from 1 to "+strconv.Itoa(strings)+", . for a rest, - to ring on, (41) for two together, 4h to hammer on, such as 4 2 3 1", func(token string) (Step, bool) {
		return pickStep(token, strings)
	})
}

// pickStep reads a step of a picking order.
func pickStep(token string, count int) (Step, bool) {
	switch token {
	case ".":
		return Step{Still: true}, true
	case "-":
		return Step{}, true
	}
	inner, opened := strings.CutPrefix(token, "(")
	inner, closed := strings.CutSuffix(inner, ")")
	digits, hammer := strings.CutSuffix(inner, "h")
	if opened != closed || digits == "" || len(digits) > 1 && (!opened || hammer) {
		return Step{}, false
	}
	s := Step{Hammer: hammer}
	for i := range len(digits) {
		n := int(digits[i] - '0')
		if n < 1 || n > count || strings.IndexByte(digits, digits[i]) < i {
			return Step{}, false
		}
		s.Pluck = append(s.Pluck, n)
	}
	return s, true
}

// parsePattern reads steps with spaces between them.
func parsePattern(typed, wants string, step func(string) (Step, bool)) (Pattern, error) {
	var p Pattern
	for token := range strings.FieldsSeq(strings.ReplaceAll(typed, ",", " ")) {
		s, ok := step(token)
		if !ok {
			return Pattern{}, say.Wrong("{}: {}", say.Typed(token), say.Words(wants))
		}
		p.Steps = append(p.Steps, s)
	}
	switch {
	case len(p.Steps) == 0:
		return Pattern{}, say.Wrong("no steps: {}", say.Words(wants))
	case len(p.Steps) > mostSteps:
		return Pattern{}, say.Wrong("{}: a pattern has at most {}", say.Count{N: len(p.Steps), One: "step", Many: "steps"}, say.Number(mostSteps))
	}
	return p, nil
}

// String writes the pattern as it is read.
func (p Pattern) String() string {
	words := make([]string, len(p.Steps))
	strums := false
	for _, s := range p.Steps {
		strums = strums || s.Stroke != 0
	}
	for n, s := range p.Steps {
		switch {
		case s.Stroke != 0:
			words[n] = string(rune(s.Stroke))
		case s.Still:
			words[n] = "."
		case len(s.Pluck) == 0 && strums:
			words[n] = "."
		case len(s.Pluck) == 0:
			words[n] = "-"
		default:
			for _, number := range s.Pluck {
				words[n] += strconv.Itoa(number)
			}
			if s.Hammer {
				words[n] += "h"
			}
			if len(s.Pluck) > 1 {
				words[n] = "(" + words[n] + ")"
			}
		}
	}
	return strings.Join(words, " ")
}

// PerBeat returns how many steps of the pattern come in a beat of so many in a bar: as many as make the pattern a bar long,
// or else two, and the pattern goes on over the bar lines.
func (p Pattern) PerBeat(beats int) int {
	if n := len(p.Steps); n > 0 && n%beats == 0 {
		return n / beats
	}
	return 2
}
