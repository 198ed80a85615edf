package home

import (
	"sparetone/drills/catalogue"
	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
)

// Drills lists the drills, to practise one of them.
type Drills struct{ mark int }

// Page implements Place.
func (d *Drills) Page(w *page.Walk) page.Page {
	all := catalogue.All()
	list := page.Choice{Mark: &d.mark, Aloud: func(n int) say.Text { return sayDrill(all[n].About()) }, Pick: func(n int) page.Next { return asking.PractisePart(w, practice.OneDrill(all[n])) }}
	for _, one := range all {
		about := one.About()
		list.Lines = append(list.Lines, page.Line{Text: say.Of(about.Title), Names: []string{about.ID, about.Title}})
	}
	list.Lines = page.Numbered(list.Lines)
	return page.Page{Blocks: []page.Block{page.Title(titleOneDrill), page.Gap{}, list}, Acts: list.Acts("begin", w.BackToToday()), Take: list.Take, Ask: askDrill, HelpBegins: askDrill}
}
