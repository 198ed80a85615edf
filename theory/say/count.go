package say

import (
	"strconv"

	"golang.org/x/text/feature/plural"
	"golang.org/x/text/language"
)

// tongue is the language of all wording in the project.
var tongue = language.English

// isOne reports whether a number takes the singular, by the plural rules of the language (CLDR).
func isOne(n int) bool {
	return plural.Cardinal.MatchPlural(tongue, n, 0, 0, 0, 0) == plural.One
}

// Number is a whole number in figures.
type Number int

func (n Number) print(p *printer) { p.write(strconv.Itoa(int(n))) }

// Count is a number with its noun: 1 semitone, 2 semitones.
type Count struct {
	N         int
	One, Many string // the noun in the singular and in the plural
}

func (c Count) print(p *printer) {
	Number(c.N).print(p)
	p.write(" ")
	Agree{c.N, c.One, c.Many}.print(p)
}

// Agree is a word that agrees with a number which is not written beside it: is, are.
type Agree struct {
	N         int
	One, Many string
}

func (a Agree) print(p *printer) {
	if isOne(a.N) {
		p.write(a.One)
	} else {
		p.write(a.Many)
	}
}
