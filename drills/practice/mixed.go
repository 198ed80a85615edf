package practice

import (
	"errors"
	"slices"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/progress/memory"
	"sparetone/theory/say"
)

// Mixed is what is mistaken for what in one drill, over the last eight weeks.
type Mixed struct {
	Drill drills.Drill
	Items []MixedItem // in the drill's order
}

// MixedItem is one thing that is mistaken for another, or that another is mistaken for.
type MixedItem struct {
	ID       string
	Name     say.Text
	Standing memory.Standing // zero if it was never asked
}

// Between is practising a pair of items.
func (m Mixed) Between(asked, taken int) Way {
	a, b := m.Items[asked], m.Items[taken]
	return Through(say.Of("{} and {}", a.Name, b.Name), a.ID, b.ID)
}

// Times is how often one was taken for the other.
func (m Mixed) Times(asked, taken int) int {
	for _, t := range m.Items[asked].Standing.Taken {
		if t.Item == m.Items[taken].ID {
			return t.Times
		}
	}
	return 0
}

// MixedUp lists what is mistaken for what, a drill at a time; drills without mistakes are left out.
func MixedUp(p *App) ([]Mixed, error) {
	standings, err := p.File().Standings()
	if err != nil {
		return nil, err
	}
	of := map[string]memory.Standing{}
	in := map[string]bool{}
	for _, s := range standings {
		of[s.Item] = s
		if len(s.Taken) > 0 || s.Weak {
			in[s.Item] = true
		}
		for _, t := range s.Taken {
			in[t.Item] = true
		}
	}
	on := p.Session.On()
	var out []Mixed
	for _, d := range catalogue.All() {
		m := Mixed{Drill: d}
		for _, t := range d.Targets(on) {
			if id := drills.ItemID(d.About().ID, t.ID, on.Name()); in[id] {
				m.Items = append(m.Items, MixedItem{id, t.Name, of[id]})
			}
		}
		if len(m.Items) > 0 {
			out = append(out, m.worst())
		}
	}
	return out, nil
}

// mostMixed is how many things the chart of a drill has room for.
const mostMixed = 12

// worst leaves of a chart that has no room for all of it the things with the most mistakes.
func (m Mixed) worst() Mixed {
	if len(m.Items) <= mostMixed {
		return m
	}
	mistakes := func(i MixedItem) int { return i.Standing.Latest.Asked - i.Standing.Latest.Right }
	most := slices.SortedStableFunc(slices.Values(m.Items), func(a, b MixedItem) int { return mistakes(b) - mistakes(a) })[:mostMixed]
	m.Items = slices.DeleteFunc(m.Items, func(i MixedItem) bool {
		return !slices.ContainsFunc(most, func(x MixedItem) bool { return x.ID == i.ID })
	})
	return m
}

// WeakWay is practising what is weak, or mistaken often enough to be spoken of, and what it is mistaken
// for.
func (p *App) WeakWay() (Way, error) {
	standings, err := p.File().Standings()
	if err != nil {
		return Way{}, err
	}
	var items []string
	for _, s := range standings {
		claimed := slices.IndexFunc(s.Taken, func(t memory.Taken) bool { return !t.Claimed() })
		if claimed < 0 {
			claimed = len(s.Taken)
		}
		if !s.Weak && claimed == 0 {
			continue
		}
		items = append(items, s.Item)
		for _, t := range s.Taken[:claimed] {
			items = append(items, t.Item)
		}
	}
	if len(items) == 0 {
		return Way{}, errNothingWeak
	}
	return Through(say.Of("weak spots"), items...), nil
}

// errNothingWeak is what practising weak spots comes to where there are none.
var errNothingWeak = errors.New("nothing is weak yet: what is missed more often than it should be is found here")

// Told says what one cell of the chart means, a sentence a line.
func (m Mixed) Told(row, col int) []say.Text {
	asked, taken := m.Items[row], m.Items[col]
	s := asked.Standing
	if s.Latest.Asked == 0 {
		return []say.Text{say.Of("Not asked in the last eight weeks: {}.", asked.Name)}
	}
	var lines []say.Text
	if row != col {
		lines = append(lines, mistaken(asked.Name, taken.Name, m.Times(row, col), s.Latest.Asked))
	}
	known := say.Sentence("{}: right {} out of {} in the last eight weeks", asked.Name, times(s.Latest.Right), say.Number(s.Latest.Asked))
	switch {
	case s.Weak && s.Latest.AsGuessing():
		known = say.Of("{}; this is weak: guessing would do as well", known)
	case s.Weak:
		known = say.Of("{}; this is weak, and hardly by bad luck", known)
	}
	return append(lines, say.Of("{}.", known))
}

// mistaken says how often something was taken for another. Some of the names are sentences, such as "the root is
// doubled": so all stand between quotation marks.
func mistaken(name, other say.Text, often, asked int) say.Text {
	name = say.Sentence("{}", name)
	switch often {
	case 0:
		return say.Of("“{}” was asked {} and never taken for “{}”.", name, times(asked), other)
	case 1:
		return say.Of("“{}” was taken for “{}” once, out of {}.", name, other, say.Number(asked))
	}
	return say.Of("“{}” was taken for “{}” {} out of {}.", name, other, times(often), say.Number(asked))
}
