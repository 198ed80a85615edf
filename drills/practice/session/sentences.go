package session

import (
	"sparetone/progress/plan"
	"sparetone/theory/say"
)

// Wording of this room, beside the facts that go into it; what only one place says stands there.

// sayWhy says why an item is asked now, in a clause of its own. Name is what the student calls an item.
func sayWhy(w plan.Why, name func(item string) say.Text) say.Text {
	switch {
	case w.Reason == plan.Due:
		return say.Of("it needs practice; it was last asked {}", daysAgo(w.Days))
	case w.Reason == plan.Weak && w.TakenFor != "":
		return say.Of("it is weak; you took it for “{}” {}", name(w.TakenFor), often(w.Times))
	}
	return whys[w.Reason]
}

// whys are the reasons that need no facts.
var whys = map[plan.Reason]say.Text{
	plan.Weak:     say.Of("it is weak"),
	plan.New:      say.Of("it is new"),
	plan.OnceMore: say.Of("you missed it earlier in this practice"),
	plan.Ahead:    say.Of("it needs no practice yet, but of all that may be asked now a minute does most for it"),
	plan.Easier:   say.Of("it needs no practice yet, but much was missed of late, and you are likelier to know this"),
	plan.Least:    say.Of("it needs no practice yet, but whatever may be asked now was asked as often in this practice"),
	plan.Turn:     say.Of("it needs no practice yet, but its drill was not asked for a while"),
	plan.Beside:   say.Of("it stood among the choices, and which of them is asked is left to chance"),
	plan.Closing:  say.Of("it is something you know, to close with"),
}

// timesInWords are numbers of times in a word or two.
var timesInWords = [...]say.Words{1: "once", "twice", "three times", "four times", "five times", "six times", "seven times", "eight times", "nine times"}

func often(n int) say.Fact {
	if n >= 1 && n < len(timesInWords) {
		return timesInWords[n]
	}
	return say.Count{N: n, One: "time", Many: "times"}
}

func daysAgo(n int) say.Text {
	switch n {
	case 0:
		return say.Of("today")
	case 1:
		return say.Of("yesterday")
	}
	return say.Of("{} ago", say.Count{N: n, One: "day", Many: "days"})
}
