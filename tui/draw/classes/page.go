// Package classes draws how a class is doing as one page of HTML that needs no other file and no script: every picture stands beside
// the figures that it shows.
package classes

import (
	"encoding/xml"
	"fmt"
	"strings"
	"time"

	"sparetone/drills/class"
	"sparetone/progress/memory"
	"sparetone/theory"
	"sparetone/theory/say"
)

// policy lets the page ask for nothing and run nothing, whatever a name may hold.
const policy = "default-src 'none'; style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'"

// style is how the page looks. The colours, by what they are against white: text 12.6, quiet text 7.0, a picture 6.6 and 5.9 to 1. WCAG 2.2 asks for 4.5 of text and 3
// of pictures (success criteria 1.4.3 and 1.4.11); a test measures them in a browser.
const style = `
:root { color-scheme: light; }
* { box-sizing: border-box; }
body { font: 1rem/1.45 "DejaVu Sans", Verdana, sans-serif; color: #222; background: #fff; margin: 1rem auto; padding: 0 1rem; max-width: 76rem; overflow-wrap: anywhere; }
h1 { font-size: 1.6rem; margin: 0 0 .2rem; } h2 { font-size: 1.2rem; margin: 1.8rem 0 .4rem; } p { margin: .3rem 0; } .quiet { color: #555; font-size: .9em; }
a { color: #0b4f79; } a:focus-visible, [tabindex]:focus-visible, summary:focus-visible { outline: 3px solid #0b4f79; outline-offset: 2px; }
nav ul { display: flex; flex-wrap: wrap; gap: .2rem 1.2rem; list-style: none; padding: 0; margin: .6rem 0; } nav a { display: inline-block; padding: .3rem 0; }
.wide { overflow-x: auto; max-width: 100%; container-type: inline-size; }
table { border-collapse: collapse; width: 100%; min-width: 44rem; overflow-wrap: normal; } caption { text-align: start; font-weight: bold; padding: .3rem 0; }
.few table { min-width: 34rem; }
th, td { text-align: start; vertical-align: top; padding: .4rem .6rem .4rem 0; border-bottom: 1px solid #999; }
thead th { border-bottom: 2px solid #222; } tbody th { font-weight: bold; min-width: 7rem; max-width: 16rem; overflow-wrap: anywhere; } td.n { font-variant-numeric: tabular-nums; }
tr.silent th::after { content: "silent"; display: block; font-weight: normal; font-size: .85em; color: #8a1c00; }
svg { display: block; max-width: 100%; } ul, ol { margin: .3rem 0; padding-inline-start: 1.4rem; }
@page { size: landscape; margin: 12mm; }
@media print {
	body { margin: 0; padding: 0; max-width: none; font-size: 9pt; line-height: 1.25; } nav { display: none; } a { color: inherit; text-decoration: none; }
	.wide { overflow: visible; } table { min-width: 0; } th, td { padding: .15rem .5rem .15rem 0; } tr, li { break-inside: avoid; } thead { display: table-header-group; } h2 { break-after: avoid; }
}
@container (min-width: 56rem) { tbody td.n, td.day, td .quiet { white-space: nowrap; } td .name { white-space: normal; } }
`

// page is a page that is being written.
type page struct{ strings.Builder }

func (p *page) f(format string, args ...any) { fmt.Fprintf(p, format, args...) }

// escaped is a text in HTML and XML, without what could move others.
func escaped(s string) string {
	var b strings.Builder
	if err := xml.EscapeText(&b, []byte(theory.Clean(s))); err != nil {
		return ""
	}
	return b.String()
}

// isolated is a name, whose direction of writing is nobody else's.
func isolated(name string) string { return "<bdi>" + escaped(name) + "</bdi>" }

// HTML draws a class as a page.
func HTML(r *class.Report) string {
	var p page
	title := "Class on " + date(r.Today.Date())
	p.f("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n<meta http-equiv=\"Content-Security-Policy\" content=\"%s\">\n", escaped(policy))
	p.f("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"referrer\" content=\"no-referrer\">\n<title>%s</title>\n<style>%s</style>\n</head>\n<body>\n<main>\n<h1>%s</h1>\n", title, style, title)
	silent := 0
	for _, s := range r.Students {
		if s.IsSilent() {
			silent++
		}
	}
	p.f("<p>%s</p>\n", escaped(say.Of("{}, {} of them silent.", say.Count{N: len(r.Students), One: "student", Many: "students"}, say.Number(silent)).Screen()))
	p.WriteString("<nav aria-label=\"On this page\"><ul><li><a href=\"#students\">Students</a></li><li><a href=\"#ear\">Weak by ear</a></li><li><a href=\"#eye\">Weak by eye</a></li>" +
		"<li><a href=\"#groups\">Groups and lessons</a></li><li><a href=\"#play\">To play</a></li><li><a href=\"#figures\">What the figures are</a></li></ul></nav>\n")
	p.students(r)
	p.weak(r, true)
	p.weak(r, false)
	p.groups(r)
	p.play(r)
	p.files(r)
	p.figures(r)
	p.WriteString("</main>\n</body>\n</html>\n")
	return p.String()
}

