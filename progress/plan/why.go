package plan

// Reason says what kind of reason there is to ask an item now.
type Reason int

const (
	Due      Reason = iota + 1 // it has come back: it would soon be forgotten
	Weak                       // it has come back, or faded, and is often missed
	New                        // it is next in the course, and what it rests on was met
	OnceMore                   // it was missed earlier in the session
	Ahead                      // it has not come back, but practice adds more to it than to all else
	Easier                     // it has not come back, but much was missed of late, and it is likelier right
	Least                      // it has not come back, but whatever may be asked was asked as often in the session
	Turn                       // it has not come back, but its drill has waited for its turn
	Closing                    // the last one, and one that is known
	Beside                     // it stood among the choices of what was picked, and was picked instead
)

// Why is the reason to ask an item now, and the facts behind it.
type Why struct {
	Reason   Reason
	TakenFor string // Weak: what it is mostly taken for, if known
	Times    int    // Weak: how often, in the last eight weeks
	Days     int    // practice days since it was last asked; 0 if it never was
}

var reasonNames = [...]string{
	Due: "due", Weak: "weak", New: "new", OnceMore: "missed", Ahead: "ahead", Easier: "easier", Least: "least", Turn: "turn", Closing: "closing", Beside: "beside",
}

// String returns the reason in one word.
func (r Reason) String() string { return reasonNames[r] }
