package class

import "sparetone/progress"

// Options is how a class is looked at.
type Options struct {
	Today  progress.Day
	Since  progress.Day // what changed since then is said; 0 if nothing is
	Roster []string     // names of who belongs to the class; nil if nobody said

	each func(student string, p *practised) error // is called with what each student practised, one after another; may be nil
}
