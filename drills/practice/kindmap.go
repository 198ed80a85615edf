package practice

import (
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/theory/say"
)

// KindMap is how well each kind of chord is known, in each drill that teaches kinds.
type KindMap struct {
	Columns []say.Words
	Rows    []KindRow
}

// KindRow is one kind of chord.
type KindRow struct {
	Name   say.Text
	Grasps []Grasp // column by column; None where the drill does not ask for it
}

// None is no grasp: there is nothing to be known.
const None Grasp = -1

// kindColumns are what the drills that teach kinds of chord are called in a word.
var kindColumns = []struct {
	drill string
	word  say.Words
}{
	{"chord-ear", "hear"}, {"shape-name", "name"}, {"shape-tones", "tones"}, {"build", "build"}, {"spell", "spell"},
}

// KindMap looks up how well each kind of chord is known on the instrument that is practised on.
func (p *App) KindMap() (KindMap, error) {
	grasps, err := p.Grasps()
	if err != nil {
		return KindMap{}, err
	}
	var m KindMap
	at := map[string]int{} // the row of a kind
	for col, column := range kindColumns {
		m.Columns = append(m.Columns, column.word)
		d, ok := catalogue.ByID(column.drill)
		if !ok {
			continue
		}
		for _, t := range d.Targets(p.Session.On()) {
			if t.Topic.Of != "kind" {
				continue
			}
			row, known := at[t.Topic.ID]
			if !known {
				row = len(m.Rows)
				at[t.Topic.ID] = row
				m.Rows = append(m.Rows, KindRow{t.Name, slices.Repeat([]Grasp{None}, len(kindColumns))})
			}
			g := grasps[drills.ItemID(column.drill, t.ID, p.Session.On().Name())]
			if g == Unmet && p.Session.IsMet(d, t.ID) {
				g = Met
			}
			m.Rows[row].Grasps[col] = g
		}
	}
	slices.SortStableFunc(m.Rows, func(a, b KindRow) int { return b.begun() - a.begun() })
	return m, nil
}

// begun is 1 if anything of a kind was met, else 0: what is begun comes first.
func (r KindRow) begun() int {
	if slices.Max(r.Grasps) > Unmet {
		return 1
	}
	return 0
}

// Words says the map, a sentence a kind; those of which nothing was met are counted at the end.
func (m KindMap) Words() []say.Text {
	var out []say.Text
	untouched := 0
	for _, r := range m.Rows {
		var all []say.Text
		for col, g := range r.Grasps {
			if g > Unmet {
				all = append(all, say.Of("{} {}", m.Columns[col], say.Words(g.String())))
			}
		}
		if all == nil {
			untouched++
			continue
		}
		out = append(out, say.Sentence("{}: {}.", r.Name, say.Commas(all...)))
	}
	if untouched > 0 {
		out = append(out, say.Of("{} of chord not met yet.", say.Count{N: untouched, One: "kind", Many: "kinds"}))
	}
	return out
}
