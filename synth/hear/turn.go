package hear

import (
	"math"
	"slices"
)

// inTurn weighs all readings of strings plucked one after another in the task's order. Each pluck that was found has odds for each
// pitch; a pluck may be none (a finger on the body), and a string may have none. What is weighed is every way to lay plucks to
// strings that keeps the order: forwards and backwards once, as in Rabiner, Proc. IEEE 77(2), 1989.
func inTurn(task Task, plucks []map[int]float64) *tally {
	byNumber := map[int]int{}
	for i, s := range task.Strings {
		byNumber[s.Number] = i
	}
	var best *tally
	for _, whole := range task.wholes() {
		t := inTurnAs(task, plucks, byNumber, whole)
		if best == nil {
			best = t
		} else {
			best.mix(t)
		}
	}
	return best
}

// whole is what may be expected, the costs that go with it, and its index in Task.Among or -1.
type whole struct {
	pitches []int
	cost    float64
	among   int
	strict  bool // no string may sound anything else
}

// wholes returns all that may be expected.
func (t Task) wholes() (out []whole) {
	apiece := 0.0
	if t.Expect != nil {
		out = append(out, whole{t.Expect, 0, -1, false})
		apiece = costAmong + math.Log(float64(max(1, len(t.Among))))
	}
	for i, w := range t.Among {
		if t.Expect == nil || !slices.Equal(w, t.Expect) {
			out = append(out, whole{w, apiece, i, true})
		}
	}
	return out
}

// mix adds what another tally holds to this one.
func (t *tally) mix(o *tally) {
	t.all += o.all
	for i := range t.strings {
		for p, v := range o.strings[i] {
			t.strings[i][p] += v
		}
		for k, v := range o.at[i] {
			t.at[i][k] += v
		}
	}
	for p, v := range o.notes {
		t.notes[p] += v
	}
	for i, v := range o.among {
		t.among[i] = max(t.among[i], v)
	}
}

// inTurnAs weighs the readings for one whole.
func inTurnAs(task Task, plucks []map[int]float64, byNumber map[int]int, w whole) *tally {
	t := &tally{notes: map[int]float64{}, among: make([]float64, len(task.Among))}
	for i := range t.among {
		t.among[i] = math.Inf(-1)
	}
	n, m := len(task.Order), len(plucks)
	for range task.Strings {
		t.strings, t.at = append(t.strings, map[int]float64{}), append(t.at, make([]float64, m))
	}
	// value is how likely string j sounds a pitch at pluck k, and as how likely it sounds none.
	values := func(j, k int) map[int]float64 {
		s := task.Strings[byNumber[task.Order[j]]]
		expected := w.pitches[byNumber[s.Number]]
		out := map[int]float64{}
		for _, p := range s.May {
			if w.strict && p != expected {
				continue
			}
			out[p] = math.Exp(plucks[k][p] - cost(s, expected, p))
		}
		return out
	}
	silent := make([]float64, n)
	sums, each := make([][]float64, n), make([][]map[int]float64, n)
	for j := range n {
		s := task.Strings[byNumber[task.Order[j]]]
		silent[j] = math.Exp(-silentInTurn(s, byNumber[s.Number], w.pitches))
		sums[j], each[j] = make([]float64, m), make([]map[int]float64, m)
		for k := range m {
			each[j][k] = values(j, k)
			for _, v := range each[j][k] {
				sums[j][k] += v
			}
		}
	}
	// ways[j][k] is the sum over all ways in which the first j strings are laid to the first k plucks; back the same from behind.
	grid := func() [][]float64 {
		g := make([][]float64, n+1)
		for j := range g {
			g[j] = make([]float64, m+1)
		}
		return g
	}
	ways, back := grid(), grid()
	// So that each way counts once, plucks that are none are passed over ahead of the string that comes next.
	passed := grid()
	for j := 0; j <= n; j++ {
		for k := 0; k <= m; k++ {
			var v float64
			if j == 0 && k == 0 {
				v = 1
			}
			if j > 0 {
				v += silent[j-1] * ways[j-1][k]
				if k > 0 {
					v += sums[j-1][k-1] * passed[j-1][k-1]
				}
			}
			ways[j][k] = v
			passed[j][k] = v
			if k > 0 {
				passed[j][k] += passed[j][k-1]
			}
		}
	}
	for j := n; j >= 0; j-- {
		for k := m; k >= 0; k-- {
			var v float64
			if j == n {
				v = 1 // plucks behind the last string are none
			} else {
				v = silent[j] * back[j+1][k]
				for q := k; q < m; q++ {
					v += sums[j][q] * back[j+1][q+1]
				}
			}
			back[j][k] = v
		}
	}
	total := back[0][0] * math.Exp(-w.cost)
	t.all = total
	if w.among >= 0 {
		t.among[w.among] = math.Log(total + 1e-300)
	}
	share := math.Exp(-w.cost)
	for j := range n {
		i := byNumber[task.Order[j]]
		for k := 0; k <= m; k++ {
			t.strings[i][Silent] += share * ways[j][k] * silent[j] * back[j+1][k]
			if k < m {
				for p, v := range each[j][k] {
					v *= share * passed[j][k] * back[j+1][k+1]
					t.strings[i][p] += v
					t.at[i][k] += v
				}
			}
		}
		for p, v := range t.strings[i] {
			if p != Silent {
				t.notes[p] = max(t.notes[p], v)
			}
		}
	}
	return t
}

// What it costs more, of strings plucked in turn, that one is silent: a pluck may be so soft that none is found, the more so where the same
// pitch rings already.
const (
	costUnfound = 1.0
	costSame    = 2.0
)

// silentInTurn is what it costs that the string at an index is silent, of strings plucked in turn.
func silentInTurn(s String, i int, expected []int) float64 {
	c := cost(s, expected[i], Silent)
	if expected[i] == Silent {
		return c
	}
	for k, p := range expected {
		if k != i && p == expected[i] {
			c += costSame
			break
		}
	}
	return c + costUnfound
}
