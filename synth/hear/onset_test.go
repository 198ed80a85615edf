package hear

import (
	"math"
	"math/rand/v2"
	"testing"
)

// However the noise of a room rises for a moment before it, a stroke is found.
func TestAStrokeIsFoundBehindNoise(t *testing.T) {
	const rate, begins, strokes = 16000, 1.0, 200
	r := rand.New(rand.NewPCG(5, 5))
	missed := 0
	for range strokes {
		sound := make([]float64, int(1.3*rate))
		for i := range sound {
			sound[i] = 5e-4 * r.NormFloat64()
			if s := float64(i)/rate - begins; s >= 0 {
				for _, f := range []float64{262, 330, 392, 440} {
					sound[i] += 0.05 * math.Exp(-3*s) * math.Sin(2*math.Pi*f*s)
				}
			}
		}
		o, found := newOnsets(rate), false
		for o.next()+o.size <= len(sound) {
			at, ok := o.feed(sound[o.next() : o.next()+o.size])
			found = found || ok && at.strength >= strong && math.Abs(at.at-begins) < 0.03
		}
		if !found {
			missed++
		}
	}
	if missed > 0 {
		t.Errorf("%d of %d strokes are missed", missed, strokes)
	}
}

// After strings that were plucked in turn a pause is one and a half seconds, and three where something crackles all the time.
func TestAPauseAfterPlucks(t *testing.T) {
	for _, c := range []struct {
		at   []onset
		now  float64
		want bool
	}{
		{[]onset{{1, 9}, {1.4, 9}}, 2.8, false},
		{[]onset{{1, 9}, {1.4, 9}}, 3.0, true},
		{[]onset{{1, 9}, {1.4, 9}, {2.5, weak}}, 3.9, false},
		{[]onset{{1, 9}, {1.4, 9}, {2.5, weak}, {3.6, weak}}, 4.3, false},
		{[]onset{{1, 9}, {1.4, 9}, {2.5, weak}, {3.6, weak}}, 4.5, true},
		{[]onset{{1, 9}, {1.4, 9}, {2.5, weak}, {3.6, strong}}, 4.5, false},
		{[]onset{{1, 9}, {31.5, 9}}, 31.6, true},
	} {
		l := &Listener{rate: 100, pending: c.at, gone: int(100 * c.now)}
		if got := l.paused(); got != c.want {
			t.Errorf("%v at %v s: paused %v", c.at, c.now, got)
		}
	}
}
