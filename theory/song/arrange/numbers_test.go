package arrange

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// What speaks against a colour is the sum of what it asks and of each thing that is so of it.
func TestWhatSpeaksAgainstAColour(t *testing.T) {
	plain := shape(t, "0003")
	good := Colour{Shape: shape(t, "0005"), Effort: 3, Leads: Stays, Standing: theory.OfScale}
	for want, c := range map[float64]func(*Colour){
		3:   func(*Colour) {},
		3.8: func(c *Colour) { c.Rubs = theory.Interval{Number: 2, Semitones: 1} },
		23:  func(c *Colour) { c.Lost = true },
		43:  func(c *Colour) { c.Standing = theory.Outside },
		13:  func(c *Colour) { c.Harder = true },
		4:   func(c *Colour) { c.Leads = Leaps },
		3.3: func(c *Colour) { c.Leads = Steps },
		4.5: func(c *Colour) { c.Effort = 4.5 },
		3.4: func(c *Colour) { c.Shape = shape(t, "0205") },
		4.2: func(c *Colour) { c.Shape = shape(t, "2225") },
		2.6: func(c *Colour) { c.Shape = plain }, // nothing is moved
		77.1: func(c *Colour) {
			*c = Colour{Shape: shape(t, "2225"), Effort: 4.1, Rubs: theory.Interval{Number: 2, Semitones: 1}, Lost: true, Standing: theory.Outside, Harder: true, Leads: Leaps}
		},
	} {
		colour := good
		c(&colour)
		if got := colour.against(plain); math.Abs(got-want) > 1e-9 {
			t.Errorf("%+v: %g, want %g", colour, got, want)
		}
	}
}

// What a colour is worth on the path, in hundredths.
func TestWhatAColourIsWorth(t *testing.T) {
	rub := theory.Interval{Number: 2, Semitones: 1}
	for want, c := range map[int]Colour{100: {Leads: Stays}, 60: {Leads: Steps, Rubs: rub}, 80: {Leads: Leaps}, 40: {Leads: Leaps, Rubs: rub}} {
		if got := worth(&c); int(got) != want {
			t.Errorf("%+v: %v, want %d", c, got, want)
		}
	}
}

// A path takes so many plain shapes of a chord, the easiest, and so many of its colours.
func TestHowManyShapesAPathMayTake(t *testing.T) {
	guitar := tuning(t, "guitar")
	e := chord(t, "E")
	if all := fret.Easiest(guitar, e, fret.DefaultHand, fret.Wish{Most: 100, Effort: 1e9, Needs: e.Kind.Formula}); len(all) <= 24 {
		t.Fatalf("%d shapes of E", len(all))
	}
	plain := plainShapes(guitar, e)
	if len(plain) > 24 {
		t.Errorf("%d plain shapes may be taken", len(plain))
	}
	most := 0
	for _, symbol := range []string{"E", "Am", "G", "C", "D"} {
		most = max(most, len(plainShapes(guitar, chord(t, symbol))))
	}
	if most != 24 {
		t.Errorf("%d plain shapes at the most, want 24", most)
	}
	colours := make([]Colour, 30)
	for i := range colours {
		colours[i] = Colour{Shape: shape(t, "022100"), Fingers: make([]int, 6), Standing: theory.OfScale, Lost: i%3 == 0}
	}
	if got := len(withColours(plain, colours, false)) - len(plain); got != 16 {
		t.Errorf("%d colours may be taken", got)
	}
	if got := withColours(plain, colours, true); len(got) != len(plain) {
		t.Errorf("a settled shape has %d beside it", len(got)-len(plain))
	}
	if got := len(withColours(nil, colours[:6], false)); got != 4 {
		t.Errorf("%d colours of which two are lost", got)
	}
}

// The colours of each place lead on to the shape that follows, the last one's to the first.
func TestColoursLeadOnToWhatFollows(t *testing.T) {
	a := arrangeChart(t, "key: C\n| C | Am | F | G7 | Em |", Wishes{})
	for i, p := range a.Places {
		next := a.Places[(i+1)%len(a.Places)].Plain.Shape
		if want := Colours(a.Tuning, p.Chord, a.Key, p.Plain.Shape, next); len(want) == 0 || !reflect.DeepEqual(want, p.Colours) {
			t.Errorf("the colours of %s do not lead on to %s", p.Chord, next)
		}
	}
}

// Each colour is offered once, and those of other shapes than the one that is held only where nothing speaks against them; none stops the
// short string of a banjo where it has no fret.
func TestColoursOfOtherShapes(t *testing.T) {
	for _, on := range []string{"ukulele", "guitar", "banjo"} {
		n := tuning(t, on)
		for _, symbol := range []string{"C", "Am", "D7"} {
			c := chord(t, symbol)
			for _, k := range []string{"C", "D"} {
				shapes := Shapes(n, c)
				if len(shapes) == 0 {
					continue
				}
				seen, other := map[string]bool{}, 0
				for _, colour := range Colours(n, c, key(t, k), shapes[0], nil) {
					what := fmt.Sprintf("%s, %s in %s: %s", on, symbol, k, colour.Shape)
					if seen[colour.Shape.String()] {
						t.Errorf("%s is offered twice", what)
					}
					seen[colour.Shape.String()] = true
					if !slices.Equal(colour.From, shapes[0]) {
						if other++; !colour.Good() {
							t.Errorf("%s, of %s, is not good", what, colour.From)
						}
					}
					if at := colour.Shape[0]; on == "banjo" && at > 0 && at <= n.Start(0) {
						t.Errorf("%s stops the short string at %d", what, at)
					}
				}
			}
		}
	}
	if got := Colours(tuning(t, "guitar"), chord(t, "C"), key(t, "C"), shape(t, "123456"), nil); got != nil {
		t.Errorf("of a shape that no hand holds: %+v", got)
	}
}

// The third of a triad may be given up for the note beside it, which suspends it; that of a seventh chord may not.
func TestWhatTheThirdIsGivenUpFor(t *testing.T) {
	on := tuning(t, "ukulele")
	for _, c := range []struct {
		symbol, plain, to, want string
		string                  int
	}{
		{"C", "0003", "0013", "Csus4", 2}, {"D", "2220", "2200", "Dsus2", 2}, {"C", "0003", "0033", "", 2}, {"C7", "0001", "0011", "", 2}, {"A", "2100", "2200", "Asus4", 1},
	} {
		plain := shape(t, c.plain)
		v, err := fret.Voice(on, plain, chord(t, c.symbol))
		if err != nil {
			t.Fatal(err)
		}
		f := &finder{t: on, c: chord(t, c.symbol), k: key(t, "C"), plain: plain, most: 1e9, seen: map[string]bool{}}
		got, ok := f.colour(v, c.string, shape(t, c.to))
		switch {
		case ok != (c.want != ""):
			t.Errorf("%s to %s: %v", c.symbol, c.to, ok)
		case ok && (got.Chord.Symbol() != c.want || !got.Lost || got.GivesUp.Number != 3):
			t.Errorf("%s to %s: %s, %+v", c.symbol, c.to, got.Chord.Symbol(), got)
		}
	}
}
