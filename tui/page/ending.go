package page

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Ending is the end of a practice: what was done, what got stronger, what is weak, and when it goes on.
type Ending struct {
	failed error // why practice could not go on; nil if it simply ended
	sum    practice.Summary
	said   []Block  // before it
	saved  say.Text // what came of saving it elsewhere; zero if that was not asked for
}

// newEnding sums up the session, which is closed already.
func newEnding(w *Walk, failed error, said []Block) *Ending {
	return &Ending{failed: failed, said: said, sum: practice.SumUp(&w.App)}
}

// Page implements Place.
func (e *Ending) Page(w *Walk) Page {
	lost := w.Unkept()
	weak := leads("weak", func() Place { return newWeak(w) })
	weak.Aside = false
	p := Page{
		Blocks: append([]Block{title("Done for now"), Gap{}}, e.said...),
		Acts: only(
			called("leave", func(string) Next { return w.Leave() }).on("q esc").As("leave"),
			called("save", func(path string) Next { return w.saves(e, path) }).on("s ctrl+s").where(lost != ""),
			called("go on", func(string) Next { return e.goOn(w) }).As("back to today"),
			weak.where(len(e.sum.Missed) > 0),
		),
		Passed: true,
	}
	if e.failed != nil {
		p.Blocks = append(append(p.Blocks, failing(e.failed)...), Gap{})
	}
	switch {
	case lost != "":
		p.Blocks = append(p.Blocks, Seen{Text: sayWrong(lost), Tone: Wrong}, Gap{}, Summary(e.sum), Aloud(say.Of("{}", say.Foreign(lost))), Aloud(saySaveIn(w.Proposed())))
	case !e.saved.IsZero():
		p.Blocks = append(p.Blocks, Seen{Text: sayRight(e.saved), Tone: Right}, Gap{}, Summary(e.sum))
	default:
		p.Blocks = append(p.Blocks, Summary(e.sum))
	}
	return p
}

// goOn makes the next session, and goes back to today's page.
func (e *Ending) goOn(w *Walk) Next {
	if err := w.Begin(w.Called); err != nil {
		return refused(err)
	}
	return w.today()
}

// finish closes the session and sums it up, said first; failed is why it could not go on, nil if it simply ended.
func (w *Walk) finish(failed error, said ...Block) Next {
	w.end()
	return Next{To: newEnding(w, failed, said)}
}

// keptIn tells on the page that practice was saved elsewhere.
func (e *Ending) keptIn(said say.Text) { e.saved = said }
