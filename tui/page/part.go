package page

import (
	"sparetone/drills/catalogue"
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Part shows what a part of the course teaches, to meet one thing again or to practise all of them.
type Part struct {
	of   practice.Part
	mark int
	back *Chapter
}

// Page implements Place.
func (p *Part) Page(w *Walk) Page {
	list := Choice{Mark: &p.mark, Pick: func(n int) Next { return w.meetsThing(p.of.Things[n], p) }}
	for _, t := range p.of.Things {
		list.Lines = append(list.Lines, Line{Text: t.Name, More: t.Grasp.String(), Names: []string{t.ID, t.Name.Screen()}})
	}
	list.Lines = numbered(list.Lines)
	list.Aloud = func(n int) say.Text {
		return say.Of("{}, {}", list.Lines[n].Text, say.Words(list.Lines[n].More))
	}
	blocks := []Block{Sentence{Text: say.Of("{}", say.Foreign(p.of.Name())), Tone: Strong}}
	if d, ok := catalogue.ByID(p.of.Drill); ok {
		blocks = append(blocks, Sentence{Text: say.Of("Practised in “{}”.", say.Words(d.About().Title)), Tone: Quiet})
	}
	return Page{
		Blocks: append(blocks, Gap{}, list),
		Acts:   list.acts("what it is like", practises(func() Next { return w.part(practice.OneStep(p.of.Step)) }), backTo(p.back)),
		Take:   list.take, Ask: askThing, Lead: askThing,
	}
}

// meetsThing shows a thing of the course, and leads back.
func (w *Walk) meetsThing(t practice.Thing, back Place) Next {
	m, err := w.MeetingOf(t)
	if err != nil {
		return refused(err)
	}
	return w.meeting(&Meeting{Meeting: m, onward: func() Next { return Next{To: back, Hush: true, Anew: true} }})
}
