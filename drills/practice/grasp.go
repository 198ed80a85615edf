package practice

import (
	"sparetone/progress"
	"sparetone/theory/say"
)

// Grasp is how well something is known.
type Grasp int

// The grasps, each more than the one before.
const (
	Unmet Grasp = iota // neither shown nor asked yet
	Met
	Shaky // missed when it was last asked, or weak
	Known // right more often in a row than guessing gives
	Kept  // known, and needs no practice for weeks
)

// String is how a grasp is called.
func (g Grasp) String() string {
	return [...]string{Unmet: "new", Met: "met", Shaky: "shaky", Known: "known", Kept: "kept"}[g]
}

// keptDays is how many days something that is kept needs no practice at the least (from judgement).
const keptDays = 21

// Grasps is how well the items of a progress file are known. An item that is not in it is Unmet.
type Grasps map[string]Grasp

// Grasps looks up how well everything is known that was ever asked.
func (p *App) Grasps() (Grasps, error) {
	standings, err := p.File().Standings()
	if err != nil {
		return nil, err
	}
	known, _, err := p.File().Known()
	if err != nil {
		return nil, err
	}
	out := Grasps{}
	for _, s := range standings {
		m := known.Memory[s.Item]
		switch {
		case s.Weak || !s.Holds:
			out[s.Item] = Shaky
		case !s.Sure:
			out[s.Item] = Met
		case m.Due-m.Day < progress.Day(keptDays):
			out[s.Item] = Known
		default:
			out[s.Item] = Kept
		}
	}
	return out, nil
}

// Learnt counts how well some things are known. Who keeps a thing knows it, and who knows it has met it: each count holds the next.
type Learnt struct{ Of, Met, Known, Kept int }

// Add counts a thing.
func (l *Learnt) Add(g Grasp) {
	l.Of++
	if g >= Met {
		l.Met++
	}
	if g >= Known {
		l.Known++
	}
	if g >= Kept {
		l.Kept++
	}
}

// Words says the counts.
func (l Learnt) Words() say.Text {
	of := say.Number(l.Of)
	switch {
	case l.Met == 0:
		return say.Of("{}, none met yet", say.Count{N: l.Of, One: "thing", Many: "things"})
	case l.Known == 0:
		return say.Of("{} of {} met, none known yet", say.Number(l.Met), of)
	case l.Kept == 0:
		return say.Of("{} of {} met, {} known, none kept yet", say.Number(l.Met), of, say.Number(l.Known))
	}
	return say.Of("{} of {} met, {} known, {} kept", say.Number(l.Met), of, say.Number(l.Known), say.Number(l.Kept))
}

// WhatGraspsMean says what the words for it mean.
var WhatGraspsMean = say.Of("Met is seen or heard once; known is right more often in a row than luck gives; kept is known and needs no practice for three weeks.")
