package papers

import (
	"bytes"
	"fmt"
	"strings"

	"sparetone/tui/draw"
)

// Markdown writes what the students get. It does not name the seed, which would make the answers.
func (p Paper) Markdown(look Look) []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "# %s\n\n%s Name: ______________________\n", p.Title.Sheet(), p.For().Sheet())
	if how := p.Recording(); !how.IsZero() {
		fmt.Fprintf(&b, "\n%s\n", how.Sheet())
	}
	for n, q := range p.Questions {
		fmt.Fprintf(&b, "\n## %d\n\n", n+1)
		if len(q.Sounds) > 0 {
			fmt.Fprintf(&b, "Listen: [%s](%[1]s)\n\n", SoundName(n))
		}
		fmt.Fprintf(&b, "%s\n", q.Prompt.Sheet())
		switch {
		case q.Shown == nil:
		case look.Words:
			fmt.Fprintf(&b, "\n%s\n", shapeWords(*q.Shown, q.Named, false).Sheet())
		default:
			fmt.Fprintf(&b, "\n```\n%s```\n", trimmed(draw.Neck{Voicing: *q.Shown, Named: q.Named, Left: look.Left}.Render(draw.Theme{})))
		}
		if len(q.Choices) == 0 {
			fmt.Fprintf(&b, "\n%s\n\n______________________\n", write(q).Sheet())
			continue
		}
		fmt.Fprintln(&b)
		for _, c := range q.Choices {
			fmt.Fprintf(&b, "- [ ] %s\n", c.Said.Sheet())
		}
	}
	return b.Bytes()
}

// KeyMarkdown writes what the teacher gets.
func (p Paper) KeyMarkdown() []byte {
	var b bytes.Buffer
	fmt.Fprintf(&b, "# Answers: %s\n\n%s\n", p.Title.Sheet(), p.ForKey().Sheet())
	for _, l := range p.Left {
		fmt.Fprintf(&b, "\nLeft out: %s.\n", l.Sheet())
	}
	for n, q := range p.Questions {
		fmt.Fprintf(&b, "\n## %d\n\n%s\n\n**%s**\n", n+1, q.Prompt.Sheet(), q.Expected().Said.Sheet())
		for _, line := range append(linesOf(q), p.begins(n)) {
			if !line.IsZero() {
				fmt.Fprintf(&b, "\n%s\n", line.Sheet())
			}
		}
	}
	return b.Bytes()
}

// trimmed leaves out the spaces at the ends of lines.
func trimmed(picture string) string {
	var b strings.Builder
	for line := range strings.Lines(picture) {
		b.WriteString(strings.TrimRight(line, " \n") + "\n")
	}
	return b.String()
}
