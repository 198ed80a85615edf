package progress

// Met reports whether an item was ever asked.
func (p *Planner) Met(item string) bool {
	_, known := p.known.memory[item]
	return known
}
