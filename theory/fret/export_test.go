package fret

// MovableCosts are the costs that are fitted.
func MovableCosts() []*float64 {
	return []*float64{
		&cost.little, &cost.long, &cost.span, &cost.stretch, &cost.position, &cost.beside, &cost.deepMiss, &cost.topMute,
		&cost.midMute, &cost.low, &cost.alone, &cost.rootUp, &cost.moved,
	}
}

// Toll is what shapes are put in order by that players are not taught.
func Toll(f Found) float64 { return f.toll }
