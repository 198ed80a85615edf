package songs

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/drills/practice"
	"sparetone/drills/practice/songwork"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// Writing is where a song is written, typed line by line or pasted.
type Writing struct {
	lines     []string
	mark      int            // index of the line that is marked
	rewriting int            // index of the line that is written anew; -1 for none
	song      *songwork.Work // the song that is rewritten; nil for a new one
	said      bool           // in lines what was written was said

	back  func() page.Place
	opens func(work *songwork.Work) page.Next // goes to a new song
}

// longestLine is how many characters of a line of a song can be typed.
const longestLine = 400

// Page implements Place.
func (t *Writing) Page(w *page.Walk) page.Page {
	heading := titleWriting
	if t.song != nil {
		heading = titleRewriting
	}
	field := page.Field{Label: "", Does: "next line", MaxLength: longestLine, Open: true, Multiline: true}
	field.WhileOpen = []page.Block{page.Title(heading), page.Seen{Text: aboutWriting, Tone: page.Quiet}, page.Gap{}}
	for _, l := range t.lines[max(0, len(t.lines)-linesShown):] {
		field.WhileOpen = append(field.WhileOpen, page.Seen{Text: say.Of("{}", say.Foreign(l))})
	}
	list := page.Choice{Mark: &t.mark, Pick: func(n int) page.Next { return t.rewrites(n) }, Aloud: func(n int) say.Text {
		if t.said {
			return say.Text{}
		}
		return say.Of("{}", say.Foreign(t.lines[n]))
	}}
	for _, l := range t.lines {
		list.Lines = append(list.Lines, page.Line{Text: say.Of("{}", say.Foreign(l))})
	}
	field.WhileClosed = []page.Block{page.Title(heading), page.Gap{}, list}
	if len(t.lines) == 0 {
		field.WhileClosed = []page.Block{page.Title(heading), page.Gap{}, page.Seen{Text: aboutWriting, Tone: page.Quiet}}
	}
	if t.rewriting >= 0 {
		field.Text, field.Does = t.lines[t.rewriting], "write it anew"
	}
	some := len(t.lines) > 0
	back := page.Leads("back", t.back)
	back.Words = "stop" // an empty line is a line of the song
	return page.Page{
		Blocks: []page.Block{page.Aloud(say.Of(heading+". {}", aboutWriting)), field},
		Acts: page.Only(
			page.Called("done", func(string) page.Next { return t.done(w) }),
			page.OnScreen("type").As("type on"),
			page.Called("line", func(typed string) page.Next { return t.line(typed, t.rewrites) }).If(some),
			page.Called("drop", func(typed string) page.Next { return t.line(typed, t.drops) }).If(some),
			page.OnScreen("mark").If(some),
			back,
		),
		Take: func(typed string) page.Next { return t.take(typed) }, Ask: askWriting, HelpBegins: leadWriting, Verbatim: true,
	}
}

// linesShown is how many lines stand above the one that is typed.
const linesShown = 8

// take takes a line.
func (t *Writing) take(typed string) page.Next {
	typed = strings.TrimRight(typed, " \t")
	if t.rewriting >= 0 {
		t.lines[t.rewriting], t.rewriting = typed, -1
	} else {
		t.lines = append(t.lines, typed)
	}
	t.said = true
	return page.Next{OpensField: true}
}

// line does something to the line that is marked, or whose number was typed.
func (t *Writing) line(typed string, do func(n int) page.Next) page.Next {
	n := t.mark
	if typed != "" {
		number, err := strconv.Atoi(page.Unstopped(typed))
		if err != nil || number < 1 || number > len(t.lines) {
			return page.Next{Said: sayLines(len(t.lines))}
		}
		n = number - 1
	}
	return do(min(n, len(t.lines)-1))
}

// rewrites has a line be written anew.
func (t *Writing) rewrites(n int) page.Next {
	t.rewriting = n
	return page.Next{OpensField: true, Said: sayAnew(n+1, t.lines[n]), OnlyInLines: true}
}

// drops takes a line out.
func (t *Writing) drops(n int) page.Next {
	t.lines = slices.Delete(t.lines, n, n+1)
	t.mark, t.rewriting = max(0, min(t.mark, len(t.lines)-1)), -1
	return page.Next{Said: sayOut(n + 1), OnlyInLines: true}
}

// done reads what was written as a song.
func (t *Writing) done(w *page.Walk) page.Next {
	chart := strings.Join(t.lines, "\n")
	if t.song != nil {
		if err := t.song.Rewrite(chart); err != nil {
			return page.Next{Said: practice.SentenceOf(err)}
		}
		return page.Next{To: t.back(), Silence: true}
	}
	work, err := w.NewSong(chart)
	if err != nil {
		return page.Next{Said: practice.SentenceOf(err)}
	}
	return t.opens(work)
}
