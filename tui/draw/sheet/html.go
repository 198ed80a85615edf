package sheet

import (
	"fmt"
	"strings"

	"sparetone/theory/song/arrange"
)

// style is how the page looks on a screen and on paper. It asks for nothing from outside.
const style = `
:root { color-scheme: light; }
body { overflow-wrap: break-word; font: %[1]gpx/1.45 "DejaVu Sans", Verdana, sans-serif; color: #000; background: #fff; margin: 1rem auto; padding: 0 1rem; max-width: 60rem; }
h1 { font-size: 1.7em; margin: 0 0 .2em; } h2 { font-size: 1.15em; margin: 1.2em 0 .4em; } p { margin: .2em 0; }
.cards { display: flex; flex-wrap: wrap; gap: .8rem 1.2rem; }
.card { break-inside: avoid; margin: 0; max-width: 100%%; } .card svg { max-width: 100%%; height: auto; display: block; }
.card figcaption { font-size: .85em; max-width: %[2]grem; }
.line { margin: 0 0 .5em; break-inside: avoid; } .seg { display: inline-block; vertical-align: bottom; white-space: pre-wrap; overflow-wrap: anywhere; max-width: 100%%; }
.seg b { display: block; padding-right: .6em; min-height: 1.45em; } .bars .seg { font-family: "DejaVu Sans Mono", Menlo, Consolas, monospace; }
.blank { height: .7em; } ol { padding-left: 1.6em; }
@page { margin: 14mm; }
@media print { body { margin: 0; padding: 0; max-width: none; font-size: %[3]gpt; } }
`

// HTML draws a sheet as a page that needs no other file. In reading order come title, key and how it is played, the shapes, each with a
// text in the place of its picture, and the song, each chord before its words.
func HTML(a arrange.Arrangement, o Options) string {
	s := newSheet(a, o)
	scale := o.Scale()
	var b strings.Builder
	fmt.Fprintf(&b, "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>%s</title>\n", escaped(s.title))
	fmt.Fprintf(&b, "<style>"+style+"</style>\n</head>\n<body>\n<main>\n", 15*scale, 17*scale, 10.5*scale)
	fmt.Fprintf(&b, "<h1>%s</h1>\n<p>%s</p>\n", escaped(s.title), escaped(s.key))
	for _, h := range s.hand {
		fmt.Fprintf(&b, "<p>%s</p>\n", escaped(h))
	}
	b.WriteString("<section>\n<h2>Shapes</h2>\n<div class=\"cards\">\n")
	for _, c := range s.cards {
		c.html(&b, scale)
	}
	b.WriteString("</div>\n</section>\n<section>\n<h2>Song</h2>\n")
	for _, p := range s.parts {
		p.html(&b)
	}
	b.WriteString("</section>\n<section>\n<h2>The shapes in words</h2>\n<ol>\n")
	for _, w := range s.words {
		fmt.Fprintf(&b, "<li>%s.</li>\n", escaped(w.Aloud()))
	}
	b.WriteString("</ol>\n</section>\n</main>\n</body>\n</html>\n")
	return b.String()
}

// html writes a card as a figure.
func (c card) html(b *strings.Builder, scale float64) {
	var p picture
	for _, n := range c.necks {
		of := n.draw()
		p.put(of, p.width, 0, 1)
		p.width, p.height = p.width+of.width, max(p.height, of.height)
	}
	said := make([]string, len(c.necks))
	for i, n := range c.necks {
		said[i] = described(n.voicing, n.fingers).Aloud()
	}
	b.WriteString(`<figure class="card">`)
	openSVG(b, p, 1.3*scale, strings.Join(said, ". "))
	writeMarks(b, p)
	b.WriteString("</svg>")
	if !c.trade.IsZero() {
		fmt.Fprintf(b, "<figcaption>%s</figcaption>", escaped(c.trade.Screen()))
	}
	b.WriteString("</figure>\n")
}

// html writes a section of the song.
func (p part) html(b *strings.Builder) {
	if p.name != "" {
		fmt.Fprintf(b, "<h3>%s</h3>\n", escaped(p.name))
	}
	for _, line := range p.lines {
		chords, bars := false, true
		for _, s := range line {
			chords = chords || s.above != ""
			bars = bars && strings.Contains(s.below, "|")
		}
		switch {
		case len(line) == 0:
			b.WriteString("<div class=\"blank\"></div>\n")
			continue
		case bars:
			b.WriteString("<p class=\"line bars\">")
		default:
			b.WriteString("<p class=\"line\">")
		}
		for _, s := range line {
			b.WriteString("<span class=\"seg\">")
			if chords {
				fmt.Fprintf(b, "<b>%s</b>", escaped(s.above))
			}
			b.WriteString(escaped(s.below) + "</span>")
		}
		b.WriteString("</p>\n")
	}
}
