package plan

// Rung returns the rung on which an item is asked now.
func (p *Planner) Rung(item string) int { return p.known.RungOf(item) }