func date(t time.Time) string { return t.Format("2 January 2006") }

// table begins a table that can be moved sideways where it is wider than the page, by keys as well.
func (p *page) table(class, caption string, columns ...string) {
	p.f("<div class=\"wide %s\" tabindex=\"0\" role=\"region\" aria-label=\"%s\">\n<table>\n<caption>%s</caption>\n<thead><tr>", class, escaped(caption), escaped(caption))
	for _, c := range columns {
		p.f("<th scope=\"col\">%s</th>", escaped(c))
	}
	p.WriteString("</tr></thead>\n<tbody>\n")
}

func (p *page) tableEnds() { p.WriteString("</tbody>\n</table>\n</div>\n") }

func (p *page) students(r *class.Report) {
	p.WriteString("<section id=\"students\">\n<h2>Students</h2>\n")
	columns := []string{"Student", "Last seen", "Last four weeks", "Minutes", "Lesson", "What the numbers show", "Known by ear", "Known by eye"}
	if r.Since > 0 {
		columns = append(columns, "Since "+date(r.Since.Date()))
	}
	lesson := theLesson(r)
	if lesson != "" {
		p.f("<p>Their lesson: %s.</p>\n", isolated(lesson))
	}
	p.table("", "Each student, the silent ones first", columns...)
	for _, s := range r.Students {
		state := ""
		if s.IsSilent() {
			state = " class=\"silent\""
		}
		p.f("<tr%s><th scope=\"row\">%s</th>", state, isolated(s.Name))
		seen := "never"
		if s.Days > 0 {
			seen = s.Last.Date().Format("2 Jan 2006")
		}
		p.f("<td class=\"day\">%s</td><td>%s%s</td><td class=\"n\">%.0f%s</td>", seen, escaped(say.Of("{}", say.Count{N: s.Lately(), One: "day", Many: "days"}).Screen()), strip(s), s.Minutes, answered(s))
		if l := s.Lesson; l.Things > 0 {
			p.f("<td class=\"n\">%d of %d", l.Done, l.Things)
			if lesson == "" {
				p.f("<br><span class=\"quiet name\">%s</span>", isolated(l.Name))
			}
			p.WriteString("</td>")
		} else {
			p.WriteString("<td>none</td>")
		}
		p.f("<td>%s</td>", escaped(s.Finding.Says().Screen()))
		p.known(s.Ear)
		p.known(s.Eye)
		if r.Since > 0 {
			p.change(s)
		}
		p.WriteString("</tr>\n")
	}
	p.tableEnds()
	p.WriteString("</section>\n")
}

// theLesson returns the name of the one lesson that all students have who have any; "" if there are several or none.
func theLesson(r *class.Report) (name string) {
	for _, s := range r.Students {
		switch l := s.Lesson; {
		case l.Things == 0:
		case name != "" && l.Name != name:
			return ""
		default:
			name = l.Name
		}
	}
	return name
}

// known writes a cell of how much is known, with its picture.
func (p *page) known(t memory.Tally) {
	k, any := class.KnownOf(t)
	if !any {
		p.WriteString("<td>not asked</td>")
		return
	}
	p.f("<td class=\"n\">%d %%, %d to %d%s</td>", k.Known, k.Low, k.High, whisker(k))
}

func (p *page) change(s *class.Student) {
	if s.Change == nil {
		p.WriteString("<td class=\"quiet\">nothing to compare</td>")
		return
	}
	c, told := *s.Change, ""
	if !c.Says() {
		told = "<br><span class=\"quiet\">not told from no change</span>"
	}
	p.f("<td class=\"n\">%s points, %s to %s%s</td>", class.Points(c.By), class.Points(c.Low), class.Points(c.High), told)
}

// answered says how many answers a student gave, and how many of them on an instrument.
func answered(s *class.Student) string {
	if s.Answers == 0 {
		return ""
	}
	says := say.Of("{}", say.Count{N: s.Answers, One: "answer", Many: "answers"})
	if s.Played > 0 {
		says = say.Of("{}, {} played", says, say.Number(s.Played))
	}
	if s.Back.Counted > 0 {
		says = say.Of("{}, {} more taken back after they counted", says, say.Number(s.Back.Counted))
	}
	return "<br><span class=\"quiet\">" + escaped(says.Screen()) + "</span>"
}

