package memory

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

func week(n int) time.Time { return time.Date(2026, 1, 5, 0, 0, 0, 0, time.UTC).AddDate(0, 0, 7*n) }

func TestToldApart(t *testing.T) {
	ofTwo := func(n, asked, held int) Week { return Week{week(n), Tally{asked, held, float64(asked) / 2}} }
	for _, c := range []struct {
		name    string
		weeks   []Week
		end     int
		share   float64
		answers int
	}{
		{"nothing yet", nil, 1, 0, 0},
		{"half right of two choices is luck", []Week{ofTwo(0, 8, 4)}, 1, 0, 8},
		{"three quarters right of two is half told", []Week{ofTwo(0, 8, 6)}, 1, 0.5, 8},
		{"less than luck is nothing, and not less", []Week{ofTwo(0, 8, 2)}, 1, 0, 8},
		{"free answers have no luck in them", []Week{{week(0), Tally{8, 6, 0}}}, 1, 0.75, 8},
		{"older answers count no more once there are enough", []Week{ofTwo(0, 8, 4), ofTwo(1, 8, 8)}, 2, 1, 8},
		{"a week before the end of which nothing was asked", []Week{ofTwo(3, 8, 8)}, 3, 0, 0},
		{"what was not asked since stands", []Week{ofTwo(0, 8, 8)}, 30, 1, 8},
		{"few answers are taken together", []Week{ofTwo(0, 4, 2), ofTwo(1, 3, 3), ofTwo(2, 2, 2)}, 3, (7 - 4.5) / 4.5, 9},
	} {
		share, answers := ToldApart(c.weeks, week(c.end))
		if math.Abs(share-c.share) > 1e-9 || answers != c.answers {
			t.Errorf("%s: %.3f from %d, want %.3f from %d", c.name, share, answers, c.share, c.answers)
		}
	}
}

// Somebody who knows three things of four and guesses at the rest is said to tell just that apart, however many choices there are.
func TestLuckIsTakenOut(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for _, choices := range []int{2, 3, 5} {
		const students, asked, knows = 4000, 40, 0.75
		sum := 0.0
		for range students {
			w := Week{week(0), Tally{Asked: asked, Guessed: float64(asked) / float64(choices)}}
			for range asked {
				if rng.Float64() < knows || rng.IntN(choices) == 0 {
					w.Right++
				}
			}
			share, _ := ToldApart([]Week{w}, week(1))
			sum += share
		}
		if got := sum / students; math.Abs(got-knows) > 0.01 {
			t.Errorf("of %d choices %.3f, want %.2f", choices, got, knows)
		}
	}
}
