package pupils

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"sparetone/progress"
	"sparetone/progress/plan"
)

// stubborn is a mind that is right with one chance whatever happens.
type stubborn struct {
	recalling
	chance float64
	taught []bool // whether each was shown as known
}

func (s *stubborn) right(int, []pairing, float64) float64       { return s.chance }
func (s *stubborn) known(int, float64) float64                  { return s.chance }
func (s *stubborn) learn(_ int, _ []pairing, _ float64, b bool) { s.taught = append(s.taught, b) }
func (s *stubborn) gain(int, []pairing, float64, float64) float64 {
	return 0
}
func (s *stubborn) begin(int) {}

// sitter is somebody of middling pace who is right with a chance.
func sitter(chance float64) (*Pupil, *stubborn) {
	m := &stubborn{chance: chance}
	p := newPupil(chords(), m, m, dice())
	p.slow = 1
	return p, m
}

// meanOf answers many questions, and returns the share of right answers and the mean logarithms of the times they took and were looked at.
func meanOf(p *Pupil, minutes float64) (right, took, looked float64) {
	const n = 4000
	for range n {
		a := p.answer(6, -1, 10, minutes)
		if a.result == progress.Right {
			right += 1.0 / n
		}
		took += math.Log(a.took.Seconds()) / n
		looked += math.Log(a.looked.Seconds()) / n
	}
	return right, took, looked
}

// Who knows answers in 4 seconds and looks for 2.5, who does not in 1.3 times 7 and looks for 8.
func TestHowLongAnswersTake(t *testing.T) {
	for chance, want := range map[float64][2]float64{1: {4, 2.5}, 0: {9.1, 8}} {
		p, m := sitter(chance)
		right, took, looked := meanOf(p, 20)
		if math.Abs(right-chance) > 1e-9 || !p.met[6] || slices.Contains(m.taught, chance == 0) {
			t.Errorf("with %v %.3f are right, taught %v", chance, right, m.taught[0])
		}
		if took, looked := math.Exp(took), math.Exp(looked); math.Abs(took/want[0]-1) > 0.02 || math.Abs(looked/want[1]-1) > 0.02 {
			t.Errorf("with %v it takes %.2f s and %.2f s, want %v", chance, took, looked, want)
		}
	}
	p, _ := sitter(0.5)
	p.slow = 3
	a := p.answer(6, -1, 10, 0)
	if s := a.took.Seconds(); s < 5 || s > 90 {
		t.Errorf("a slow one takes %.1f s", s)
	}
	var times [][]float64
	for range 400 {
		var own []float64
		p, _ := sitter(1)
		p.slow, p.rng = 0.25, rand.New(rand.NewPCG(7, uint64(len(times))))
		for range 100 {
			own = append(own, p.answer(6, -1, 10, 0).took.Seconds())
		}
		times = append(times, own)
	}
	spread(t, "times", times, 0.35/math.Sqrt(100), 0.35)
	spread(t, "paces", drawn(func(rng *rand.Rand) []float64 {
		return []float64{newPupil(chords(), nil, nil, rng).slow, 1}
	}), 0.125, 0.125)
}

// Whom life has slips six times in a hundred, and from the sixth minute on a hundredth more a minute; what was known is learned as known.
func TestSlips(t *testing.T) {
	for minutes, want := range map[float64]float64{0: 0.94, 6: 0.94, 16: 0.84} {
		p, m := sitter(1)
		p.life = true
		if right, _, _ := meanOf(p, minutes); math.Abs(right-want) > 0.012 || slices.Contains(m.taught, false) {
			t.Errorf("after %v minutes %.3f are right, want %v", minutes, right, want)
		}
	}
}

// A question has two choices at first, and four when three others of its drill were met; what is spelled has none.
func TestWhatAQuestionOffers(t *testing.T) {
	c := chords()
	p := newPupil(c, nil, nil, dice())
	if got := p.others(6, -1); got != nil {
		t.Errorf("spelled, it stands among %v", got)
	}
	if got := p.others(0, -1); len(got) != 1 || got[0] != c.rest[0] {
		t.Errorf("at first %v", got)
	}
	if got := p.others(0, 1); got[0] != c.near[0][0] {
		t.Errorf("against minor: %v", got)
	}
	if got := p.others(0, 3); got[0] != c.rest[0] {
		t.Errorf("against something of another drill: %v", got)
	}
	p.met[1], p.met[2] = true, true
	seen := map[int]bool{}
	for range 50 {
		got := p.others(0, -1)
		if len(got) != 2 {
			t.Fatalf("two others were met: %v", got)
		}
		for _, o := range got {
			seen[o.other] = true
		}
	}
	if !seen[1] || !seen[2] {
		t.Errorf("what is near never stands there: %v", seen)
	}
	far := NewCourse(append([]plan.Candidate{}, plan.Candidate{Item: "ear/a/u", Drill: "ear"}, plan.Candidate{Item: "ear/b/u", Drill: "ear"}), func(plan.Candidate) int { return 4 })
	if got := newPupil(far, nil, nil, dice()).others(0, 1); len(got) != 1 || got[0] != (pairing{1, far.rest[0].kinds, far.rest[0].pair}) {
		t.Errorf("set against what is not near: %v", got)
	}
	many := make([]plan.Candidate, 12)
	for i := range many {
		many[i] = plan.Candidate{Item: fmt.Sprintf("ear/%d/u", i), Drill: "ear"}
	}
	many[0].Near = []string{"ear/1/u"}
	big := newPupil(NewCourse(many, func(plan.Candidate) int { return 4 }), nil, nil, dice())
	for i := range many {
		big.met[i] = i > 0
	}
	near := 0
	for range 4000 {
		got := big.others(0, -1)
		if len(got) != 3 {
			t.Fatalf("%v", got)
		}
		if got[0].other == 1 {
			near++
		}
	}
	if share := float64(near) / 4000; math.Abs(share-3.0/11) > 0.025 {
		t.Errorf("what is near stands there in %.3f, want three of eleven", share)
	}
}

