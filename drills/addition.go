package drills

import (
	"slices"
	"strings"

	"sparetone/theory"
	"sparetone/theory/read"
)

// addition is a note that a plain triad may gain by one string.
type addition struct {
	plain, coloured string   // ids of the kinds before and after
	note            string   // that comes in, in words
	suspends        bool     // it comes in place of the third
	typed, number   string   // as a person types it, and in figures
	near            []string // coloured kinds that this one is mistaken for
}

// additions are what a plain triad may gain by one string, in the order in which choices are shown.
var additions = []addition{
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

// additionTo returns the addition that makes a coloured kind of chord; false if there is none.
func additionTo(coloured string) (addition, bool) {
	i := slices.IndexFunc(additions, func(a addition) bool { return a.coloured == coloured })
	if i < 0 {
		return addition{}, false
	}
	return additions[i], true
}

// IsAddition reports whether a coloured kind of chord comes of a plain one by one of the additions.
func IsAddition(plain, coloured *theory.Kind) bool {
	return slices.ContainsFunc(additions, func(a addition) bool { return a.plain == plain.ID && a.coloured == coloured.ID })
}

// additionsTo returns what a plain kind of chord may gain.
func additionsTo(plain *theory.Kind) []addition {
	return slices.DeleteFunc(slices.Clone(additions), func(a addition) bool { return a.plain != plain.ID })
}

// from and to are the kinds before and after an addition.
func (a addition) from() *theory.Kind { return mustKind(a.plain) }
func (a addition) to() *theory.Kind   { return mustKind(a.coloured) }

// topic is what the drills that teach it are about.
func (a addition) topic() Topic { return Topic{"addition", a.coloured} }

// words are what comes in, without an article.
func (a addition) words() string {
	if a.suspends {
		return a.note + " in place of the third"
	}
	return a.note
}

// isTyped reports whether a text means the addition by its name or its number.
func (a addition) isTyped(text string) bool {
	if strings.EqualFold(text, a.typed) || text == a.number {
		return true
	}
	return sameWords(read.InFull(read.Words(text)), a.words()) || sameWords(text, "add"+a.number) || sameWords(text, "add "+a.number)
}

// readAddition reads an addition to a plain triad by its name, its number or the kind of chord that comes of it.
func readAddition(plain *theory.Kind, text string) (addition, bool) {
	all, text := additionsTo(plain), strings.TrimSpace(text)
	for _, a := range all {
		if a.isTyped(text) {
			return a, true
		}
	}
	if k, ok := read.Kind(text); ok {
		if i := slices.IndexFunc(all, func(a addition) bool { return a.coloured == k.ID }); i >= 0 {
			return all[i], true
		}
	}
	if i, err := read.Degree(text); err == nil && i == theory.MinorSeventh {
		if i := slices.IndexFunc(all, func(a addition) bool { return a.typed == "b7" }); i >= 0 {
			return all[i], true
		}
	}
	return addition{}, false
}
