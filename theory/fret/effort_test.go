package fret_test

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"math"
	"os"
	"slices"
	"sync"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// halves divides the lessons of all instruments: the costs are fitted to one half and tested on the other. Of each kind
// of chord on an instrument every other lesson, in the order of a hash of its textbook shape, goes to either half; but a
// shape that another instrument has too goes to the same half there.
var halves = sync.OnceValue(func() map[string][2][]fret.Lesson {
	half := map[string]int{} // of each shape
	out := map[string][2][]fret.Lesson{}
	hash := func(l fret.Lesson) uint32 {
		h := fnv.New32a()
		h.Write([]byte(l.Shapes[0].String()))
		return h.Sum32()
	}
	for _, name := range taughtTunings {
		on, err := fret.ParseTuning(name)
		if err != nil {
			panic(err)
		}
		byKind := map[*theory.Kind][]fret.Lesson{}
		for _, l := range fret.Lessons(on) {
			byKind[l.Chord.Kind] = append(byKind[l.Chord.Kind], l)
		}
		var divided [2][]fret.Lesson
		for _, k := range theory.Kinds() {
			var count [2]int
			slices.SortStableFunc(byKind[k], func(a, b fret.Lesson) int { return cmp.Compare(hash(a), hash(b)) })
			for _, known := range []bool{true, false} {
				for _, l := range byKind[k] {
					s := l.Shapes[0].String()
					n, ok := half[s]
					if ok != known {
						continue
					}
					if !ok {
						n = map[bool]int{true: 1, false: 0}[count[1] < count[0]]
					}
					count[n]++
					divided[n] = append(divided[n], l)
				}
			}
			for n, list := range divided {
				for _, l := range list {
					half[l.Shapes[0].String()] = n
				}
			}
		}
		out[name] = divided
	}
	return out
})

// lessonsOf returns the lessons of an instrument that the costs are fitted to, or tested on.
func lessonsOf(name string, fitted bool) []fret.Lesson {
	return halves()[name][map[bool]int{true: 0, false: 1}[fitted]]
}

// byToll returns the shapes of a chord as they come by nothing but what they cost.
func byToll(on *fret.Tuning, l fret.Lesson) []fret.Found {
	found := fret.Search(on, l.Chord, fret.DefaultHand)
	slices.SortStableFunc(found, func(a, b fret.Found) int {
		return cmp.Or(cmp.Compare(fret.Toll(a), fret.Toll(b)), slices.Compare(a.Shape, b.Shape))
	})
	return found
}

func isTaught(l fret.Lesson, s fret.Shape) bool {
	return slices.ContainsFunc(l.Shapes, func(o fret.Shape) bool { return slices.Equal(o, s) })
}

// agreement is how often the first shape by cost is the textbook's or another that is taught, and how often one of the
// first three is.
type agreement struct{ chords, textbook, first, three int }

func (a agreement) String() string {
	percent := func(n int) float64 { return 100 * float64(n) / float64(a.chords) }
	return fmt.Sprintf("%3d chords: a taught shape first %.1f %%, in the first three %.1f %%; the textbook's first %.1f %%",
		a.chords, percent(a.first), percent(a.three), percent(a.textbook))
}

func agree(t testing.TB, name string, fitted bool) (a agreement, off []string) {
	on := tuning(t, name)
	for _, l := range lessonsOf(name, fitted) {
		found := byToll(on, l)
		at := slices.IndexFunc(found, func(f fret.Found) bool { return isTaught(l, f.Shape) })
		a.chords++
		if slices.Equal(found[0].Shape, l.Shapes[0]) {
			a.textbook++
		}
		if at == 0 {
			a.first++
		}
		if at >= 0 && at < 3 {
			a.three++
		}
		if at != 0 {
			off = append(off, fmt.Sprintf("%s %s behind %s", l.Chord.Symbol(), l.Shapes[0], found[0].Shape))
		}
	}
	return a, off
}

