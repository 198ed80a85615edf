package sheet

import (
	"encoding/xml"
	"fmt"
	"strings"

	"github.com/clipperhouse/displaywidth"

	"sparetone/theory/song/arrange"
)

// columnsOf is how many columns a text takes.
func columnsOf(s string) int { return displaywidth.String(s) }

// SVG draws a sheet as SVG 1.1, its pages below one another.
func SVG(a arrange.Arrangement, o Options) string {
	s := newSheet(a, o)
	pages := s.pages()
	paper := o.paper()
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%gpt" height="%gpt" viewBox="0 0 %g %g" role="img">`+"\n",
		paper.Width, paper.Height*float64(len(pages)), paper.Width, paper.Height*float64(len(pages)))
	fmt.Fprintf(&b, "<title>%s</title>\n<desc>%s</desc>\n", escaped(s.title), escaped(s.inWords()))
	fmt.Fprintf(&b, `<rect width="100%%" height="100%%" fill="#fff"/>`+"\n")
	for n, p := range pages {
		fmt.Fprintf(&b, `<g transform="translate(0 %g)">`+"\n", paper.Height*float64(n))
		writeMarks(&b, p)
		b.WriteString("</g>\n")
	}
	b.WriteString("</svg>\n")
	return b.String()
}

// openSVG begins a picture in a page.
func openSVG(b *strings.Builder, p picture, scale float64, said string) {
	fmt.Fprintf(b, `<svg width="%.0f" height="%.0f" viewBox="0 0 %.2f %.2f" role="img" aria-label="%s">`+"\n", p.width*scale, p.height*scale, p.width, p.height, escaped(said))
}

// inWords says all shapes, for whoever cannot see them.
func (s *sheet) inWords() string {
	out := make([]string, len(s.words))
	for i, w := range s.words {
		out[i] = w.Aloud() + "."
	}
	return strings.Join(out, " ")
}

// escaped is a text in XML.
func escaped(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(s)); err != nil {
		return ""
	}
	return b.String()
}

// The fonts by the names that browsers and other programs may have them by, and then any of their kind.
const (
	sansFonts = "DejaVu Sans, Verdana, sans-serif"
	monoFonts = "DejaVu Sans Mono, Menlo, Consolas, monospace"
)

// anchors are the names that SVG has for where a text stands.
var anchors = map[anchor]string{start: "start", middle: "middle", end: "end"}

// writeMarks writes the marks of a picture as elements of SVG.
func writeMarks(b *strings.Builder, p picture) {
	for _, m := range p.marks {
		switch m.kind {
		case line:
			fmt.Fprintf(b, `<line x1="%.2f" y1="%.2f" x2="%.2f" y2="%.2f" stroke="#000" stroke-width="%.2f"/>`, m.x, m.y, m.x2, m.y2, m.width)
		case circle:
			fmt.Fprintf(b, `<circle cx="%.2f" cy="%.2f" r="%.2f" fill="none" stroke="#000" stroke-width="%.2f"/>`, m.x, m.y, m.r, m.width)
		case disc:
			fmt.Fprintf(b, `<circle cx="%.2f" cy="%.2f" r="%.2f" fill="#000"/>`, m.x, m.y, m.r)
		case text:
			fonts, weight, fill := sansFonts, "normal", "#000"
			if m.mono {
				fonts = monoFonts
			}
			if m.bold {
				weight = "bold"
			}
			if m.white {
				fill = "#fff"
			}
			fmt.Fprintf(b, `<text x="%.2f" y="%.2f" font-family="%s" font-size="%.2f" font-weight="%s" fill="%s" text-anchor="%s" xml:space="preserve">%s</text>`,
				m.x, m.y, fonts, m.size, weight, fill, anchors[m.anchor], escaped(m.text))
		}
		b.WriteByte('\n')
	}
}
