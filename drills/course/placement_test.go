package course

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/neck"
)

// student is somebody whose levels in the course are known.
type student struct {
	ear, eye int
	spread   float64 // steps over which what is known goes over into what is not; 0 is a clean edge
	slip     float64 // chance not to answer right what is known
	admits   float64 // chance of "I don't know" where it is not known; else it is guessed
	steady   bool    // takes the same time for every answer
}

// pace is how long an answer takes: about so many seconds, half as much or twice as much one time in six
// each. From trying it out, no source.
func pace(q *drills.Question, rng *rand.Rand) time.Duration {
	median := 7.0
	if len(q.Sounds) > 0 {
		median = 9
	}
	return time.Duration(median * math.Exp(0.7*rng.NormFloat64()) * float64(time.Second))
}

// placedStudent is what came of a placement.
type placedStudent struct {
	offEar, offEye int // steps found too far
	found          Found
	asked          int
	upTo           int // the furthest step asked about, counted from 1
	took           time.Duration
}

// sit takes a student through a placement.
func (s student) sit(t testing.TB, on *neck.Instrument, seed uint64, silent bool) placedStudent {
	t.Helper()
	rng := rand.New(rand.NewPCG(seed, 3))
	now := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
	began := now
	p, err := NewPlacement(BuiltIn(), on, silent, seed, func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	known := make([]bool, len(p.steps))
	for i, step := range p.steps {
		level := s.eye
		if step.byEar {
			level = s.ear
		}
		known[i] = step.number < level
		if s.spread > 0 {
			known[i] = rng.Float64() < 1/(1+math.Exp((float64(step.number-level)+0.5)/s.spread))
		}
	}
	var out placedStudent
	for q := p.Next(); q != nil; q = p.Next() {
		out.asked++
		if s.steady {
			now = now.Add(9 * time.Second)
		} else {
			now = now.Add(pace(q, rng))
		}
		right := q.Expected().Typed
		wrong := q.Choices[(slices.IndexFunc(q.Choices, func(c drills.Choice) bool { return c.ID == q.Expected().ID })+1+rng.IntN(len(q.Choices)-1))%len(q.Choices)].Typed
		i := slices.IndexFunc(p.steps, func(s placed) bool { return s.question == q })
		out.upTo = max(out.upTo, i+1)
		answer := right
		switch {
		case known[i] && rng.Float64() < s.slip:
			answer = wrong
		case known[i]:
		case rng.Float64() < s.admits:
			p.Unknown()
			continue
		case rng.IntN(len(q.Choices)) > 0:
			answer = wrong
		}
		if err := p.Answer(answer); err != nil {
			t.Fatal(err)
		}
	}
	f := p.Found()
	out.found, out.took = f, now.Sub(began)
	out.offEar, out.offEye = len(f.Ear.Known)-s.ear, len(f.Eye.Known)-s.eye
	return out
}

// off sums up how far placements were off.
type off struct{ sum, squares, bias, near, n float64 }

func (o *off) add(by int) {
	o.n++
	o.sum += math.Abs(float64(by))
	o.squares += float64(by * by)
	o.bias += float64(by)
	if by >= -4 && by <= 4 {
		o.near++
	}
}

func (o off) mean() float64 { return o.sum / o.n }

// least is a number that the mean over all students there could be lies above, but for four standard deviations.
func (o off) least() float64 {
	return o.mean() - 4*math.Sqrt((o.squares/o.n-o.mean()*o.mean())/o.n)
}

func (o off) String() string {
	return fmt.Sprintf("off by %.1f steps, %+.1f on average, %2.0f %% within 4", o.mean(), o.bias/o.n, 100*o.near/o.n)
}

// crowd is a kind of students, and how far off they may be found: the mean over all of them, in steps.
type crowd struct {
	name     string
	who      student // without levels
	silent   bool
	ear, eye float64
}

// Students whose levels in the course are drawn evenly are found near them, whoever they are; those who slip often
// too early. Bounds are a quarter above what 1,000 students of each kind showed; the ordinary run allows four standard
// deviations of the mean of its few on top.
func TestPlacementFindsThePlace(t *testing.T) {
	each := studyOf(20, 1000)
	on := ukulele(t)
	for _, c := range []crowd{
		{"as the belief has it", student{spread: 2, slip: 0.15, admits: 0.5}, false, 4.8, 5.7},
		{"a clean edge, never slips, always admits", student{admits: 1}, false, 2.1, 2.9},
		{"never admits, guesses", student{spread: 2, slip: 0.1}, false, 4.4, 5.6},
		{"knows here and there", student{spread: 4, slip: 0.1, admits: 0.5}, false, 5.3, 6.8},
		{"slips one time in four", student{spread: 2, slip: 0.25, admits: 0.5}, false, 7.0, 7.8},
		{"without sound", student{spread: 2, slip: 0.1, admits: 0.5}, true, math.Inf(1), 4.1},
	} {
		var ear, eye off
		var asked, took, late, nothing float64
		rng := rand.New(rand.NewPCG(9, 9))
		for n := range each {
			s := c.who
			// One half is as far by ear as by eye, the other anywhere.
			s.ear, s.eye = rng.IntN(38), rng.IntN(32)
			if n%2 == 0 {
				s.eye = s.ear * 31 / 37
			}
			got := s.sit(t, on, uint64(n), c.silent)
			ear.add(got.offEar)
			eye.add(got.offEye)
			nothing += float64(s.ear) / float64(each)
			asked += float64(got.asked) / float64(each)
			took += got.took.Seconds() / float64(each)
			if got.took > placementTime+20*time.Second {
				late += 100 / float64(each)
			}
		}
		t.Logf("%s: ear %v; eye %v; %.1f questions, %.0f s, %.0f %% over 140 s; beginning at the beginning would be off by %.1f", c.name, ear, eye, asked, took, late, nothing)
		if ear.least() > c.ear || whole && ear.mean() > c.ear {
			t.Errorf("%s: by ear off by more than %.1f steps", c.name, c.ear)
		}
		if eye.least() > c.eye || whole && eye.mean() > c.eye {
			t.Errorf("%s: by eye off by more than %.1f steps", c.name, c.eye)
		}
	}
}

// What is heard sounds in the student's own voice, and a kind of chord by itself.
func TestAPlacementSoundsPlain(t *testing.T) {
	on := ukulele(t)
	for seed := range uint64(20) {
		p, err := NewPlacement(BuiltIn(), on, false, seed, time.Now)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range p.steps {
			q := s.question
			switch {
			case q == nil:
			case s.byEar && q.Voice != on.Voices[0]:
				t.Errorf("%s sounds as %v", s.ID, q.Voice)
			case s.Drill == "chord-ear" && len(q.Sounds) != 1:
				t.Errorf("%s: %d sounds", s.ID, len(q.Sounds))
			}
		}
	}
}

// Whoever knows nothing is asked little, nothing from far up, and begins at the beginning; whoever knows all begins at
// the end; whoever knows shapes alone begins with the first sounds.
func TestPlacementOfExtremes(t *testing.T) {
	on := ukulele(t)
	ears, all := 0, len(BuiltIn())
	for _, s := range BuiltIn() {
		if s.byEar(on) {
			ears++
		}
	}
	eyes := all - ears
	for _, c := range []struct {
		name       string
		ear, eye   int
		silent     bool
		want       func(f Found) bool
		most, upTo int // questions, and the furthest step of the course, counted from 1
	}{
		{"nothing", 0, 0, false, func(f Found) bool { return f.Level() == Level{} }, 8, 15},
		{"nothing, without sound", 0, 0, true, func(f Found) bool { return f.Level() == Level{} }, 4, 15},
		{"everything", ears, eyes, false, func(f Found) bool { return len(f.Ear.Known) >= ears-6 && len(f.Eye.Known) >= eyes-6 }, 14, all - 3},
		{"everything, without sound", ears, eyes, true, func(f Found) bool { return f.Level().Ear == "" && !f.Ear.Answered && len(f.Eye.Known) >= eyes-4 }, 10, all - 3},
		{"shapes alone", 0, eyes, false, func(f Found) bool { return f.Level().Ear == "" && len(f.Eye.Known) >= eyes-12 }, 14, all - 3},
		{"sounds alone", ears, 0, false, func(f Found) bool { return f.Level().Eye == "" && len(f.Ear.Known) >= ears-9 }, 14, all - 3},
	} {
		for seed := range uint64(10) {
			got := student{ear: c.ear, eye: c.eye, admits: 1, steady: true}.sit(t, on, seed, c.silent)
			if !c.want(got.found) {
				t.Errorf("%s: begins at %v, with %d and %d steps known", c.name, got.found.Level(), len(got.found.Ear.Known), len(got.found.Eye.Known))
			}
			if got.asked > c.most || got.upTo > c.upTo {
				t.Errorf("%s: %d questions, as far as step %d; %d and step %d at the most", c.name, got.asked, got.upTo, c.most, c.upTo)
			}
		}
	}
}

// An answer that makes no sense is asked again; that it is not known is one.
func TestPlacementTakesAnswersOnly(t *testing.T) {
	p, err := NewPlacement(BuiltIn(), ukulele(t), false, 0, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	p.Next()
	if err := p.Answer("nonsense"); err == nil || p.Answers() != 0 {
		t.Errorf("nonsense is taken for an answer: %v", err)
	}
	for n, text := range []string{"I don't know", "i dont know", "no idea"} {
		p.Next()
		if err := p.Answer(text); err != nil || p.Answers() != n+1 {
			t.Errorf("%s: %v, %d asked", text, err, p.Answers())
		}
	}
}

// What is passed over for want of sound says nothing.
func TestPlacementPassesOver(t *testing.T) {
	p, err := NewPlacement(BuiltIn(), ukulele(t), false, 0, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	p.Next()
	p.SetSilent(true)
	for q := p.Next(); q != nil; q = p.Next() {
		if len(q.Sounds) > 0 {
			t.Errorf("%s/%s is heard without sound", q.Drill, q.Target)
		}
	}
	if f := p.Found(); f.Ear.Answered || f.Eye.Answered || f.Level() != (Level{}) {
		t.Errorf("found without an answer: %v", f.Level())
	}
}
