package memory

import "sparetone/progress"

// A thing is asked in clear forms first and in closer ones as it is told: each form is a rung, counted from 1, the clearest. What is told
// on a rung is asked on the next, and a miss goes one rung back. Contrasts that shrink as they are told teach ears more than close ones
// from the start (Wisniewski and others, PLoS ONE 2017).
//
// Until something is missed a rung is told by a single answer, or by as many as luck hardly gives: what is easy is passed quickly. After
// a miss it takes four in a row, so that the rungs settle where one goes on as often as back: where four right answers in a row come half
// of the time, 0.84⁴ = 0.5, which is near Aim (Levitt, "Transformed up-down methods in psychoacoustics", Journal of the Acoustical Society
// of America 49, 1971).
const (
	luckARung  = 0.25 // chance that guessing alone passes a rung, at the most (from judgement)
	tellsAfter = 4    // right answers in a row on a rung, after a miss
)

// FirstRung is the rung on which a thing is asked that is new.
const FirstRung = 1

// rung moves the rung by an answer to a question asked on a rung, 0 if nobody knows which: then at that which the thing had reached.
// What was opened up first was not told by ear alone, and moves it neither way.
func (m Memory) rung(a progress.Answer) (rung, told int) {
	rung, told = max(FirstRung, m.Rung), m.OnRung
	at := a.Rung
	if at == 0 {
		at = rung
	}
	switch {
	case a.Result != progress.Right:
		return min(rung, max(FirstRung, at-1)), 0
	case at < rung || a.Hints > 0:
		return rung, told
	}
	if told++; told < m.needs(a.Guess()) {
		return rung, told
	}
	return at + 1, 0
}

// needs is how many right answers in a row tell a rung, of which each is right by guessing with a chance.
func (m Memory) needs(guess float64) int {
	if m.Asked > m.Right {
		return tellsAfter
	}
	n := 1
	for luck := guess; luck > luckARung; luck *= guess {
		n++
	}
	return n
}

// RungOf returns the rung on which a thing is asked now.
func (d *Derived) RungOf(item string) int { return max(FirstRung, d.Memory[item].Rung) }
