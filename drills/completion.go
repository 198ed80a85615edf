package drills

import (
	"slices"
	"strings"
	"sync"

	"sparetone/theory"
)

// Complete lists what an answer that has been begun may become, the plainest first: one way to put each
// answer that the question would understand. It comes from all that is ever asked and not from this
// question's choices, so it tells nothing. Frets, notes and degrees are short, and are not completed.
func (q *Question) Complete(begun string) []string {
	if q.Form != Choose {
		return nil
	}
	words := begins(begun, answerWords())
	if q.Drill == (shapeName{}).About().ID {
		words = CompleteChord(begun)
	}
	var ids, out []string
	for _, w := range words {
		if g, err := q.understand(w); err == nil && !slices.Contains(ids, g.id) {
			ids, out = append(ids, g.id), append(out, w)
		}
	}
	return out
}

// answerWords are the words that questions are answered in: first as they are shown, then without their article.
var answerWords = sync.OnceValue(func() []string {
	var shown, bare []string
	add := func(article, words string) { shown, bare = append(shown, article+words), append(bare, words) }
	for _, row := range chordKinds {
		shown = append(shown, mustKind(row.id).Name)
	}
	for _, row := range earIntervals {
		shown = append(shown, row.interval.Name())
	}
	for _, row := range additions {
		add("the ", row.words())
	}
	for _, row := range doublings {
		if row.numbers != nil {
			add("the ", row.id)
		}
	}
	shown = append(shown, sayDoubling(doublings[len(doublings)-1]).Screen())
	for _, row := range goings {
		add("a ", row.words)
	}
	for n := range progressions {
		shown = append(shown, sayProgression(n).Screen())
	}
	shown = append(shown, "different kinds", "two different notes")
	add("the ", "same note")
	add("the ", "same kind")
	add("the ", "first")
	add("the ", "second")
	return append(shown, bare...)
})

// begins keeps the words that begin with what was typed and are longer.
func begins(begun string, words []string) []string {
	var out []string
	for _, w := range words {
		if begun != "" && len(w) > len(begun) && strings.EqualFold(w[:len(begun)], begun) {
			out = append(out, w)
		}
	}
	return out
}

// CompleteChord lists the chord symbols that begin with what was typed, a symbol for each kind of chord,
// the plainest first, and after them those that are written another way, as CM7 is Cmaj7. It lists none
// until a root is there.
func CompleteChord(begun string) []string {
	root := rootOf(begun)
	if root == "" {
		return nil
	}
	root = strings.ToUpper(root[:1]) + root[1:]
	var plain, other []string
	for _, k := range theory.Kinds() {
		// The case of signs tells them apart: CM7 is no Cm7.
		longer := func(symbol string) bool {
			s := root + symbol
			return len(s) > len(begun) && strings.HasPrefix(s[1:], begun[1:])
		}
		switch n := slices.IndexFunc(k.Symbols, longer); {
		case n == 0:
			plain = append(plain, root+k.Symbols[0])
		case n > 0:
			other = append(other, root+k.Symbols[n])
		}
	}
	return append(plain, other...)
}

// rootOf returns the longest note, a letter with its signs, that a text begins with; empty if it begins with none.
func rootOf(text string) string {
	root := ""
	for n := range text + " " {
		if _, err := theory.ParseNote(strings.ToUpper(text[:min(n, 1)]) + text[min(n, 1):n]); err == nil {
			root = text[:n]
		}
	}
	return root
}
