package tui

import (
	"slices"
	"strings"

	"charm.land/bubbles/v2/key"
	tea "charm.land/bubbletea/v2"
	"github.com/charmbracelet/x/ansi"

	"sparetone/drills"
	"sparetone/theory"
)

// typist enters an answer by typing it, with completion.
type typist struct {
	asked *drills.Asked
	field field
}

func newTypist(q *drills.Asked) *typist { return &typist{asked: q} }

func (t *typist) typing() bool   { return !t.field.asleep }
func (t *typist) pictures() bool { return false }

func (t *typist) keys() []key.Binding {
	if !t.typing() {
		return []key.Binding{keyType}
	}
	out := []key.Binding{labelled(keyGoOn, "answer")}
	if len(t.field.found) > 0 {
		return append(out, keyFill, named(keyDown, "↑↓", "another"), keyEscape)
	}
	return append(out, keyEscape)
}

func (t *typist) update(a *app, msg tea.Msg) (string, bool, tea.Cmd) {
	if press, ok := msg.(tea.KeyPressMsg); ok {
		switch {
		case !t.typing():
			t.field.asleep = !key.Matches(press, keyType, keyGoOn)
			return "", false, nil
		case key.Matches(press, keyEscape):
			t.field.asleep = true
			return "", false, nil
		case key.Matches(press, keyGoOn):
			text := t.field.value()
			if text == "" {
				a.said = "Type an answer first."
			}
			return text, text != "", nil
		}
	}
	if t.typing() {
		t.field.update(msg, func(begun string) []string { return suggestions(t.asked, begun) })
	}
	return "", false, nil
}

func (t *typist) view(a *app, b *body) {
	b.click(b.next(), 0, b.col, pressed("t"))
	t.field.view(a, b, "Your answer: ")
	if len(t.field.found) > 1 {
		b.add(a.theme.Quiet.Render(inOneLine(t.field.found, b.col)))
	} else {
		b.gap()
	}
}

// inOneLine joins as many words as there is room for.
func inOneLine(words []string, room int) string {
	line := words[0]
	for _, w := range words[1:] {
		if ansi.StringWidth(line)+3+ansi.StringWidth(w) > room {
			break
		}
		line += "   " + w
	}
	return line
}

// suggestions lists what an answer that has been begun may become. They come from all that is ever asked
// and not from this question's choices, so they tell nothing.
func suggestions(q *drills.Asked, begun string) []string {
	if begun == "" {
		return nil
	}
	if _, err := theory.ParseChord(expected(q)); err == nil {
		return chordsFrom(begun)
	}
	d, ok := drills.ByID(q.Drill)
	if !ok {
		return nil
	}
	var out []string
	for _, n := range names(d) {
		if len(n) > len(begun) && strings.EqualFold(n[:len(begun)], begun) {
			out = append(out, begun+n[len(begun):])
		}
	}
	return out
}

// expected is the answer as a person would type it, where there is something to choose from.
func expected(q *drills.Asked) string {
	if len(q.Choices) == 0 {
		return ""
	}
	return q.Choices[0].Typed
}

// names are the names of all that a drill asks for on some instrument.
func names(d drills.Drill) []string {
	on, err := standard.Instrument()
	if err != nil {
		return nil
	}
	var out []string
	for _, t := range d.Targets(on) {
		out = append(out, t.Name)
	}
	return out
}

// chordsFrom lists the symbols that begin with what was typed, on the root it names, the plainest first.
func chordsFrom(begun string) []string {
	for n := min(3, len(begun)); n > 0; n-- {
		root := begun[:n]
		if _, err := theory.ParseNote(root); err != nil {
			continue
		}
		var out []string
		for _, k := range theory.Kinds() {
			if symbol := root + k.Symbols[0]; strings.HasPrefix(symbol, begun) && symbol != begun && !slices.Contains(out, symbol) {
				out = append(out, symbol)
			}
		}
		return out
	}
	return nil
}
