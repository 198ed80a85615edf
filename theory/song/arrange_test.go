package song

import (
	"math"
	"strings"
	"testing"

	"sparetone/theory/fret"
)

// What a path asks in all is the sum over its places as the song goes round, and silence asks nothing.
func TestTotalsAreSums(t *testing.T) {
	a := arrangeChart(t, "| C | N.C. | Am | F G7 |", Wishes{Rich: 6})
	var effort, plain float64
	var movement Movement
	var grips []grip
	for _, p := range a.Places {
		if p.Silent {
			if p.Path.Shape != nil || p.Colours != nil || p.Outside {
				t.Errorf("%+v is silent", p)
			}
			continue
		}
		_, _, e, _ := fret.Finger(p.Path.Shape)
		effort += e
		plain += p.Plain.Effort
		grips = append(grips, gripOf(p.Path.Shape, p.Path.Fingers))
	}
	for i := range grips {
		movement = movement.Plus(grips[i].move(&grips[(i+1)%len(grips)]))
	}
	if math.Abs(a.Chosen.Effort-effort) > 1e-9 || math.Abs(a.Plain.Effort-plain) > 1e-9 || a.Chosen.Movement != movement {
		t.Errorf("%+v and %+v, want %g, %g and %+v", a.Chosen, a.Plain, effort, plain, movement)
	}
}

// The richer it may be, the more of the chords are coloured, and the plain path stays as it is.
func TestRicherIsRicher(t *testing.T) {
	const chart = "key: D\n| D | A | Bm | G | Em | A7 | F#m | D |"
	before, plain := -1, ""
	for rich := range mostRich + 1 {
		a := arrangeChart(t, chart, Wishes{Rich: rich})
		count, shapes := 0, []string{}
		for _, p := range a.Places {
			if p.Path.Colour != nil {
				count++
			}
			shapes = append(shapes, p.Plain.Shape.String())
		}
		if count < before || rich == 0 && count > 0 || rich == mostRich && count < 6 {
			t.Errorf("%d colours at %d, %d before", count, rich, before)
		}
		if now := strings.Join(shapes, " "); rich > 0 && now != plain {
			t.Errorf("the plain path is %s at %d, and was %s", now, rich, plain)
		} else {
			plain = now
		}
		before = count
	}
}

// A chord without a shape, and a settled shape that does not fit, are told in a line.
func TestArrangementsThatCannotBe(t *testing.T) {
	for _, row := range []struct {
		chart, says string
		w           Wishes
	}{
		{"| C | Fm9b5/Db |", "has no shape on ukulele that a hand can hold", Wishes{}},
		{"| C |", "0003 is for 4 strings", Wishes{Tuning: tuning(t, "guitar"), Fixed: []Fixed{{chord(t, "C"), shape(t, "0003")}}}},
		{"| C |", "2010 on ukulele is F and not C", Wishes{Fixed: []Fixed{{chord(t, "C"), shape(t, "2010")}}}},
		{strings.Repeat("|: C :| x16\n", 130), "plays more than 2000 bars", Wishes{}},
		{"| C |", "G does not come in the song", Wishes{Fixed: []Fixed{{chord(t, "G"), shape(t, "0232")}}}},
	} {
		s, err := Read(row.chart)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Arrange(s, row.w); err == nil || !strings.Contains(err.Error(), row.says) {
			t.Errorf("%s: %v, want %s", row.chart, err, row.says)
		}
	}
}
