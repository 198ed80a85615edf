package home

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
)

// Chapter shows the parts of a chapter of the course, each with how much of it is known, to open one or to practise all of them.
type Chapter struct {
	of   practice.Chapter
	mark int
	back page.Place
}

// Page implements Place.
func (c *Chapter) Page(w *page.Walk) page.Page {
	open := func(n int) page.Next { return page.Next{To: &Part{of: c.of.Parts[n], back: c}, NewPage: true} }
	list, blocks := learntChoice(len(c.of.Parts), &c.mark, open, func(n int) (say.Text, practice.Learnt, []string) {
		part := c.of.Parts[n]
		return say.Of("{}", say.Foreign(part.Name())), part.Learnt(), []string{part.ID}
	})
	return page.Page{
		Blocks: append([]page.Block{page.Sentence{Text: c.of.Name, Tone: page.Strong}, page.Gap{}}, blocks...),
		Acts:   list.Acts("open it", page.Called("practise", func(string) page.Next { return asking.PractisePart(w, c.of.Way()) }), page.BackTo(c.back)),
		Take:   list.Take, Ask: askPart, HelpBegins: askPart,
	}
}
