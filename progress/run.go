package progress

// Run returns how many right answers in a row an item has had up to now.
func (p *Planner) Run(item string) int { return p.known.memory[item].Run }
