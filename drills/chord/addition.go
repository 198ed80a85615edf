package chord

import (
	"slices"
	"strings"

	"sparetone/theory"
	"sparetone/theory/read"
)

// Addition is a note that a plain triad may gain by one string.
type Addition struct {
	Plain, Coloured string   // ids of the kinds before and after
	Note            string   // that comes in, in words
	Suspends        bool     // it comes in place of the third
	Typed, number   string   // as a person types it, and in figures
	Near            []string // coloured kinds that this one is mistaken for
}

// Additions are what a plain triad may gain by one string, in the order in which choices are shown.
var Additions = []Addition{
	{"major", "added-ninth", "ninth", false, "9th", "9", []string{"added-fourth", "suspended-second"}},
	{"major", "added-fourth", "fourth", false, "4th", "4", []string{"added-ninth", "suspended-fourth"}},
	{"major", "major-sixth", "sixth", false, "6th", "6", []string{"dominant", "added-ninth"}},
	{"major", "dominant", "minor seventh", false, "b7", "b7", []string{"major-seventh", "major-sixth"}},
	{"major", "major-seventh", "major seventh", false, "maj7", "maj7", []string{"dominant"}},
	{"major", "suspended-second", "second", true, "sus2", "sus2", []string{"added-ninth", "suspended-fourth"}},
	{"major", "suspended-fourth", "fourth", true, "sus4", "sus4", []string{"added-fourth", "suspended-second"}},
	{"minor", "minor-added-ninth", "ninth", false, "9th", "9", []string{"minor-seventh"}},
	{"minor", "minor-sixth", "sixth", false, "6th", "6", []string{"minor-seventh"}},
	{"minor", "minor-seventh", "minor seventh", false, "b7", "b7", []string{"minor-sixth"}},
}

// AdditionTo returns the addition that makes a coloured kind of chord; false if there is none.
func AdditionTo(coloured string) (Addition, bool) {
	i := slices.IndexFunc(Additions, func(a Addition) bool { return a.Coloured == coloured })
	if i < 0 {
		return Addition{}, false
	}
	return Additions[i], true
}

// IsAddition reports whether a coloured kind of chord comes of a plain one by one of the additions.
func IsAddition(plain, coloured *theory.Kind) bool {
	return slices.ContainsFunc(Additions, func(a Addition) bool { return a.Plain == plain.ID && a.Coloured == coloured.ID })
}

// AdditionsTo returns what a plain kind of chord may gain.
func AdditionsTo(plain *theory.Kind) []Addition {
	return slices.DeleteFunc(slices.Clone(Additions), func(a Addition) bool { return a.Plain != plain.ID })
}

// From and to are the kinds before and after an addition.
func (a Addition) From() *theory.Kind { return Kind(a.Plain) }
func (a Addition) To() *theory.Kind   { return Kind(a.Coloured) }

// Words are what comes in, without an article.
func (a Addition) Words() string {
	if a.Suspends {
		return a.Note + " in place of the third"
	}
	return a.Note
}

// isTyped reports whether a text means the addition by its name or its number.
func (a Addition) isTyped(text string) bool {
	if strings.EqualFold(text, a.Typed) || text == a.number {
		return true
	}
	words := read.Words(text)
	return read.Words(read.InFull(words)) == read.Words(a.Words()) || words == read.Words("add"+a.number) || words == read.Words("add "+a.number)
}

// ReadAddition reads an addition to a plain triad by its name, its number or the kind of chord that comes of it.
func ReadAddition(plain *theory.Kind, text string) (Addition, bool) {
	all, text := AdditionsTo(plain), strings.TrimSpace(text)
	for _, a := range all {
		if a.isTyped(text) {
			return a, true
		}
	}
	if k, ok := read.Kind(text); ok {
		if i := slices.IndexFunc(all, func(a Addition) bool { return a.Coloured == k.ID }); i >= 0 {
			return all[i], true
		}
	}
	if i, err := read.Degree(text); err == nil && i == theory.MinorSeventh {
		if i := slices.IndexFunc(all, func(a Addition) bool { return a.Typed == "b7" }); i >= 0 {
			return all[i], true
		}
	}
	return Addition{}, false
}
