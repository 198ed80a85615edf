package home

import (
	"slices"

	"sparetone/drills/catalogue"
	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
)

// Part shows what a part of the course teaches, to meet one thing again or to practise all of them.
type Part struct {
	of   practice.Part
	mark int
	back page.Place
}

// Page implements Place.
func (p *Part) Page(w *page.Walk) page.Page {
	things := slices.Concat(p.of.Things, p.of.Also)
	list := page.Choice{Mark: &p.mark, Pick: func(n int) page.Next { return meetsThing(w, things[n], p) }}
	for _, t := range things {
		list.Lines = append(list.Lines, page.Line{Text: t.Name, More: t.Grasp.String(), Names: []string{t.ID, t.Name.Screen()}})
	}
	list.Lines = page.Numbered(list.Lines)
	list.Aloud = func(n int) say.Text {
		return say.Of("{}, {}", list.Lines[n].Text, say.Words(list.Lines[n].More))
	}
	blocks := []page.Block{page.Sentence{Text: say.Of("{}", say.Foreign(p.of.Name())), Tone: page.Strong}}
	if d, ok := catalogue.ByID(p.of.Drill); ok {
		blocks = append(blocks, page.Sentence{Text: sayPractisedIn(d.About()), Tone: page.Quiet})
	}
	return page.Page{
		Blocks: append(blocks, page.Gap{}, list),
		Acts:   list.Acts("what it is like", page.Called("practise", func(string) page.Next { return asking.PractisePart(w, practice.OneStep(p.of.Step)) }), page.BackTo(p.back)),
		Take:   list.Take, Ask: askThing, HelpBegins: askThing,
	}
}

// meetsThing shows a thing of the course, and leads back.
func meetsThing(w *page.Walk, t practice.Thing, back page.Place) page.Next {
	m, err := w.MeetingOf(t)
	if err != nil {
		return page.Refused(err)
	}
	return asking.ShowAgain(w, m, func() page.Next { return page.Next{To: back, Silence: true, NewPage: true} })
}
