package page

import (
	"slices"
	"strings"
)

// EmptyLine is the act of an empty line; its ID is empty if there is none.
func (p Page) EmptyLine() Act {
	for _, act := range p.Acts {
		if _, ok := act.Match(""); ok {
			return act
		}
	}
	return Act{}
}

// Find returns the act at a place that a line is a word of, and what follows the word.
func (w *Walk) Find(at Place, line string) (act Act, more string, ok bool) {
	for _, act := range slices.Concat(w.PageOf(at).Acts, w.Everywhere(at)) {
		if more, ok := act.Match(line); ok {
			return act, more, true
		}
	}
	return Act{}, "", false
}

// Help says in lines of text what works at a place, and what everywhere.
func (w *Walk) Help(at Place) []string {
	p, everywhere := w.PageOf(at), w.Everywhere(at)
	if p.Waits {
		return []string{HelpWaiting, words("Everywhere: ", everywhere, nil)}
	}
	here := p.HelpBegins
	if act := p.EmptyLine(); act.ID != "" {
		here += " An empty line" + act.Says + "."
	}
	if more := words(" Or type: ", p.Acts, everywhere); len(more) > len(" Or type: .") {
		here += more
	}
	return []string{strings.TrimSpace(here), words("Everywhere: ", everywhere, nil)}
}

// words lists acts by what is typed for them, without those that are told elsewhere.
func words(before string, acts, elsewhere []Act) string {
	var out []string
	for _, act := range acts {
		word, _, _ := strings.Cut(act.Words, "|")
		told := act.Words == "" || word == "" || !act.Off.IsZero()
		for _, e := range elsewhere {
			told = told || e.ID == act.ID
		}
		if !told {
			out = append(out, strings.TrimSpace(word)+act.Says)
		}
	}
	return before + strings.Join(out, "; ") + "."
}
