package page

import (
	"slices"
	"strings"

	"sparetone/theory/fret"
)

// Tones enters on the screen what each string of a shape is in the chord: a degree under every string that sounds. In lines
// of text they are typed.
type Tones struct {
	Fingers bool // the neck tells which finger stops what
	Shown   fret.Voicing
	Given   []string // in the tuning's order, as typed; empty where nothing is entered yet
	At      int      // the string that is asked about, in the tuning's order
}

// degrees are the degrees that a string may have, as they are typed, in the order in which arrows go through
// them. A degree of the next octave is typed by its number: 9, 11, 13.
var degrees = strings.Fields("R b9 9 #9 b3 3 4 11 #11 b5 5 #5 b6 6 13 b7 7")

func NewTones(shown fret.Voicing) *Tones {
	t := &Tones{Shown: shown, Given: make([]string, len(shown.Shape)), At: -1}
	t.Along(1)
	return t
}

// Along goes to the next string that sounds, forward or back, round the neck.
func (t *Tones) Along(by int) {
	for range t.Given {
		t.At = (t.At + by + len(t.Given)) % len(t.Given)
		if !t.muted(t.At) {
			return
		}
	}
}

func (t *Tones) muted(i int) bool { return t.Shown.Shape[i] == fret.Muted }

// Point goes to the string with a number, if it sounds.
func (t *Tones) Point(string int) {
	if i := len(t.Given) - string; !t.muted(i) {
		t.At = i
	}
}

// Step goes through the degrees that the string may have.
func (t *Tones) Step(by int) {
	i := slices.Index(degrees, t.Given[t.At])
	if i < 0 {
		i, by = 0, min(by, 0)
	}
	t.Given[t.At] = degrees[(i+by+len(degrees))%len(degrees)]
}

// Clear takes away what was entered on the string.
func (t *Tones) Clear() { t.Given[t.At] = "" }

// Type enters a sign, b or #, or the number that goes behind it, and then goes on to the next string.
func (t *Tones) Type(key string) {
	here := &t.Given[t.At]
	if key == "b" || key == "#" {
		*here = key
		return
	}
	word := strings.ToUpper(key)
	if word == "1" {
		word = "R"
	}
	if *here == "b" || *here == "#" {
		word = *here + word
	}
	*here = word
	t.Along(1)
}

// Under is what stands under the strings, with the signs of print.
func (t *Tones) Under() []string {
	var out []string
	for i, g := range t.Given {
		switch {
		case t.muted(i):
			g = " "
		case g == "":
			g = "·"
		}
		out = append(out, strings.NewReplacer("b", "♭", "#", "♯").Replace(g))
	}
	return out
}

// Text is the answer as it would be typed, and whether it is whole.
func (t *Tones) Text() (string, bool) {
	words := slices.Clone(t.Given)
	for i, w := range words {
		switch {
		case t.muted(i):
			words[i] = "x"
		case w == "" || w == "b" || w == "#":
			return "", false
		}
	}
	return strings.Join(words, " "), true
}
