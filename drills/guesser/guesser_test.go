package guesser

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// Where a feature gives the answer the guesser is right, and where it does not, right by chance.
func TestShare(t *testing.T) {
	const choices = 4
	for _, c := range []struct {
		name  string
		known func(choice, right int) string
		want  float64
	}{
		{"all is told", func(choice, right int) string { return strings.Repeat("x", max(0, 1-abs(choice-right))) }, 1},
		{"half is told", func(choice, right int) string { return strings.Repeat("x", abs(choice-right)%2) }, 0.5},
		{"nothing is told", func(choice, right int) string { return "" }, 1.0 / choices},
	} {
		rng := rand.New(rand.NewPCG(1, 2))
		var all []Guess
		for n := range 4000 {
			g := Guess{Right: rng.IntN(choices), Half: n % 2}
			for choice := range choices {
				g.Known = append(g.Known, c.known(choice, g.Right))
			}
			all = append(all, g)
		}
		if got := Share(all); got < c.want-0.03 || got > c.want+0.03 {
			t.Errorf("%s: right %.2f of the time, want %.2f", c.name, got, c.want)
		}
	}
}

// What was learned from a question is no help with that question itself.
func TestShareLearnsFromTheOtherHalf(t *testing.T) {
	var all []Guess
	for n := range 100 {
		own := strings.Repeat("x", n)
		all = append(all, Guess{Known: []string{own + "right", own + "wrong"}, Right: 0, Half: n % 2})
	}
	if got := Share(all); got != 0.5 {
		t.Errorf("right %.2f of the time by what is seen once", got)
	}
}

func abs(n int) int { return max(n, -n) }
