package papers

import (
	"fmt"
	"io"

	"sparetone/drills"
	"sparetone/theory/say"
	"sparetone/tui/draw/sheet"
)

// PDF prints what the students get. The error says which characters the fonts do not have, or is that of writing.
func (p Paper) PDF(w io.Writer, look Look) error {
	out := sheet.NewPrint(p.Title.Screen(), look.Options)
	out.Text(p.For().Screen())
	if how := p.Recording(); !how.IsZero() {
		out.Text(how.Screen())
	}
	out.Text("Name:")
	out.Rule()
	out.InColumns()
	for n, q := range p.Questions {
		out.Together(func() {
			out.Gap()
			out.Bold(fmt.Sprintf("%d. %s", n+1, q.Prompt.Screen()))
			if len(q.Sounds) > 0 {
				out.Text(say.Of("Listen to sound {}.", say.Number(n+1)).Screen())
			}
			if q.Shown != nil {
				said := shapeWords(*q.Shown, q.Named, false)
				if look.Words {
					out.Text(said.Screen())
				} else {
					out.Necks([]sheet.Neck{{Voicing: *q.Shown, Named: q.Named, Left: look.Left}}, []string{said.Aloud()})
				}
			}
			if len(q.Choices) == 0 {
				out.Text(write(q).Screen())
				out.Rule()
				return
			}
			var choices []string
			for _, c := range q.Choices {
				choices = append(choices, c.Said.Screen())
			}
			out.Boxes(choices)
		})
	}
	return out.PDF(w)
}

// KeyPDF prints what the teacher gets, with the shapes drawn.
func (p Paper) KeyPDF(w io.Writer, look Look) error {
	out := sheet.NewPrint(say.Of("Answers: {}", p.Title).Screen(), look.Options)
	out.Text(p.ForKey().Screen())
	for _, l := range p.Left {
		out.Text(say.Of("Left out: {}.", l).Screen())
	}
	out.InColumns()
	for n, q := range p.Questions {
		out.Together(func() {
			out.Gap()
			out.Text(fmt.Sprintf("%d. %s", n+1, q.Prompt.Screen()))
			out.Bold(q.Expected().Said.Screen())
			for _, line := range append(linesOf(q), p.begins(n)) {
				if !line.IsZero() {
					out.Text(line.Screen())
				}
			}
			p.keyNecks(out, q, look)
		})
	}
	return out.PDF(w)
}

// keyNecks prints the shapes of an answer, drawn or in words.
func (p Paper) keyNecks(out *sheet.Print, q *drills.Question, look Look) {
	var necks []sheet.Neck
	var said []string
	for _, r := range necksOf(q) {
		if look.Words {
			out.Text(say.Of("{}: {}", r.Caption, shapeWords(r.Voicing, true, true)).Screen())
			continue
		}
		necks = append(necks, answerNeck(r.Voicing, look))
		said = append(said, say.Of("{}: {}", r.Caption, shapeWords(r.Voicing, true, true)).Aloud())
	}
	if len(necks) > 0 {
		out.Necks(necks, said)
	}
}
