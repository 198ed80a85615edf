package page

import (
	"slices"

	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Weak is what is mistaken for what: a chart of each drill, to go over cell by cell.
type Weak struct {
	mixed    []practice.Mixed
	failed   error
	drill    int // of mixed
	row, col int // the cell that is looked at
	all      practice.Way
	nothing  error // why there is nothing weak to practise
	pairs    Choice
}

// mostPairs is how many pairs are said of what is mistaken, the worst ones.
const mostPairs = 10

func newWeak(w *Walk) *Weak {
	k := &Weak{}
	k.mixed, k.failed = practice.MixedUp(&w.App)
	k.all, k.nothing = w.WeakWay()
	k.worst()
	k.rank(w)
	return k
}

// worst looks at the cell with the most mistakes.
func (k *Weak) worst() {
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

// rank lists all pairs for lines of text, the most frequent mistake first.
func (k *Weak) rank(w *Walk) {
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
	k.pairs = Choice{Most: mostPairs, Pick: func(n int) Next { return w.part(pairs[n].way) }}
	for _, p := range pairs {
		k.pairs.Lines = append(k.pairs.Lines, Line{Text: p.told})
	}
}

// Page implements Place.
func (k *Weak) Page(w *Walk) Page {
	p := Page{Blocks: []Block{title("Weak spots")}, Take: k.pairs.take, Ask: askPairs(len(k.pairs.Lines), k.nothing == nil)}
	p.Lead = p.Ask
	all := called("all", func(string) Next {
		if k.nothing != nil {
			return refused(k.nothing)
		}
		return w.part(k.all)
	})
	switch {
	case k.failed != nil:
		p.Blocks = append(append(p.Blocks, Gap{}), failing(k.failed)...)
		p.Acts, p.Passed = []Act{w.back()}, true
		return p
	case len(k.mixed) == 0:
		p.Blocks = append(p.Blocks, Gap{}, Sentence{Text: nothingMistaken})
		p.Acts, p.Passed = []Act{w.back()}, true
		return p
	}
	m := k.mixed[k.drill]
	this := "practise this pair"
	if k.row == k.col {
		this = "practise this one"
	}
	pick := called("choose", func(string) Next { return w.part(m.Between(k.row, k.col)) }).As(this)
	next := called("next", func(string) Next { k.drill = (k.drill + 1) % len(k.mixed); k.worst(); return Next{} }).As("next drill")
	p.Blocks = append(p.Blocks, Seen{Text: say.Of(m.Drill.About().Title)}, Gap{}, Chart{m, &k.row, &k.col, k.pairs})
	p.Acts = only(pick, eye("cell"), w.back(), next.where(len(k.mixed) > 1), all)
	return p
}
