// Package guesser guesses at questions without hearing or knowing anything, to find out by tests whether something else than
// music gives the answers away. The program does not use it.
package guesser

// MostAboveChance is how far above chance the guesser may get by any feature, in points.
const MostAboveChance = 3.0

// Guess is a question as the guesser meets it.
type Guess struct {
	Known []string // for each choice, what the guesser knows it by
	Right int      // number of the choice that is right, from 0
	Half  int      // 0 or 1: it is guessed at with what the other half teaches
}

// Share returns how often the guesser is right, 0 to 1.
func Share(all []Guess) float64 {
	type tally struct{ right, offered float64 }
	half := [2]map[string]tally{{}, {}}
	for _, g := range all {
		for n, k := range g.Known {
			t := half[g.Half][k]
			t.offered++
			if n == g.Right {
				t.right++
			}
			half[g.Half][k] = t
		}
	}
	sum := 0.0
	for _, g := range all {
		learned := half[1-g.Half]
		best, ties, hit := -1.0, 0.0, false
		for n, k := range g.Known {
			t := learned[k]
			rate := (t.right + 5/float64(len(g.Known))) / (t.offered + 5)
			switch {
			case rate > best:
				best, ties, hit = rate, 1, n == g.Right
			case rate == best:
				ties++
				hit = hit || n == g.Right
			}
		}
		if hit {
			sum += 1 / ties
		}
	}
	return sum / float64(len(all))
}
