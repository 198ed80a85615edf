package drills

import (
	"hash/fnv"
	"math/rand/v2"
)

// QuestionRand returns the source of randomness that a question with this seed is made from.
func QuestionRand(drill, target string, seed uint64) *rand.Rand {
	h := fnv.New64a()
	h.Write([]byte(drill + "/" + target))
	return rand.New(rand.NewPCG(seed, h.Sum64()))
}
