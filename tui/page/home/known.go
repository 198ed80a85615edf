package home

import (
	"sparetone/drills/practice"
	"sparetone/tui/page"
)

// Knowledge shows what somebody can tell apart by ear, week by week, and how well each kind of chord is known.
type Knowledge struct {
	curve  practice.Curve
	kinds  practice.KindMap
	failed error
	back   func() page.Next
}

func newKnowledge(w *page.Walk, back func() page.Next) *Knowledge {
	k := &Knowledge{back: back}
	if k.curve, k.failed = w.ToldApart(); k.failed == nil {
		k.kinds, k.failed = w.KindMap()
	}
	return k
}

// Page implements Place.
func (k *Knowledge) Page(w *page.Walk) page.Page {
	weak := page.Leads("weak", func() page.Place { return newWeak(w) })
	weak.HelpOnly = false
	p := page.Page{
		Blocks: []page.Block{page.Title(titleWhatYouKnow), page.Gap{}},
		Acts:   []page.Act{page.Called("back", func(string) page.Next { return k.back() }), weak},
		Ask:    askWeak, HelpBegins: askWeak,
	}
	if k.failed != nil {
		p.Blocks = append(p.Blocks, page.Failing(k.failed)...)
		return p
	}
	for _, l := range practice.Curve(k.curve).Words() {
		p.Blocks = append(p.Blocks, page.Sentence{Text: l})
	}
	p.Blocks = append(p.Blocks, page.Gap{}, page.Curve(k.curve), page.Gap{}, page.Sentence{Text: aboutKinds, Tone: page.Quiet}, page.KindMap(k.kinds))
	return p
}
