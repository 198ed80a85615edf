package catalogue

import (
	"slices"
	"strings"
	"sync"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/ear"
	"sparetone/drills/harmony"
	"sparetone/drills/shapes"
	"sparetone/theory"
)

// Complete lists what an answer that has been begun may become, the plainest first: one way to put each
// answer that the question would understand. It comes from all that is ever asked and not from this
// question's choices, so it tells nothing. Frets, notes and degrees are short, and are not completed.
func Complete(q *drills.Question, begun string) []string {
	if q.Form != drills.Choose {
		return nil
	}
	words := begins(begun, answerWords())
	if q.Drill == (shapes.Name{}).About().ID {
		words = CompleteChord(begun)
	}
	var ids, out []string
	for _, w := range words {
		if id, ok := q.Reads(w); ok && !slices.Contains(ids, id) {
			ids, out = append(ids, id), append(out, w)
		}
	}
	return out
}

// answerWords are the words that questions are answered in: first as they are shown, then without their article.
var answerWords = sync.OnceValue(func() []string {
	var shown, bare []string
	add := func(article, words string) { shown, bare = append(shown, article+words), append(bare, words) }
	for _, row := range chord.AskedKinds {
		shown = append(shown, chord.Kind(row.ID).Name)
	}
	shown = append(shown, ear.IntervalNames()...)
	for _, row := range chord.Additions {
		add("the ", row.Words())
	}
	for _, tone := range shapes.DoubledTones() {
		add("the ", tone)
	}
	shown = append(shown, shapes.NothingDoubled.Screen())
	for _, words := range harmony.GoalWords() {
		add("a ", words)
	}
	shown = append(shown, harmony.ProgressionNames()...)
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