// What shapes cost agrees with what players are taught, on the half of the lessons that the costs were not fitted to.
func TestEffortAgreesWithWhatIsTaught(t *testing.T) {
	const first, three = 85, 98 // % of the chords
	for _, name := range taughtTunings {
		for _, fitted := range []bool{true, false} {
			a, off := agree(t, name, fitted)
			t.Logf("%-8s %-10s %s", name, map[bool]string{true: "fitted", false: "not fitted"}[fitted], a)
			if fitted {
				t.Logf("         %v", off)
				continue
			}
			if 100*a.first < first*a.chords || 100*a.three < three*a.chords {
				t.Errorf("%s: want %v %% first and %v %% in the first three", name, first, three)
			}
		}
	}
}

// What is taught comes first in what is found, in the order of the table, and all of it.
func TestTaughtShapesComeFirst(t *testing.T) {
	for _, name := range taughtTunings {
		on := tuning(t, name)
		for _, l := range fret.Lessons(on) {
			for _, most := range []int{0, 1, len(l.Shapes), len(l.Shapes) + 2} {
				found := fret.Easiest(on, l.Chord, fret.DefaultHand, fret.Wish{Most: most, Effort: math.Inf(1)})
				if most > 0 && len(found) > most {
					t.Errorf("%s on %s: %d shapes, want %d", l.Chord, name, len(found), most)
				}
				for n, f := range found {
					if f.Taught != (n < len(l.Shapes)) || f.Taught && !slices.Equal(f.Shape, l.Shapes[n]) {
						t.Errorf("%s on %s: %s is shape %d of %d", l.Chord, name, f.Shape, n+1, most)
					}
				}
			}
		}
	}
}

// effort.go tells of these.
const (
	warmth       = 0.5
	mostLoss     = 6.0
	oddFingering = 0.3
	ofItself     = 0.004
)

// loss is what the costs are fitted for.
func loss(t testing.TB) float64 {
	total := 0.0
	for _, row := range fingerings {
		fingers, barre, _, ok := fret.Finger(shape(t, row.shape))
		if !ok || !slices.Equal(fingers, row.fingers) || barre != row.barre {
			total += oddFingering
		}
	}
	for _, name := range taughtTunings {
		on, half, sum := tuning(t, name), lessonsOf(name, true), 0.0
		for _, l := range half {
			found := byToll(on, l)
			all, taught := 0.0, 0.0
			for _, f := range found {
				share := math.Exp((fret.Toll(found[0]) - fret.Toll(f)) / warmth)
				all += share
				if isTaught(l, f.Shape) {
					taught += share
				}
			}
			sum += min(mostLoss, -math.Log(taught/all))
		}
		if name == "guitar" {
			sum *= 2
		}
		total += sum / float64(len(half))
	}
	for _, c := range fret.MovableCosts() {
		total += ofItself * *c
	}
	return total
}

// The costs are fitted: none moved alone by a tenth, up or down, makes the loss much less. SPARETONE_STUDY=1 fits them
// again from where they are, and tells what comes of it.
func TestStudyOfEffort(t *testing.T) {
	costs := fret.MovableCosts()
	was := make([]float64, len(costs))
	for n, c := range costs {
		was[n] = *c
	}
	defer func() {
		for n, c := range costs {
			*c = was[n]
		}
	}()
	best := loss(t)
	t.Logf("loss %.4f", best)
	if os.Getenv("SPARETONE_STUDY") == "" {
		for n, c := range costs {
			for _, by := range []float64{0.9, 1.1} {
				*c = was[n] * by
				if l := loss(t); l < best-0.05 {
					t.Errorf("cost %d at %.2f in place of %.2f: loss %.4f, was %.4f", n, *c, was[n], l, best)
				}
				*c = was[n]
			}
		}
		return
	}
	for step := 0.4; step > 0.02; step /= 2 {
		for moved := true; moved; {
			moved = false
			for _, c := range costs {
				here := *c
				for _, by := range []float64{step, -step} {
					*c = max(0, here+by)
					if l := loss(t); l < best-1e-3 {
						best, moved, here = l, true, *c
						break
					}
					*c = here
				}
			}
		}
	}
	for n, c := range costs {
		t.Logf("cost %d: %.2f, was %.2f", n, *c, was[n])
	}
	t.Logf("loss %.4f", best)
	for _, name := range taughtTunings {
		a, _ := agree(t, name, false)
		t.Logf("%s, not fitted: %s", name, a)
	}
}
