package lesson

import (
	"fmt"
	"strings"

	"sparetone/theory/song/arrange"
)

// OfSong returns the text of a lesson made from a chart: its chords with their plain shapes and the best of their colours, and the steps
// in the order in which they are learned. Name is what it is called. The chart stands in the lesson.
func OfSong(a arrange.Arrangement, name, chart string) (string, error) {
	l := Lesson{Name: name, Tuning: a.Tuning, Key: &a.Key}
	l.arranged(a)
	if len(l.Chords) == 0 {
		return "", fmt.Errorf("no drill asks for any chord of the song")
	}
	var b strings.Builder
	fmt.Fprintf(&b, "# A lesson from a song. Change what you like; sparetone lesson check FILE says what is wrong with it.\n\n")
	fmt.Fprintf(&b, "name = %s\n# from = \"your name\"\n# due = 2026-12-04\n# minutes = 10\n", quoted(name))
	fmt.Fprintf(&b, "tuning = %s\nkey = %s\n", quoted(a.Tuning.Name), quoted(a.Key.Symbol()))
	var chords, shapes []string
	moved := map[string]bool{}
	for _, m := range l.Moves {
		shapes = append(shapes, quoted(m.From.String()+">"+m.To.String()))
		moved[m.Plain.Symbol()], moved[m.Coloured.Symbol()] = true, true
	}
	for _, h := range l.Chords {
		chords = append(chords, quoted(h.Chord.Symbol()))
		if !moved[h.Chord.Symbol()] {
			for _, s := range h.Shapes {
				shapes = append(shapes, quoted(s.String()))
			}
		}
	}
	fmt.Fprintf(&b, "chords = [%s]\nshapes = [%s]\n", strings.Join(chords, ", "), strings.Join(shapes, ", "))
	if chart != "" {
		fmt.Fprintf(&b, "songs = [%s]\n", multiline(chart))
	}
	for _, s := range made(&l, nil) {
		var asks []string
		for _, ask := range s.Asks {
			asks = append(asks, quoted(ask))
		}
		fmt.Fprintf(&b, "\n[[step]]\nid = %s\ntitle = %s\ndrill = %s\nasks = [%s]\n", quoted(s.ID), quoted(s.Title), quoted(s.Drill), strings.Join(asks, ", "))
	}
	return b.String(), nil
}

// quoted writes a text as TOML.
func quoted(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String() + `"`
}

// multiline writes a chart as TOML, in several lines where it can stand so.
func multiline(chart string) string {
	chart = strings.ReplaceAll(strings.ReplaceAll(chart, "\r\n", "\n"), "\r", "\n")
	if strings.Contains(chart, "'''") || strings.ContainsFunc(chart, func(r rune) bool { return r < ' ' && r != '\n' && r != '\t' || r == 0x7f }) {
		return quoted(chart)
	}
	return "'''\n" + strings.TrimRight(chart, "\n") + "\n'''"
}
