package arrange

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/song"
)

func TestMovements(t *testing.T) {
	for _, row := range []struct{ from, to, does string }{
		{"0003", "0003", "kept 1"},
		{"0003", "0000", "lifted 1"},
		{"0000", "0003", "set 1"},
		{"2000", "2010", "set 1 kept 1"},
		{"0002", "0003", "lifted 1 set 1"}, // another finger
		{"2225", "4447", "slid 2 by 4, shift 2"},
		{"0000", "2225", "set 2, 1 barre"},
		{"2225", "0000", "lifted 2, 1 barre off"},
	} {
		m := moveOf(t, row.from, row.to)
		if got := does(m); got != row.does {
			t.Errorf("%s to %s: %s, want %s", row.from, row.to, got, row.does)
		}
	}
}

// does says what a movement is in short.
func does(m Movement) string {
	var parts []string
	add := func(n int, form string, args ...any) {
		if n != 0 {
			parts = append(parts, fmt.Sprintf(form, args...))
		}
	}
	add(m.Lifted, "lifted %d", m.Lifted)
	add(m.Set, "set %d", m.Set)
	add(m.Slid, "slid %d by %d", m.Slid, m.SlidBy)
	add(m.Kept, "kept %d", m.Kept)
	out := strings.Join(parts, " ")
	for _, more := range []struct {
		n    int
		form string
	}{{m.BarresSet, "%d barre"}, {m.BarresLifted, "%d barre off"}, {m.Shift, "shift %d"}} {
		if more.n != 0 {
			out += ", " + fmt.Sprintf(more.form, more.n)
		}
	}
	return out
}

func moveOf(t testing.TB, from, to string) Movement {
	t.Helper()
	grips := make([]grip, 2)
	for n, frets := range []string{from, to} {
		s := shape(t, frets)
		fingers, _, _, ok := fret.Finger(s)
		if !ok {
			t.Fatalf("%s cannot be held", frets)
		}
		grips[n] = gripOf(s, fingers)
	}
	return grips[0].move(&grips[1])
}

// Each weight counts, by itself.
func TestWeightsOfMovement(t *testing.T) {
	for _, row := range []struct {
		m    Movement
		cost int
	}{
		{Movement{Lifted: 2}, 100}, {Movement{Set: 2}, 200}, {Movement{Slid: 1, SlidBy: 3}, 100}, {Movement{Kept: 3}, 0},
		{Movement{BarresSet: 1}, 120}, {Movement{BarresLifted: 1}, 40}, {Movement{Shift: 3}, 90},
	} {
		if row.m.Cost() != row.cost {
			t.Errorf("%+v costs %d, want %d", row.m, row.m.Cost(), row.cost)
		}
	}
}

// bruteForce tries every path.
func bruteForce(stages []stage, rich int, loop bool) int {
	best, n := 1<<40, len(stages)
	path := make([]int, n)
	var try func(i, cost int)
	try = func(i, cost int) {
		if i == n {
			if loop {
				cost += stages[n-1].change(path[n-1], stages[0], path[0])
			}
			best = min(best, cost)
			return
		}
		for c := range stages[i].candidates {
			path[i] = c
			sum := cost + stages[i].candidates[c].cost(rich)
			if i > 0 {
				sum += stages[i-1].change(path[i-1], stages[i], c)
			}
			try(i+1, sum)
		}
	}
	try(0, 0)
	return best
}

// drawnStages draws chords of a key with their candidates, plain and coloured, at most so many of each.
func drawnStages(rnd *rand.Rand, on *fret.Tuning, chords, most int) []stage {
	k := theory.Key{Tonic: theory.Note{Letter: theory.Letter(rnd.IntN(7))}, Minor: rnd.IntN(2) == 0}
	all := k.Chords()
	var names []theory.Chord
	var out []stage
	for len(out) < chords {
		c := all[rnd.IntN(len(all))]
		plain := plainShapes(on, c)
		if len(plain) == 0 {
			continue
		}
		list := slices.Index(names, c)
		if list < 0 {
			list, names = len(names), append(names, c)
		}
		colours := Colours(on, c, k, plain[0].grip.shape, nil)
		cands := withColours(plain, colours, false)
		rand.New(rand.NewPCG(uint64(list), 5)).Shuffle(len(cands), func(a, b int) { cands[a], cands[b] = cands[b], cands[a] })
		out = append(out, stage{list, cands[:min(most, len(cands))], list})
	}
	return out
}

