package practice

import (
	"math"
	"testing"

	"sparetone/drills/practice/setting"
	"sparetone/synth/hear"
)

// What strokes that were read right agree on is followed, and said once; others, and what they do not agree on, are not.
func TestAnInstrumentThatIsOffIsFollowed(t *testing.T) {
	at := func(p *App) float64 { return 1200 * math.Log2(p.HeardA4()/p.Settings.A4) }
	p := &App{Settings: setting.Standard}
	stroke := func(v hear.Verdict, cents float64) { p.heardOff(hear.Reading{Verdict: v, Cents: cents}, p.HeardA4()) }
	for _, v := range []hear.Verdict{hear.Other, hear.Unsure} {
		for range 5 {
			stroke(v, -30)
		}
	}
	if at(p) != 0 || !p.SayOff().IsZero() {
		t.Errorf("what was not read right puts it %.1f cents off", at(p))
	}
	stroke(hear.Right, -40)
	stroke(hear.Right, -31)
	if at(p) != 0 {
		t.Errorf("two strokes put it %.1f cents off", at(p))
	}
	stroke(hear.Right, -29)
	if math.Abs(at(p)+31) > 1e-9 {
		t.Errorf("it is %.1f cents off, want the middle of three strokes, -31", at(p))
	}
	if got := p.SayOff().Screen(); got != "Your instrument is 31 cents low as a whole. It is heard as it is." || !p.SayOff().IsZero() {
		t.Errorf("said is %q, or it is said twice", got)
	}
	for range 3 { // heard for the A4 that is followed
		stroke(hear.Right, -26-at(p))
	}
	if math.Abs(at(p)+26) > 1 {
		t.Errorf("turned to 26 cents low it is %.1f cents off", at(p))
	}
	stroke(hear.Right, 14)
	stroke(hear.Right, -20)
	stroke(hear.Right, 14)
	if math.Abs(at(p)+26) > 1 {
		t.Errorf("strokes that do not agree put it %.1f cents off", at(p))
	}
	p.Settings.A4 = 432
	if p.HeardA4() != 432 || !p.SayOff().IsZero() {
		t.Errorf("with another A4 what was known is kept: %v", p.HeardA4())
	}
}

// The tuner puts an instrument where it found it, at once, and no further off than half a semitone.
func TestTheTunerTellsHowFarOffAnInstrumentIs(t *testing.T) {
	for cents, want := range map[float64]float64{-18: -18, 7: 7, 80: 50, -80: -50} {
		p := &App{Settings: setting.Standard}
		p.SetOff(cents)
		if got := 1200 * math.Log2(p.HeardA4()/p.Settings.A4); math.Abs(got-want) > 1e-9 {
			t.Errorf("%v cents: %v", cents, got)
		}
		if says := !p.SayOff().IsZero(); says != (math.Abs(cents) >= 10) {
			t.Errorf("%v cents: it is said: %v", cents, says)
		}
		p.SetOff(cents)
		if !p.SayOff().IsZero() && math.Abs(cents) <= 50 {
			t.Errorf("%v cents: it is said again though nothing changed", cents)
		}
	}
}
