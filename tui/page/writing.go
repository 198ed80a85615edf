package page

import (
	"slices"
	"strconv"
	"strings"

	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Writing is where a song is written, typed line by line or pasted.
type Writing struct {
	lines []string
	mark  int
	at    int                // the line that is written anew; -1 for none
	of    *practice.SongWork // the song that is rewritten; nil for a new one
	songs *Songs
	said  bool // the lines were said
}

func newWriting(_ *Walk, songs *Songs) *Writing { return &Writing{at: -1, songs: songs} }

// longestLine is how many characters of a line of a song can be typed.
const longestLine = 400

// Page implements Place.
func (t *Writing) Page(w *Walk) Page {
	heading := "Write a song"
	if t.of != nil {
		heading = "Change the song"
	}
	field := Field{Label: "", Does: "next line", Most: longestLine, Open: true, Lines: true}
	field.Before = []Block{title(heading), Seen{Text: aboutWriting, Tone: Quiet}, Gap{}}
	for _, l := range t.lines[max(0, len(t.lines)-linesShown):] {
		field.Before = append(field.Before, Seen{Text: say.Of("{}", say.Foreign(l))})
	}
	list := Choice{Mark: &t.mark, Pick: func(n int) Next { return t.rewrites(n) }, Aloud: func(n int) say.Text {
		if t.said {
			return say.Text{}
		}
		return say.Of("{}", say.Foreign(t.lines[n]))
	}}
	for _, l := range t.lines {
		list.Lines = append(list.Lines, Line{Text: say.Of("{}", say.Foreign(l))})
	}
	field.Else = []Block{title(heading), Gap{}, list}
	if len(t.lines) == 0 {
		field.Else = []Block{title(heading), Gap{}, Seen{Text: aboutWriting, Tone: Quiet}}
	}
	if t.at >= 0 {
		field.Text, field.Does = t.lines[t.at], "write it anew"
	}
	some := len(t.lines) > 0
	return Page{
		Blocks: []Block{Aloud(say.Of(heading+". {}", aboutWriting)), field},
		Acts: only(
			called("done", func(string) Next { return t.done(w) }),
			eye("type").As("type on"),
			called("line", func(typed string) Next { return t.line(typed, t.rewrites) }).where(some),
			called("drop", func(typed string) Next { return t.line(typed, t.drops) }).where(some),
			eye("mark").where(some),
			leads("back", func() Place { return t.home() }).verbatim(),
		),
		Take: func(typed string) Next { return t.take(typed) }, Ask: askWriting, Lead: leadWriting, Verbatim: true,
	}
}

// verbatim is the act of going back where an empty line is a line of what is written.
func (a Act) verbatim() Act { a.Words = "stop"; return a }

// linesShown is how many lines stand above the one that is typed.
const linesShown = 8

// home is where writing leads back to.
func (t *Writing) home() Place {
	if t.of != nil {
		return &Song{work: t.of, back: t.songs.back}
	}
	return t.songs
}

// take takes a line.
func (t *Writing) take(typed string) Next {
	typed = strings.TrimRight(typed, " \t")
	if t.at >= 0 {
		t.lines[t.at], t.at = typed, -1
	} else {
		t.lines = append(t.lines, typed)
	}
	t.said = true
	return Next{On: true}
}

// line does something to the line that is marked, or whose number was typed.
func (t *Writing) line(typed string, do func(n int) Next) Next {
	n := t.mark
	if typed != "" {
		number, err := strconv.Atoi(Unstopped(typed))
		if err != nil || number < 1 || number > len(t.lines) {
			return Next{Said: say.Of("There are lines 1 to {}.", say.Number(len(t.lines)))}
		}
		n = number - 1
	}
	return do(min(n, len(t.lines)-1))
}

// rewrites has a line be written anew.
func (t *Writing) rewrites(n int) Next {
	t.at = n
	return Next{On: true, Said: say.Of("Line {} is written anew: {}", say.Number(n+1), say.Foreign(t.lines[n])), Aloud: true}
}

// drops takes a line out.
func (t *Writing) drops(n int) Next {
	t.lines = slices.Delete(t.lines, n, n+1)
	t.mark, t.at = max(0, min(t.mark, len(t.lines)-1)), -1
	return Next{Said: say.Of("Line {} is out.", say.Number(n+1)), Aloud: true}
}

// done reads what was written as a song.
func (t *Writing) done(w *Walk) Next {
	chart := strings.Join(t.lines, "\n")
	if t.of != nil {
		if err := t.of.Rewrite(chart); err != nil {
			return Next{Said: practice.SentenceOf(err)}
		}
		return Next{To: t.home(), Hush: true}
	}
	work, err := w.NewSong(chart)
	if err != nil {
		return Next{Said: practice.SentenceOf(err)}
	}
	return newSong(work, t.songs.back)
}
