package session

import (
	"sparetone/drills"
	"sparetone/drills/catalogue"
)

// next is the index of the form in which it is asked next.
func (t Told) next() int { return min(t.Forms, t.Of-1) }

// Told returns how far an item can be told, by all answers to it.
func (s *Session) Told(item string) Told {
	drill, target, _ := drills.SplitItem(item)
	rung := s.planner.Rung(item)
	of := len(catalogue.Rungs(s.On(), drill, target))
	return Told{min(rung-1, of), of, catalogue.TellsIt(s.On(), drill, target, rung)}
}
