package home

import (
	"slices"

	"sparetone/drills/practice"
	"sparetone/drills/practice/setting"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
	"sparetone/tui/page/songs"
	"sparetone/tui/page/trying"
)

// Today is the place to begin: what the next minutes hold and why, and the ways to the rest.
type Today struct {
	mark int
	days []bool // whether there was practice on each, the last one today; nil until that was looked up
}

// Page implements Place.
func (t *Today) Page(w *page.Walk) page.Page {
	part := func(id string, way practice.Way) page.Act { return partAct(w, id, way) }
	back := func() page.Place { return t }
	ways := []page.Act{
		page.Called("begin", func(string) page.Next { return asking.Begin(w, nil) }),
		part("ear", practice.ByEar),
		part("eye", practice.ByEye),
		page.Leads("weak", func() page.Place { return newWeak(w) }),
		page.Leads("drills", func() page.Place { return &Drills{} }),
		page.Leads("known", func() page.Place { return newKnowledge(w, func() page.Next { return page.Next{To: t, Silence: true} }) }),
		page.Leads("course", func() page.Place { return newCourse(w) }),
		page.Called("try", func(string) page.Next { return trying.Open(w, back) }),
		page.Leads("songs", func() page.Place { return songs.NewList(w, back) }),
		page.Leads("lessons", func() page.Place { return newLessons(w, back) }),
		page.Called("hand in", func(string) page.Next { return handIn(w, t) }),
		page.Leads("settings", func() page.Place { return &Settings{back: back} }),
	}
	if w.Microphone != nil {
		ways = slices.Insert(ways, len(ways)-1, tunes(w, back))
	}
	list := page.Choice{Mark: &t.mark, Aloud: func(int) say.Text { return say.Text{} }, Pick: func(n int) page.Next { return ways[n].Do("") }}
	for _, a := range ways {
		line := page.Line{Key: a.Keys, Text: say.Of(a.Does)}
		if a.Does == page.Called(a.ID, nil).Does { // not where it is all of practice again
			line.More = moreOf[a.ID]
		}
		list.Lines = append(list.Lines, line)
	}
	begin := ways[0]
	begin.Do = func(string) page.Next { return ways[t.mark].Do("") }
	p := page.Page{
		Blocks: []page.Block{page.Title(titleToday), page.Gap{}},
		Acts:   append(append([]page.Act{begin}, ways[1:]...), page.OnScreen("mark"), page.Called("leave", func(string) page.Next { return w.Leave() }).On("q esc").As("leave")),
		Ask:    sayWays(ways),
	}
	if w.Notice != "" {
		p.Blocks = append(p.Blocks, page.Seen{Text: sayWrong(w.Notice), Tone: page.Wrong}, page.Gap{})
	}
	for _, l := range practice.Outlook(&w.App) {
		p.Blocks = append(p.Blocks, page.Sentence{Text: l})
	}
	p.Blocks = append(p.Blocks, page.Gap{})
	if t.days == nil {
		t.days = practice.Practised(&w.App)
	}
	if slices.Contains(t.days, true) {
		p.Blocks = append(p.Blocks, page.Weeks(t.days), page.Gap{})
	}
	p.Blocks = append(p.Blocks, list)
	if !w.Cautioned {
		p.Blocks = append(p.Blocks, page.Gap{IfRoom: true}, page.Seen{Text: say.Of(practice.Cautions), Tone: page.Quiet, IfRoom: true})
	}
	return p
}

// partAct begins a part of practice, which from then on is what "begin" begins; where it is that already, the act begins all of it again.
func partAct(w *page.Walk, id string, way practice.Way) page.Act {
	if w.Settings.Part == id {
		all := page.Called(id, func(string) page.Next {
			if err := w.Set("part", setting.AllParts); err != nil {
				return page.Refused(err)
			}
			return asking.Practise(w, w.Called, []say.Text{byEarAndEye})
		}).As("by ear and eye again")
		all.Says = ", for practice by ear and eye again"
		return all
	}
	return page.Called(id, func(string) page.Next {
		next := asking.PractisePart(w, way)
		if next.To != nil {
			if err := w.Set("part", id); err != nil {
				next.Said = practice.SentenceOf(err)
			}
		}
		return next
	})
}

// opening is today's page, or the practice that was asked for when the program was called.
func opening(w *page.Walk) page.Next {
	if w.BeginAtOnce {
		w.BeginAtOnce = false
		return asking.Begin(w, practice.Outlook(&w.App))
	}
	return w.GoToToday()
}
