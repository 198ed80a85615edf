package asking

import (
	"testing"
	"time"

	"sparetone/drills/catalogue"
	"sparetone/drills/meet"
	"sparetone/drills/played"
	"sparetone/tui/page"
)

// Where the clocks stood still before it was asked whether to stop, they stand still after it; elsewhere they run on.
func TestClocksAreAsTheyWereBeforeStopping(t *testing.T) {
	const pause = 30 * time.Second
	for name, c := range map[string]struct {
		come  func(p playing, q *Question)
		still bool
	}{
		"a question":            {func(playing, *Question) {}, false},
		"a question that waits": {func(p playing, q *Question) { q.waitForSound(p.Walk) }, true},
		"an answer that was played": {func(p playing, q *Question) {
			p.Apply(playedAnswer(p.Walk, q, played.Came{Answer: q.Asked.Expected().Typed}))
		}, true},
		"what came of an answer given": {func(p playing, q *Question) { p.Apply(q.take(p.Walk, q.Asked.Expected().Typed)) }, false},
	} {
		p := newPlaying(t, "swap", "ukulele", 4)
		c.come(p, p.At.(*Question))
		from := p.At
		p.Does(t, "stop?")
		left := p.Session.Left()
		p.Passes(pause)
		if now := p.Session.Left(); now != left {
			t.Errorf("%s: while it is asked %v pass", name, left-now)
		}
		p.Does(t, "go on")
		if p.At != from {
			t.Fatalf("%s: it goes on at %T", name, p.At)
		}
		left = p.Session.Left()
		p.Passes(pause)
		if now := p.Session.Left(); (now == left) != c.still {
			t.Errorf("%s: afterwards %v pass", name, left-now)
		}
	}
}

// Where what stands under a shape is what is asked for, it stands there even before it was said what a root is.
func TestWhatIsAskedForStandsUnderShapes(t *testing.T) {
	for drill, bare := range map[string]bool{"shape-tones": false, "shape-name": true} {
		p := newPlaying(t, "build", "ukulele", 4)
		d, _ := catalogue.ByID(drill)
		shown, err := meet.New(d, d.Targets(p.Session.On())[0].ID, p.Session.On())
		if err != nil {
			t.Fatal(err)
		}
		found := 0
		for _, b := range p.PageOf(&Meeting{Meeting: shown, New: true}).Blocks {
			if s, is := b.(page.Shapes); is {
				if found++; s.Bare != bare {
					t.Errorf("%s: shapes are bare: %v", drill, s.Bare)
				}
			}
		}
		if found == 0 {
			t.Errorf("%s shows no shapes", drill)
		}
	}
}
