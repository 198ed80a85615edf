package home

import (
	"slices"

	"sparetone/drills/practice"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
)

// Weak is what is mistaken for what: a chart of each drill, to go over cell by cell.
type Weak struct {
	mixed    []practice.Mixed
	failed   error
	drill    int          // index among mixed of the chart that shows
	row, col int          // the cell that is marked: what was asked, and what it was taken for
	all      practice.Way // practises all that is weak
	nothing  error        // why there is nothing weak to practise
	pairs    page.Choice
}

// mostPairs is how many pairs are said of what is mistaken, the worst ones.
const mostPairs = 10

func newWeak(w *page.Walk) *Weak {
	k := &Weak{}
	k.mixed, k.failed = practice.MixedUp(&w.App)
	k.all, k.nothing = w.WeakWay()
	k.lookAtWorst()
	k.rankPairs(w)
	return k
}

// lookAtWorst looks at the cell with the most mistakes.
func (k *Weak) lookAtWorst() {
	k.row, k.col = 0, 0
	if len(k.mixed) == 0 {
		return
	}
	m, most := k.mixed[k.drill], 0
	for r := range m.Items {
		for c := range m.Items {
			if n := m.Times(r, c); n > most {
				most, k.row, k.col = n, r, c
			}
		}
	}
}

// rankPairs lists all pairs for lines of text, the most frequent mistake first.
func (k *Weak) rankPairs(w *page.Walk) {
	type pair struct {
		times int
		told  say.Text
		way   practice.Way
	}
	var pairs []pair
	for _, m := range k.mixed {
		for r := range m.Items {
			for c := range m.Items {
				if n := m.Times(r, c); n > 0 {
					pairs = append(pairs, pair{n, say.Of("{}. {}", say.Words(m.Drill.About().Title), m.Told(r, c)[0]), m.Between(r, c)})
				}
			}
		}
	}
	slices.SortStableFunc(pairs, func(a, b pair) int { return b.times - a.times })
	k.pairs = page.Choice{SaidFirst: mostPairs, Pick: func(n int) page.Next { return asking.PractisePart(w, pairs[n].way) }}
	for _, p := range pairs {
		k.pairs.Lines = append(k.pairs.Lines, page.Line{Text: p.told})
	}
}

// Page implements Place.
func (k *Weak) Page(w *page.Walk) page.Page {
	p := page.Page{Blocks: []page.Block{page.Title(titleWeakSpots)}, Take: k.pairs.Take, Ask: askPairs(len(k.pairs.Lines), k.nothing == nil)}
	p.HelpBegins = p.Ask
	all := page.Called("all", func(string) page.Next {
		if k.nothing != nil {
			return page.Refused(k.nothing)
		}
		return asking.PractisePart(w, k.all)
	})
	switch {
	case k.failed != nil:
		p.Blocks = append(append(p.Blocks, page.Gap{}), page.Failing(k.failed)...)
		p.Acts, p.OnlySaid = []page.Act{w.BackToToday()}, true
		return p
	case len(k.mixed) == 0:
		p.Blocks = append(p.Blocks, page.Gap{}, page.Sentence{Text: nothingMistaken})
		p.Acts, p.OnlySaid = []page.Act{w.BackToToday()}, true
		return p
	}
	m := k.mixed[k.drill]
	this := "practise this pair"
	if k.row == k.col {
		this = "practise this one"
	}
	pick := page.Called("choose", func(string) page.Next { return asking.PractisePart(w, m.Between(k.row, k.col)) }).As(this)
	next := page.Called("next", func(string) page.Next { k.drill = (k.drill + 1) % len(k.mixed); k.lookAtWorst(); return page.Next{} }).As("next drill")
	p.Blocks = append(p.Blocks, page.Seen{Text: say.Of(m.Drill.About().Title)}, page.Gap{}, page.Chart{Mixed: m, Row: &k.row, Col: &k.col, Pairs: k.pairs})
	p.Acts = page.Only(pick, page.OnScreen("cell"), w.BackToToday(), next.If(len(k.mixed) > 1), all)
	return p
}
