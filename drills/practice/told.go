package practice

import (
	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/theory/say"
)

// Told is how far an item can be told: how many of its forms, from the clearest on.
type Told struct {
	Forms int      // that were told, 0 to Of
	Of    int      // that there are
	Words say.Text // the closest of them, such as "in any voicing"; zero where none was told, or there is one alone
}

// next is the index of the form in which it is asked next.
func (t Told) next() int { return min(t.Forms, t.Of-1) }

// Told returns how far an item can be told, by all answers to it.
func (s *Session) Told(item string) Told {
	drill, target, _ := drills.SplitItem(item)
	rung := s.planner.Rung(item)
	of := len(catalogue.Rungs(s.On(), drill, target))
	return Told{min(rung-1, of), of, catalogue.TellsIt(s.On(), drill, target, rung)}
}