// SPARETONE_STUDY=1 tries 2,000 progressions on each instrument. Brute force tries all paths, so of longer ones each chord has
// fewer candidates: 24 of up to three chords, 12 of four, 7 of five and 5 of six.
func TestPathIsTheLeast(t *testing.T) {
	count := 60
	if os.Getenv("SPARETONE_STUDY") != "" {
		count = 2000
	}
	most := []int{0, 24, 24, 24, 12, 7, 5}
	for _, name := range []string{"ukulele", "guitar"} {
		on := tuning(t, name)
		rnd := rand.New(rand.NewPCG(1, 17))
		for n := range count {
			chords, rich, loop := 1+n%6, rnd.IntN(mostRich+1), rnd.IntN(4) > 0
			stages := drawnStages(rnd, on, chords, most[chords])
			path, cost := leastPath(stages, rich, loop)
			if want := bruteForce(stages, rich, loop); cost != want {
				t.Fatalf("%s, %d chords, rich %d, loop %v: %d, want %d", name, chords, rich, loop, cost, want)
			}
			if sum := pathCost(stages, path, rich, loop); sum != cost {
				t.Fatalf("%s: the path costs %d, and %d is said", name, sum, cost)
			}
		}
	}
}

// pathCost adds up what a path costs.
func pathCost(stages []stage, path []int, rich int, loop bool) (sum int) {
	for i := range stages {
		from := &stages[i].candidates[path[i]]
		sum += from.cost(rich)
		if i+1 < len(stages) || loop {
			next := (i + 1) % len(stages)
			sum += stages[i].change(path[i], stages[next], path[next])
		}
	}
	return sum
}

// movementAlone adds up the movements of a path in a loop.
func movementAlone(stages []stage, path []int) (sum int) {
	for i := range stages {
		next := (i + 1) % len(stages)
		sum += stages[i].candidates[path[i]].grip.move(&stages[next].candidates[path[next]].grip).Cost()
	}
	return sum
}

// What the path saves beside taking the easiest shape of each chord, and beside going greedily to the nearest: in the log.
func TestPathBesideEasiestAndGreedy(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar"} {
		on := tuning(t, name)
		rnd := rand.New(rand.NewPCG(2, 17))
		var least, easiest, greedy, leastAll, easiestAll, greedyAll int
		for range 40 {
			stages := drawnStages(rnd, on, 4+rnd.IntN(5), 1000)
			for i := range stages {
				stages[i].candidates = slices.DeleteFunc(stages[i].candidates, func(c candidate) bool { return c.colour != nil })
				slices.SortStableFunc(stages[i].candidates, func(a, b candidate) int { return a.effort - b.effort })
			}
			path, cost := leastPath(stages, 0, true)
			first, near := make([]int, len(stages)), make([]int, len(stages))
			for i := 1; i < len(stages); i++ {
				from := &stages[i-1].candidates[near[i-1]]
				for c := range stages[i].candidates {
					cost := func(c int) int {
						return from.grip.move(&stages[i].candidates[c].grip).Cost() + stages[i].candidates[c].effort
					}
					if cost(c) < cost(near[i]) {
						near[i] = c
					}
				}
			}
			least, leastAll = least+movementAlone(stages, path), leastAll+cost
			easiest, easiestAll = easiest+movementAlone(stages, first), easiestAll+pathCost(stages, first, 0, true)
			greedy, greedyAll = greedy+movementAlone(stages, near), greedyAll+pathCost(stages, near, 0, true)
		}
		t.Logf("%s: movement %.2f of the easiest shapes', %.2f of the greedy; with effort %.2f and %.2f",
			name, float64(least)/float64(easiest), float64(least)/float64(greedy), float64(leastAll)/float64(easiestAll), float64(leastAll)/float64(greedyAll))
		if leastAll > easiestAll || leastAll > greedyAll || least >= easiest {
			t.Errorf("%s: the least path costs more", name)
		}
	}
}

// BenchmarkPath finds the path of 64 different chords in a loop on a guitar, their candidates known.
func BenchmarkPath(b *testing.B) {
	rnd := rand.New(rand.NewPCG(3, 17))
	stages := drawnStages(rnd, tuning(b, "guitar"), 64, 1000)
	for i := range stages {
		stages[i].list = i
	}
	for b.Loop() {
		leastPath(stages, 5, true)
	}
}

// BenchmarkArrange arranges a chart of 64 chords, eight different ones, on a guitar, shapes and colours included.
func BenchmarkArrange(b *testing.B) {
	s, err := song.Read(strings.Repeat("| C | Am | F | G | Dm | Em | D | Bm |\n", 8))
	if err != nil {
		b.Fatal(err)
	}
	guitar := tuning(b, "guitar")
	for b.Loop() {
		if _, err := Arrange(s, Wishes{Tuning: guitar, Rich: 5}); err != nil {
			b.Fatal(err)
		}
	}
}
