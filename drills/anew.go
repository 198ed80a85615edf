package drills

import (
	"math/rand/v2"
	"slices"
)

// What a session asks next could be told from what it asked before: what is new is asked soon, in the course's order;
// what was missed comes once more; what was just asked does not. So the planner says around what a question is made,
// and its choices are picked for that; but which of the choices is asked for is picked anew, each as likely as another.
// Whoever knows the course and all that went before then knows no more than the choices.

// Anew picks which of a question's choices is asked for. The first question that is made with it settles that, and
// further ones have the same choices and ask for the same: so they can be made until one is found that nothing shown
// before gives away, and what gives questions away does not weigh in on what is asked.
type Anew struct {
	may    func(target string) bool // whether a target may be asked for at all
	rng    *rand.Rand
	among  []string // targets, in the order of the choices; nil until it is settled
	target string
	tossed []int // what else the answer depends on

	isNew  func(target string) bool // nil if that does not matter
	first  Rung                     // the form in which a question is asked of whose choices any is new
	anyNew bool
}

// AskNewAt asks a question in the form of a rung where any of its choices is new, whichever of them is asked for.
func (a *Anew) AskNewAt(first Rung, isNew func(target string) bool) { a.first, a.isNew = first, isNew }

// AnyNew reports whether one of the question's choices is new, so that it was asked in the form that AskNewAt said.
func (a *Anew) AnyNew() bool { return a.anyNew }

// NewAnew makes an Anew that picks from a source of randomness among the targets that may be asked for.
func NewAnew(may func(target string) bool, rng *rand.Rand) *Anew { return &Anew{may: may, rng: rng} }

// Settled reports whether a question was made with it: its choices and what it asks for stand.
func (a *Anew) Settled() bool { return a.among != nil }

// Target returns the target that is asked for; "" until that is settled.
func (a *Anew) Target() string { return a.target }

// Others are the same question asking for each of the other choices that may be asked for. There are none until it is settled.
func (a *Anew) Others() (out []*Anew) {
	for _, target := range a.among {
		if target != a.target && a.may(target) {
			other := *a
			other.target, other.tossed = target, slices.Clone(a.tossed)
			out = append(out, &other)
		}
	}
	return out
}
