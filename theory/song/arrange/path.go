package arrange

import (
	"math"
	"slices"
)

// The path of least movement is found exactly. Each chord has candidates, plain shapes and colours. What a path costs is the sum
// of what its shapes ask of the hand, less what their colours are worth to the player, and of the movements from each to the
// next and, as a song goes round, from the last to the first. A colour that makes two chords the same shape, as C6 and Am7 are,
// costs as well, for then their change is not heard. For each candidate of one chord, the one with the fewest, the cheapest way
// round that begins and ends with it is found chord by chord (dynamic programming): the cheapest way to a candidate is the
// cheapest over all candidates before it. So with n chords of k candidates n·k³ sums are made, and no path is cheaper.
// Movements from chord to chord are weighed once for each pair of chords that differs.

// mostRich is how far the number goes that a player turns from as easy as can be, 0, to as rich as can be.
const mostRich = 10

// richness is what a colour is worth for each step of that number, in hundredths of a finger that is set. At 10 a colour is worth
// five fingers, so that hardly a plain shape is left where a colour is good. From judgement.
const richness = 50

// unheard is what it costs, in hundredths of a finger that is set, that a colour makes a chord the very shape of the one beside it. From
// judgement: more than any other shape that a hand can get to.
const unheard = 2000

// candidate is a shape that a chord may have on the path.
type candidate struct {
	grip   grip
	effort int // in hundredths
	colour *Colour
	worth  int // of its colour, in hundredths of richness; 0 of a plain shape
}

// cost is what a candidate costs by itself where colours are so rich.
func (c *candidate) cost(rich int) int { return c.effort - rich*richness*c.worth/100 }

// hundredths rounds an effort.
func hundredths(effort float64) int { return int(math.Round(effort * 100)) }

// stage is a chord on the path: its candidates, and the number of the list that they are, for movements are weighed once for each
// pair of lists. A chord has several lists where what follows it differs.
type stage struct {
	list       int
	candidates []candidate
	chord      int // number of the chord among those of the song
}

// moves returns what it costs to get from each candidate of a chord to each of the next.
func moves(from, to stage) [][]int32 {
	out := make([][]int32, len(from.candidates))
	room := make([]int32, len(from.candidates)*len(to.candidates))
	for a := range from.candidates {
		out[a], room = room[:len(to.candidates)], room[len(to.candidates):]
		for b := range to.candidates {
			out[a][b] = int32(from.change(a, to, b))
		}
	}
	return out
}

// change is what it costs to go on from a candidate to one of the next chord, in hundredths.
func (s stage) change(a int, to stage, b int) int {
	from, next := &s.candidates[a], &to.candidates[b]
	cost := from.grip.move(&next.grip).Cost()
	if s.chord != to.chord && (from.colour != nil || next.colour != nil) && slices.Equal(from.grip.shape, next.grip.shape) {
		cost += unheard
	}
	return cost
}

// leastPath returns the index of the candidate of each chord on the path that costs least, and what it costs; in a loop the
// movement from the last chord to the first counts too. Of paths that cost the same it takes one, always the same.
func leastPath(stages []stage, rich int, loop bool) (path []int, cost int) {
	n := len(stages)
	if n == 0 {
		return nil, 0
	}
	first := 0 // the chord with the fewest candidates, at which a loop is cut open
	if loop {
		for i := range stages {
			if len(stages[i].candidates) < len(stages[first].candidates) {
				first = i
			}
		}
	}
	turned := append(slices.Clone(stages[first:]), stages[:first]...)
	own := make([][]int32, n) // what each candidate costs by itself
	for i, s := range turned {
		own[i] = make([]int32, len(s.candidates))
		for c := range s.candidates {
			own[i][c] = int32(s.candidates[c].cost(rich))
		}
	}
	between := make([][][]int32, n) // from each chord to the next
	weighed := map[[2]int][][]int32{}
	for i := range turned {
		next := turned[(i+1)%n]
		pair := [2]int{turned[i].list, next.list}
		if weighed[pair] == nil {
			weighed[pair] = moves(turned[i], next)
		}
		between[i] = weighed[pair]
	}
	w := newWay(own)
	best := int32(far)
	starts := len(own[0])
	if !loop {
		starts = 1 // from all at once
	}
	for start := range starts {
		for c := range w.sums[0] {
			w.sums[0][c] = own[0][c]
			if loop && c != start {
				w.sums[0][c] = far
			}
		}
		for i := 1; i < n; i++ {
			w.relax(i, between[i-1], own[i])
		}
		end, total := -1, int32(far)
		for c, sum := range w.sums[n-1] {
			if loop && sum < far {
				sum += between[n-1][c][start]
			}
			if sum < total {
				end, total = c, sum
			}
		}
		if end >= 0 && total < best {
			best, path = total, w.path(end, first)
		}
	}
	return path, int(best)
}

// far is more than any path costs.
const far = math.MaxInt32 / 2

// way is the cheapest way to each candidate of each chord.
type way struct {
	sums [][]int32 // what it costs
	back [][]int16 // from which candidate of the chord before it comes
}

func newWay(own [][]int32) *way {
	w := &way{make([][]int32, len(own)), make([][]int16, len(own))}
	for i := range own {
		w.sums[i], w.back[i] = make([]int32, len(own[i])), make([]int16, len(own[i]))
	}
	return w
}

// relax finds the cheapest ways to the candidates of a chord from those of the one before.
func (w *way) relax(i int, move [][]int32, own []int32) {
	sums, back := w.sums[i], w.back[i]
	for c := range sums {
		sums[c] = far
	}
	for from, before := range w.sums[i-1] {
		if before >= far {
			continue
		}
		row := move[from][:len(sums)]
		for c, m := range row {
			if sum := before + m; sum < sums[c] {
				sums[c], back[c] = sum, int16(from)
			}
		}
	}
	for c := range sums {
		if sums[c] < far {
			sums[c] += own[c]
		}
	}
}

// path returns the way that ends with a candidate, for chords of which the first was taken so far on.
func (w *way) path(end, first int) []int {
	n := len(w.sums)
	out := make([]int, n)
	for i := n - 1; i >= 0; i-- {
		out[(i+first)%n] = end
		end = int(w.back[i][end])
	}
	return out
}
