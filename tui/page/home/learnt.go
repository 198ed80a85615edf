package home

import (
	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// learntChoice is a list of what is learnt, with the sentence that stands below it.
func learntChoice(n int, mark *int, pick func(n int) page.Next, line func(n int) (name say.Text, l practice.Learnt, names []string)) (page.Choice, []page.Block) {
	list := page.Choice{Mark: mark, Pick: pick}
	var learnt []practice.Learnt
	for i := range n {
		name, l, names := line(i)
		learnt = append(learnt, l)
		list.Lines = append(list.Lines, page.Line{Text: name, Learnt: l, Names: append(names, name.Screen())})
	}
	list.Lines = page.Numbered(list.Lines)
	list.Aloud = func(n int) say.Text { return say.Of("{}: {}", list.Lines[n].Text, learnt[n].Words()) }
	return list, []page.Block{list, page.Gap{IfRoom: true}, page.Seen{Text: say.Sentence("{}.", list.Aloud(*mark)), IfRoom: true}}
}
