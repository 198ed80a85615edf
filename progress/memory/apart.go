package memory

import "time"

// Fewest is how many answers it takes until anything is said of how surely something is told apart (from judgement).
const Fewest = 4

// ToldApart returns how surely something was told apart at the end of a week, 0 to 1, from the answers of that week and of as many
// weeks before it as give Enough, and how many answers that rests on. Lucky answers are taken out: what remains is the share of right
// answers above what guessing gives, of what it leaves. What was not asked since stands as it stood.
//
// Source: Abbott, "A method of computing the effectiveness of an insecticide", Journal of Economic Entomology 18, 1925 (from
// memory), which takes out what would have come without a cause; tests of hearing use the same formula for guessing.
func ToldApart(weeks []Week, end time.Time) (share float64, answers int) {
	var sum Tally
	for i := len(weeks) - 1; i >= 0 && sum.Asked < Enough; i-- {
		if !weeks[i].Begins.Before(end) {
			continue
		}
		sum.Asked += weeks[i].Asked
		sum.Right += weeks[i].Right
		sum.Guessed += weeks[i].Guessed
	}
	left := float64(sum.Asked) - sum.Guessed
	if left <= 0 {
		return 0, sum.Asked
	}
	return clamp((float64(sum.Right)-sum.Guessed)/left, 0, 1), sum.Asked
}
