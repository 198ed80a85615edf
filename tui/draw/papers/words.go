package papers

import (
	"bytes"
	"fmt"

	"sparetone/theory/say"
)

// Text writes what the students get in words alone, a thing a line, as it is read aloud: for whoever cannot see it.
func (p Paper) Text() []byte {
	var b bytes.Buffer
	lines(&b, p.Title, p.For(), p.Recording(), say.Of("Name:"))
	for n, q := range p.Questions {
		fmt.Fprintf(&b, "\nQuestion %d of %d\n", n+1, len(p.Questions))
		lines(&b, q.Prompt)
		if len(q.Sounds) > 0 {
			fmt.Fprintf(&b, "Listen: %s\n", SoundName(n))
		}
		if q.Shown != nil {
			lines(&b, shapeWords(*q.Shown, q.Named, false))
		}
		for i, c := range q.Choices {
			fmt.Fprintf(&b, "%d: %s\n", i+1, c.Said.Aloud())
		}
		if len(q.Choices) == 0 {
			lines(&b, write(q))
		} else {
			b.WriteString("Answer, one number:\n")
		}
	}
	return b.Bytes()
}

// KeyText writes what the teacher gets in words alone.
func (p Paper) KeyText() []byte {
	var b bytes.Buffer
	lines(&b, say.Of("Answers: {}", p.Title), p.ForKey())
	for _, l := range p.Left {
		lines(&b, say.Of("Left out: {}.", l))
	}
	for n, q := range p.Questions {
		fmt.Fprintf(&b, "\nQuestion %d\n", n+1)
		lines(&b, q.Prompt, say.Of("Right: {}", q.Expected().Said))
		lines(&b, linesOf(q)...)
		for _, r := range necksOf(q) {
			lines(&b, say.Of("{}: {}", r.Caption, shapeWords(r.Voicing, true, true)))
		}
		lines(&b, p.begins(n))
	}
	return b.Bytes()
}

// lines writes texts, a line each; what is zero is left out.
func lines(b *bytes.Buffer, texts ...say.Text) {
	for _, t := range texts {
		if !t.IsZero() {
			b.WriteString(t.Aloud() + "\n")
		}
	}
}
