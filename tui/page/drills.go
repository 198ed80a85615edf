package page

import (
	"sparetone/drills/catalogue"
	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Drills lists the drills, to practise one of them.
type Drills struct{ mark int }

// Page implements Place.
func (d *Drills) Page(w *Walk) Page {
	all := catalogue.All()
	list := Choice{Mark: &d.mark, Aloud: func(n int) say.Text { return sayDrill(all[n].About()) }, Pick: func(n int) Next { return w.part(practice.OneDrill(all[n])) }}
	for _, one := range all {
		about := one.About()
		list.Lines = append(list.Lines, Line{Text: say.Of(about.Title), Names: []string{about.ID, about.Title}})
	}
	list.Lines = numbered(list.Lines)
	return Page{Blocks: []Block{title("One drill"), Gap{}, list}, Acts: list.acts("begin", w.back()), Take: list.take, Ask: askDrill, Lead: askDrill}
}
