package drills

// task is what one of a drill's targets means.
type task interface{ id() string }

// taskTable are what a drill's targets mean, in the order in which they are listed. The id of a target is written by its
// task and read by looking it up here, and nowhere else.
type taskTable[T task] struct {
	all  []T
	byID map[string]T
}

// tasks makes a table. Two tasks with one id are a slip in a table of ours.
func tasks[T task](all []T) taskTable[T] {
	t := taskTable[T]{all, map[string]T{}}
	for _, one := range all {
		if t.has(one.id()) {
			panic("drills: two targets are called " + one.id())
		}
		t.byID[one.id()] = one
	}
	return t
}

// of returns what a target means, by its id; false if there is no such target.
func (t taskTable[T]) of(id string) (T, bool) {
	one, ok := t.byID[id]
	return one, ok
}

func (t taskTable[T]) has(id string) bool {
	_, ok := t.byID[id]
	return ok
}
