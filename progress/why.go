package progress

import "fmt"

// Reason says what kind of reason there is to ask an item now.
type Reason int

const (
	Due      Reason = iota + 1 // it has come back: it would soon be forgotten
	Weak                       // it has come back, or faded, and is often missed
	New                        // it is next in the course, and what it rests on holds
	Contrast                   // another was just taken for it
	OnceMore                   // it was missed a few questions ago
	Ahead                      // nothing is due: it has faded most
	Closing                    // the last one, and one that is known
	Beside                     // it stood among the choices of what was picked, and was drawn instead
)

// Why is the reason to ask an item now, and the facts behind it.
type Why struct {
	Reason   Reason
	TakenFor string // Weak: what it is mostly taken for, if known; Contrast: what was taken for it
	Times    int    // Weak: how often, in the last eight weeks
	Days     int    // practice days since it was last asked; 0 if it never was
}

var reasonNames = [...]string{
	Due: "due", Weak: "weak", New: "new", Contrast: "contrast", OnceMore: "missed", Ahead: "ahead", Closing: "closing", Beside: "beside",
}

// String returns the reason in one word.
func (r Reason) String() string { return reasonNames[r] }

// Text says why in a clause of its own. Name turns an item id into what the student calls it.
func (w Why) Text(name func(item string) string) string {
	switch {
	case w.Reason == Due:
		return "it has come back: it was last asked " + daysAgo(w.Days)
	case w.Reason == Weak && w.TakenFor != "":
		return fmt.Sprintf("it is weak: you took it for “%s” %s", name(w.TakenFor), times(w.Times))
	case w.Reason == Contrast:
		return fmt.Sprintf("you just took “%s” for it", name(w.TakenFor))
	case w.Reason == OnceMore:
		return "you missed it a moment ago"
	case w.Reason == Ahead:
		return "nothing has come back yet, and this has faded most"
	case w.Reason == Beside:
		return "it stood among the choices, and which of them is asked is left to chance"
	case w.Reason == Closing:
		return "it is something you know, to close with"
	}
	return "it is " + w.Reason.String()
}

var counts = [...]string{1: "once", "twice", "three times", "four times", "five times", "six times", "seven times", "eight times", "nine times"}

func times(n int) string {
	if n >= 1 && n < len(counts) {
		return counts[n]
	}
	return fmt.Sprintf("%d times", n)
}

func daysAgo(n int) string {
	switch n {
	case 0:
		return "today"
	case 1:
		return "yesterday"
	}
	return fmt.Sprintf("%d days ago", n)
}