func (p *page) weak(r *class.Report, ear bool) {
	id, by := "eye", "By eye"
	if ear {
		id, by = "ear", "By ear"
	}
	p.f("<section id=\"%s\">\n<h2>Weak %s</h2>\n", id, strings.ToLower(by[:1])+by[1:])
	begun := false
	for _, w := range r.Weak {
		if w.Ear != ear {
			continue
		}
		if !begun {
			begun = true
			p.table("few", by+", by how many students are weak at it", "Thing", "Instrument", "Students", "What kind of trouble", "Who")
		}
		p.f("<tr><th scope=\"row\">%s<br><span class=\"quiet\">%s</span></th><td>%s</td><td class=\"n\">%d of %d%s</td><td>%s</td><td>", escaped(w.Name), escaped(w.Drill), escaped(w.Tuning), w.Weak, w.Tested,
			bar(w.Weak, w.Tested), escaped(trouble(w)))
		for n, name := range w.Students {
			if n > 0 {
				p.WriteString(", ")
			}
			p.WriteString(isolated(name))
		}
		p.WriteString("</td></tr>\n")
	}
	if begun {
		p.tableEnds()
	} else {
		p.WriteString("<p>Nothing of which luck is excluded as an explanation.</p>\n")
	}
	p.WriteString("</section>\n")
}

// trouble says what kind of trouble a weakness is, as far as the numbers show it.
func trouble(w class.Weakness) string {
	var parts []string
	if w.Mostly != "" {
		parts = append(parts, "mostly taken for “"+w.Mostly+"”")
	}
	if w.Chance > 0 {
		parts = append(parts, fmt.Sprintf("at chance: %d", w.Chance))
	}
	if parts == nil {
		return "missed more often than it should be"
	}
	return strings.Join(parts, "; ")
}

func (p *page) groups(r *class.Report) {
	p.WriteString("<section id=\"groups\">\n<h2>Groups and lessons</h2>\n")
	for _, g := range r.Groups {
		p.f("<h3>%s</h3>\n<p class=\"quiet\">%s</p>\n<p>", escaped(g.Title().Screen()), escaped(say.Sentence("{}.", g.Says()).Screen()))
		if len(g.Students) == 0 {
			p.WriteString("Nobody.")
		}
		for n, name := range g.Students {
			if n > 0 {
				p.WriteString(", ")
			}
			p.WriteString(isolated(name))
		}
		p.WriteString("</p>\n")
		if asks := g.Asks(); len(asks) > 0 {
			p.WriteString("<ul>\n")
			for _, a := range asks {
				p.f("<li>%s</li>\n", escaped(a.Screen()))
			}
			p.WriteString("</ul>\n")
		}
	}
	p.WriteString("</section>\n")
}

func (p *page) play(r *class.Report) {
	p.WriteString("<section id=\"play\">\n<h2>To play in the next lesson</h2>\n")
	if len(r.Play) == 0 {
		p.WriteString("<p>Nothing is surely weak: play what comes next.</p>\n")
	} else {
		p.WriteString("<ol>\n")
		for _, one := range r.Play {
			p.f("<li><b>%s</b>, %s:", escaped(one.Thing.Name), escaped(say.Of("{}", say.Count{N: one.Weak, One: "student", Many: "students"}).Screen()))
			for _, t := range one.Told {
				p.f(" %s", escaped(t.Screen()))
			}
			p.WriteString("</li>\n")
		}
		p.WriteString("</ol>\n")
	}
	p.WriteString("</section>\n")
}

func (p *page) files(r *class.Report) {
	if len(r.Problems) == 0 {
		return
	}
	p.WriteString("<section>\n<h2>Files</h2>\n<ul>\n")
	for _, one := range r.Problems {
		p.WriteString("<li>")
		if one.File != "" {
			p.f("%s: ", isolated(one.File))
		}
		p.f("%s</li>\n", isolated(one.Says))
	}
	p.WriteString("</ul>\n</section>\n")
}

func (p *page) figures(r *class.Report) {
	p.WriteString("<section id=\"figures\">\n<h2>What the figures are</h2>\n")
	p.WriteString("<p>Known is how much of what was asked in the last eight weeks is known, guessing taken out; the two figures beside it, and the line in the picture, are where it truly lies, 95 times in 100. The thin line marks the middle, 50 %.</p>\n")
	p.WriteString("<p>Weak is what was asked eight times or more and is right so seldom that bad luck hardly explains it; it is counted by students and not by answers. At chance is what guessing alone would do as well. Where luck is not excluded nothing is said.</p>\n")
	if k, any := class.KnownOf(r.Ever); any {
		p.f("<p>First answers ever: %d of %d right, where guessing gives %.0f; so %d %% were known by then, %d to %d: from before, or from being shown.</p>\n", r.Ever.Right, r.Ever.Asked, r.Ever.Guessed, k.Known, k.Low, k.High)
	}
	p.WriteString("</section>\n")
}
