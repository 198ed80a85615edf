package read

import "strings"

// asciiSign writes each sign of a symbol as the grammar has it: one character for one, so that an error points at the same one.
var asciiSign = func() map[rune]rune {
	m := map[rune]rune{}
	for ascii, signs := range map[rune]string{
		'#': "♯", 'b': "♭", 'x': "𝄪", '-': "−–‐‑‒—⁻", '+': "⁺＋", '/': "⁄∕／", '(': "⁽（[{", ')': "⁾）]}", ' ': "\t\u00a0\u2009\u202f",
		'Δ': "∆△▵▲", '°': "º˚∘○⁰", 'ø': "Ø∅⌀φϕΦ", ',': "、，;",
		'1': "¹₁", '2': "²₂", '3': "³₃", '4': "⁴₄", '5': "⁵₅", '6': "⁶₆", '7': "⁷₇", '8': "⁸₈", '9': "⁹₉",
	} {
		for _, s := range signs {
			m[s] = ascii
		}
	}
	return m
}()

// asciiSigns writes the signs of a symbol as they are typed: ♯ as #, ⁷ as 7, square brackets as round ones.
func asciiSigns(s string) string {
	return strings.Map(func(r rune) rune {
		if ascii, ok := asciiSign[r]; ok {
			return ascii
		}
		return r
	}, s)
}
