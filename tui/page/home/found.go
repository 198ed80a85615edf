package home

import (
	"sparetone/drills/course"
	"sparetone/drills/practice/setting"
	"sparetone/tui/page"
)

// Found says what a check of what is known came to, where it was asked for in the settings: to begin there, or to leave all as it was.
type Found struct {
	found *course.Placement
	back  page.Place
}

// findsOut is the act that finds out anew where in the course one begins.
func findsOut(w *page.Walk, from page.Place) page.Act {
	return page.Called("find out", func(string) page.Next {
		return newPlacement(w, func(found *course.Placement) page.Next {
			if found == nil {
				return page.Next{To: from, Silence: true}
			}
			return page.Next{To: &Found{found, from}, Silence: true, NewPage: true}
		})
	})
}

// Page implements Place.
func (f *Found) Page(w *page.Walk) page.Page {
	p := page.Page{Blocks: []page.Block{page.Title(titleWhatWasFound), page.Gap{}}}
	for _, l := range f.found.Say() {
		p.Blocks = append(p.Blocks, page.Sentence{Text: l})
	}
	begin := page.Called("go on", func(string) page.Next { return f.take(w) }).As("begin there")
	begin.Says = " begins there"
	stay := page.BackTo(f.back).As("leave it as it was")
	stay.Words, stay.Says = "stop|back", ", to leave it as it was"
	p.Acts, p.Ask, p.HelpBegins = []page.Act{begin, stay}, askFound, askFound
	return p
}

// take begins at what was found.
func (f *Found) take(w *page.Walk) page.Next {
	k := setting.ByID("level")
	if err := w.Set(k.ID, f.found.Found().Level().ID()); err != nil {
		return page.Refused(err)
	}
	return page.Next{To: f.back, Said: sayNow(&w.Settings, k)}
}
