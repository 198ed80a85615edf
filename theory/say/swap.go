package say

import "sparetone/theory/fret"

// Trade says what comes for what in a swap: "9 for the doubled third" where the tone that is given up still sounds, "4
// for 3: the third is gone" where it does not.
func Trade(s fret.Swap) Text {
	if s.Spare {
		return Of("{} for the doubled {}", Degree(s.Adds), Part(s.GivesUp))
	}
	return Of("{} for {}: the {} is gone", Degree(s.Adds), Degree(s.GivesUp), Part(s.GivesUp))
}

// Move says which string goes where in a swap, as it is called on a tuning: A string to fret 2, low E string open.
func Move(on *fret.Tuning, s fret.Swap) Text {
	if s.ToFret == 0 {
		return Of("{} string open", String{on, s.String})
	}
	return Of("{} string to fret {}", String{on, s.String}, Number(s.ToFret))
}
