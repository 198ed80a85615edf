package class

import (
	"strings"

	"sparetone/progress"
)

// idsOf returns what an offer was, as answers say it; "" if nobody knows.
func (p *practised) idsOf(n int32) string {
	var ids []string
	for _, c := range p.offers[n] {
		ids = append(ids, p.choices[c].id)
	}
	return strings.Join(ids, progress.Between)
}

// offerOf returns the number of what there was to choose from for an answer; 0 if nobody knows. What is chosen gets its words.
func (p *practised) offerOf(a progress.Answer) int32 {
	if a.Offered == "" {
		return 0
	}
	n, met := p.offer[offered{a.Drill, a.Offered}]
	if !met {
		var all offer
		for _, id := range a.Choosable() {
			c, met := p.choice[choiceID{a.Drill, id}]
			if !met {
				c = int32(len(p.choices))
				p.choice[choiceID{a.Drill, id}] = c
				p.choices = append(p.choices, choice{id: id})
			}
			all = append(all, c)
		}
		n = int32(len(p.offers))
		p.offer[offered{a.Drill, a.Offered}] = n
		p.offers = append(p.offers, all)
	}
	if a.Chosen > 0 {
		p.choices[p.offers[n][a.Chosen-1]].said = a.Given
	}
	return n
}
