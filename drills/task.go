package drills

// Task is what one of a drill's targets means.
type Task interface{ ID() string }

// TaskTable are what a drill's targets mean, in the order in which they are listed. The id of a target is written by its
// task and read by looking it up here, and nowhere else.
type TaskTable[T Task] struct {
	All  []T
	byID map[string]T
}

// Tasks makes a table. Two tasks with one id are a slip in a table of ours.
func Tasks[T Task](all []T) TaskTable[T] {
	t := TaskTable[T]{all, map[string]T{}}
	for _, one := range all {
		if t.Has(one.ID()) {
			panic("drills: two targets are called " + one.ID())
		}
		t.byID[one.ID()] = one
	}
	return t
}

// Of returns what a target means, by its id; false if there is no such target.
func (t TaskTable[T]) Of(id string) (T, bool) {
	one, ok := t.byID[id]
	return one, ok
}

// Has reports whether there is a target with an id.
func (t TaskTable[T]) Has(id string) bool {
	_, ok := t.byID[id]
	return ok
}
