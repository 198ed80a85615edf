package guesser

import "math"

// FalseAlarms is how often one of all the figures of a run may lie beyond ByLuck though nothing gives anything away: once in a hundred
// changes of the draws.
const FalseAlarms = 0.01

// ByLuck returns how far above chance the share of right guesses may lie by luck alone, 0 to 1, when so many figures are looked at that
// each is allowed its part of the false alarms. The chance of one guess is its mean over the questions.
//
// Right guesses are binomial, but for one thing: what is learned from one half is guessed at in the other and the other way round, so
// that where both halves happen to lean to one side, both gain. With d the lean of a half, a normal one, the sum of both is d1 + d2 in
// size, and its variance is that of independent halves times 1 + E|d1| E|d2| / E d² = 1 + 2/π.
func ByLuck(questions int, chance float64, figures int) float64 {
	deviation := math.Sqrt(chance * (1 - chance) / float64(questions) * (1 + 2/math.Pi))
	return deviation * math.Sqrt2 * math.Erfinv(1-2*FalseAlarms/float64(figures))
}