// Six in ten are known to the strong, rather what comes early: 92 of 100 at the beginning of the course, 28 at its end.
func TestWhatIsKnownBefore(t *testing.T) {
	var items []plan.Candidate
	for i := range 101 {
		items = append(items, plan.Candidate{Item: fmt.Sprintf("eye/%d/u", i), Drill: "eye"})
	}
	c := NewCourse(items, func(plan.Candidate) int { return 4 })
	for _, row := range []struct {
		share       float64
		first, last float64
	}{{0.6, 0.92, 0.28}, {0.1, 0.18, 0.02}} {
		var first, last, all float64
		rng := dice()
		const n = 3000
		for range n {
			p := newPupil(c, newHalving(len(items), rng), nil, rng)
			p.knowBefore(row.share)
			for i, known := range p.before {
				if known != (p.Known(i, 0) > 0) {
					t.Fatal("what is known before is not known")
				}
				if known {
					all += 1.0 / n / 101
					switch i {
					case 0:
						first += 1.0 / n
					case 100:
						last += 1.0 / n
					}
				}
			}
		}
		if math.Abs(all-row.share) > 0.01 || math.Abs(first-row.first) > 0.025 || math.Abs(last-row.last) > 0.025 {
			t.Errorf("of %v %.3f are known, of the first %.3f, of the last %.3f", row.share, all, first, last)
		}
	}
}

// Each kind has the minds it is described by.
func TestKinds(t *testing.T) {
	c := chords()
	many := keptOfMany(6)
	for i, want := range []struct {
		name     string
		eye, ear string
		life     bool
		kept     float64
		before   float64
	}{
		{"power", "*pupils.adding", "*pupils.adding", false, 0, 0},
		{"ears", "*pupils.adding", "*pupils.telling", false, 0.5, 0},
		{"life", "*pupils.adding", "*pupils.telling", true, 0.5, 0},
		{"strong", "*pupils.adding", "*pupils.telling", false, 0.5, 0.6},
		{"scales", "*pupils.scaled", "*pupils.telling", false, 0.5, 0},
		{"many", "*pupils.halving", "*pupils.telling", false, many, 0},
		{"apart", "*pupils.halving", "*pupils.scaled", false, 0, 0.1},
	} {
		kind := Kinds[i]
		rng := dice()
		known, n := 0.0, 0.0
		for range 400 {
			p := kind.Make(c, rng)
			if eye, ear := fmt.Sprintf("%T", p.eye), fmt.Sprintf("%T", p.ear); kind.Name != want.name || eye != want.eye || ear != want.ear || p.life != want.life {
				t.Fatalf("%s: by eye %s, by ear %s, life %v", kind.Name, eye, ear, p.life)
			}
			if heard, is := p.ear.(*telling); is && heard.kept(6) != want.kept {
				t.Fatalf("%s: %v of six trials are kept", kind.Name, heard.kept(6))
			}
			for _, b := range p.before {
				n++
				if b {
					known++
				}
			}
		}
		if share := known / n; math.Abs(share-want.before) > 0.03 {
			t.Errorf("%s: %.3f is known before", kind.Name, share)
		}
	}
	if len(Kinds) != 7 || Apart != "apart" {
		t.Errorf("%d kinds", len(Kinds))
	}
}

// From the sixth minute on a hundredth more of what is known slips with each: after 94 more all does.
func TestTiresFromTheSixthMinute(t *testing.T) {
	m := &stubborn{chance: 1}
	p := newPupil(chords(), m, m, dice())
	p.life = true
	right := func(minutes float64) (n int) {
		for range 1000 {
			if p.answer(0, -1, 0, minutes).result == progress.Right {
				n++
			}
		}
		return n
	}
	if n := right(100); n != 0 {
		t.Errorf("after 100 minutes %d of 1000 are right", n)
	}
	if n := right(99); n == 0 {
		t.Error("after 99 minutes none of 1000 is right")
	}
}
