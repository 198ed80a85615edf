package page

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Chapter shows the parts of a chapter of the course, each with how much of it is known, to open one or to practise all of them.
type Chapter struct {
	of   practice.Chapter
	mark int
	back *Course
}

// Page implements Place.
func (c *Chapter) Page(w *Walk) Page {
	open := func(n int) Next { return Next{To: &Part{of: c.of.Parts[n], back: c}, Anew: true} }
	list, blocks := learntChoice(len(c.of.Parts), &c.mark, open, func(n int) (say.Text, practice.Learnt, []string) {
		part := c.of.Parts[n]
		return say.Of("{}", say.Foreign(part.Name())), part.Learnt(), []string{part.ID}
	})
	return Page{
		Blocks: append([]Block{Sentence{Text: c.of.Name, Tone: Strong}, Gap{}}, blocks...),
		Acts:   list.acts("open it", practises(func() Next { return w.part(c.of.Way()) }), backTo(c.back)),
		Take:   list.take, Ask: askPart, Lead: askPart,
	}
}

// backTo leads to the page that one came from, as it was left.
func backTo(at Place) Act { return leads("back", func() Place { return at }) }
