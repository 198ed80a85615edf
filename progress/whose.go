package progress

// Whose says whose practice a file or an export holds.
type Whose struct {
	ID   string // random, the same for all copies of a file and for files that go on from its export
	Name string // as the student gave it; "" if none was given
}

// String returns the name, or the id where there is none.
func (w Whose) String() string {
	if w.Name != "" {
		return w.Name
	}
	return w.ID
}
