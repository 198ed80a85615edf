package papers

import (
	"bufio"
	"encoding/base64"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"sparetone/drills"
	"sparetone/theory"
	"sparetone/theory/say"
	"sparetone/tui/draw/sheet"
)

// policy lets a page ask for nothing and run nothing, but for the sounds that are in it.
const policy = "default-src 'none'; style-src 'unsafe-inline'; media-src data:; base-uri 'none'; form-action 'none'"

// style is how a page looks on a screen and on paper. Against white, text is 16.1 and quiet text 7.0 to 1.
const style = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { font: %gpx/1.45 "DejaVu Sans", Verdana, sans-serif; color: #222; background: #fff; margin: 1rem auto; padding: 0 1rem; max-width: 50rem; overflow-wrap: anywhere; }
h1 { font-size: 1.5em; margin: 0 0 .2em; } h2 { font-size: 1.1em; margin: 0 0 .5em; } p { margin: .3em 0; } .quiet { color: #555; }
section { margin: 1.6em 0; } audio { display: block; width: 100%%; max-width: 26em; margin: .4em 0; }
fieldset { border: 0; margin: .4em 0 0; padding: 0; min-width: 0; } legend { padding: 0; }
fieldset label { display: block; padding: .3em 0; } input[type=radio] { width: 1.2em; height: 1.2em; margin: 0 .5em 0 0; vertical-align: -.2em; }
input[type=text] { font: inherit; color: inherit; display: block; width: 100%%; max-width: 26em; padding: .3em; border: 1px solid #555; background: none; }
input:focus-visible, audio:focus, audio:focus-within { outline: 3px solid #0b4f79; outline-offset: 2px; }
figure { display: inline-block; vertical-align: top; margin: .4em 1.2em .4em 0; max-width: 100%%; } figure svg { max-width: 100%%; height: auto; display: block; } figcaption { font-size: .9em; max-width: 16em; }
.paper { display: none; }
@page { margin: 14mm; }
@media print { body { margin: 0; padding: 0; max-width: none; font-size: %gpt; } section { break-inside: avoid; margin: 1.1em 0; } audio { display: none; } .paper { display: block; } input[type=text] { border: 0; border-bottom: 1px solid #222; max-width: none; } }
`

// Sizes of text, before large print: on the screen in pixels, on paper in points.
const (
	screenSize = 16.0
	paperSize  = 11.0
)

// page is a page that is being written.
type page struct {
	*bufio.Writer
	scale float64
}

func (p *page) f(format string, args ...any) { fmt.Fprintf(p, format, args...) }

// escaped is a text in HTML, without what could move others.
func escaped(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(theory.Clean(s))); err != nil {
		return ""
	}
	return b.String()
}

// begin begins a page.
func begin(w io.Writer, title say.Text, look Look) *page {
	p := &page{bufio.NewWriter(w), look.Scale()}
	p.f("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"%s\">\n", escaped(policy))
	p.f("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"referrer\" content=\"no-referrer\">\n<title>%s</title>\n", escaped(title.Screen()))
	p.f("<style>"+style+"</style>\n</head>\n<body>\n<main>\n<h1>%s</h1>\n", screenSize*p.scale, paperSize*p.scale, escaped(title.Screen()))
	return p
}

func (p *page) para(class string, text say.Text) {
	if !text.IsZero() {
		p.f("<p%s>%s</p>\n", class, escaped(text.Screen()))
	}
}

// end ends a page; the error is that of writing it.
func (p *page) end() error {
	p.f("</main>\n</body>\n</html>\n")
	return p.Flush()
}

// HTML writes what the students get as one page with the sounds in it. sound returns the WAV file of the n-th question, counted from 0.
func (p Paper) HTML(w io.Writer, look Look, sound func(n int) ([]byte, error)) error {
	out := begin(w, p.Title, look)
	out.para("", p.For())
	out.para(" class=\"paper\"", p.Recording())
	out.f("<p><label>Name <input type=\"text\" autocomplete=\"off\"></label></p>\n")
	for n, q := range p.Questions {
		out.f("<section aria-labelledby=\"q%d\">\n<h2 id=\"q%[1]d\">%[1]d. %s</h2>\n", n+1, escaped(q.Prompt.Screen()))
		if len(q.Sounds) > 0 {
			wav, err := sound(n)
			if err != nil {
				return err
			}
			out.f("<audio controls preload=\"metadata\" aria-label=\"Sound of question %d\" src=\"data:audio/wav;base64,", n+1)
			to := base64.NewEncoder(base64.StdEncoding, out)
			if _, err := to.Write(wav); err != nil {
				return err
			}
			if err := to.Close(); err != nil {
				return err
			}
			out.f("\"></audio>\n")
			out.para(" class=\"paper\"", say.Of("Listen to sound {}.", say.Number(n+1)))
		}
		if q.Shown != nil {
			out.neck(sheet.Neck{Voicing: *q.Shown, Named: q.Named, Left: look.Left}, say.Text{}, look)
		}
		out.answer(n+1, q)
		out.f("</section>\n")
	}
	return out.end()
}

// answer writes where a question is answered.
func (p *page) answer(number int, q *drills.Question) {
	if len(q.Choices) == 0 {
		p.f("<p><label>%s <input type=\"text\" autocomplete=\"off\" autocapitalize=\"off\" spellcheck=\"false\"></label></p>\n", escaped(write(q).Screen()))
		return
	}
	p.f("<fieldset aria-labelledby=\"q%d\">\n", number)
	for _, c := range q.Choices {
		p.f("<label><input type=\"radio\" name=\"a%d\">%s</label>\n", number, escaped(c.Said.Screen()))
	}
	p.f("</fieldset>\n")
}

// neck writes a shape, drawn or in words.
func (p *page) neck(n sheet.Neck, caption say.Text, look Look) {
	said := shapeWords(n.Voicing, n.Named, n.Fingers)
	if look.Words {
		if !caption.IsZero() {
			said = say.Of("{}: {}", caption, said)
		}
		p.para("", said)
		return
	}
	p.f("<figure>%s", n.SVG(theory.Clean(said.Aloud()), 1.4*p.scale))
	if !caption.IsZero() {
		p.f("<figcaption>%s</figcaption>", escaped(caption.Screen()))
	}
	p.f("</figure>\n")
}

// KeyHTML writes what the teacher gets as one page, with the shapes drawn.
func (p Paper) KeyHTML(w io.Writer, look Look) error {
	out := begin(w, say.Of("Answers: {}", p.Title), look)
	out.para("", p.ForKey())
	for _, l := range p.Left {
		out.para("", say.Of("Left out: {}.", l))
	}
	for n, q := range p.Questions {
		out.f("<section aria-labelledby=\"q%d\">\n<h2 id=\"q%[1]d\">%[1]d. %s</h2>\n", n+1, escaped(q.Expected().Said.Screen()))
		out.para(" class=\"quiet\"", q.Prompt)
		for _, line := range linesOf(q) {
			out.para("", line)
		}
		out.para("", p.begins(n))
		for _, r := range necksOf(q) {
			out.neck(answerNeck(r.Voicing, look), r.Caption, look)
		}
		out.f("</section>\n")
	}
	return out.end()
}
