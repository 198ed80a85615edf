package arrange

import (
	"math"
	"strings"
	"testing"

	"sparetone/theory/fret"
	"sparetone/theory/song"
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

// A chord without a shape is marked, and the others are arranged as they would be without it.
func TestChordsWithoutAShape(t *testing.T) {
	s, err := song.Read("key: C\n| C | Fm9b5/Db | G | C |")
	if err != nil {
		t.Fatal(err)
	}
	a, err := Arrange(s, Wishes{Rich: 5})
	if err != nil {
		t.Fatal(err)
	}
	for n, p := range a.Places {
		if p.Unheld != (n == 1) || p.Rests() != p.Unheld || (p.Plain.Shape == nil) != p.Unheld || (p.Path.Shape == nil) != p.Unheld {
			t.Errorf("%v: %+v", p.Chord, p)
		}
	}
	if got := a.Unheld(); len(got) != 1 || got[0].String() != "Fm9♭5/D♭" {
		t.Errorf("%v", got)
	}
	without, err := song.Read("key: C\n| C | N.C. | G | C |")
	if err != nil {
		t.Fatal(err)
	}
	b, err := Arrange(without, Wishes{Rich: 5})
	if err != nil || a.Chosen != b.Chosen || a.Plain != b.Plain || len(a.Threads) != len(b.Threads) {
		t.Errorf("%+v, without it %+v, %v", a.Chosen, b.Chosen, err)
	}
}

// A shape that is settled on the path alone leaves the plain one as it is; where nothing is to be rich, the others stay plain.
func TestShapesSettledOnThePath(t *testing.T) {
	s, err := song.Read("key: C\n| C | F | G7 |")
	if err != nil {
		t.Fatal(err)
	}
	for _, rich := range []int{0, 6} {
		free, err := Arrange(s, Wishes{Rich: rich})
		if err != nil {
			t.Fatal(err)
		}
		a, err := Arrange(s, Wishes{Rich: rich, Fixed: []Fixed{{Chord: chord(t, "C"), Shape: shape(t, "0203"), OnPath: true}, {Chord: chord(t, "F"), Shape: shape(t, "2010"), OnPath: true}}})
		if err != nil {
			t.Fatal(err)
		}
		if c := a.Places[0]; c.Path.Shape.String() != "0203" || c.Path.Colour == nil || c.Path.Chord.String() != "Cadd9" || c.Plain.Shape.String() != free.Places[0].Plain.Shape.String() {
			t.Errorf("rich %d: C is %v, plain %v", rich, c.Path, c.Plain.Shape)
		}
		if f := a.Places[1].Path; f.Shape.String() != "2010" || f.Colour != nil {
			t.Errorf("rich %d: F is %v", rich, f)
		}
		if g := a.Places[2].Path; rich == 0 && g.Colour != nil {
			t.Errorf("G7 is %v", g)
		}
	}
	if _, err := Arrange(s, Wishes{Fixed: []Fixed{{Chord: chord(t, "C"), Shape: shape(t, "2010"), OnPath: true}}}); err == nil {
		t.Error("F is taken for C")
	}
}

// A song without any shape, and a settled shape that does not fit, are told in a line.
func TestArrangementsThatCannotBe(t *testing.T) {
	for _, row := range []struct {
		chart, says string
		w           Wishes
	}{
		{"| Fm9b5/Db | N.C. |", "has no shape on ukulele that a hand can hold", Wishes{}},
		{"| C |", "0003 is for 4 strings", Wishes{Tuning: tuning(t, "guitar"), Fixed: []Fixed{{Chord: chord(t, "C"), Shape: shape(t, "0003")}}}},
		{"| C |", "2010 on ukulele is F and not C", Wishes{Fixed: []Fixed{{Chord: chord(t, "C"), Shape: shape(t, "2010")}}}},
		{strings.Repeat("|: C :| x16\n", 130), "plays more than 2000 bars", Wishes{}},
		{"| C |", "G does not come in the song", Wishes{Fixed: []Fixed{{Chord: chord(t, "G"), Shape: shape(t, "0232")}}}},
	} {
		s, err := song.Read(row.chart)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Arrange(s, row.w); err == nil || !strings.Contains(err.Error(), row.says) {
			t.Errorf("%s: %v, want %s", row.chart, err, row.says)
		}
	}
}

// On a ukulele a chord over another note lies far up the neck: the chord alone is named. Where it is settled, and on a guitar, it is not.
func TestChordsThatAreEasierWithoutTheirBass(t *testing.T) {
	for _, row := range []struct {
		tuning, chart, fix, want string
	}{
		{"ukulele", "| C | F/A | F/A | C/G |", "", "F/A asks for A as its lowest note; where something else plays that, F is far easier: 2010; C/G asks for G as its lowest note; where something else plays that, C is far easier: 0003; "},
		{"ukulele", "| C | F/A | C/E |", "2010", ""},
		{"ukulele", "| C/E |", "", ""}, // 4.6 more
		{"ukulele", "| D/F# |", "", "D/F♯ asks for F♯ as its lowest note; where something else plays that, D is far easier: 2220; "}, // 6.7 more
		{"ukulele", "| F/C | C |", "", ""}, // its lowest note is C
		{"guitar", "| G | D/F# | C/E | G/B |", "", ""},
	} {
		w := Wishes{Tuning: tuning(t, row.tuning)}
		if row.fix != "" {
			w.Fixed = []Fixed{{Chord: chord(t, "F/A"), Shape: shape(t, row.fix)}, {Chord: chord(t, "C/E"), Shape: shape(t, "0003")}}
		}
		got := ""
		for _, one := range arrangeChart(t, row.chart, w).WithoutBass() {
			got += one.Said().Screen() + "; "
		}
		if got != row.want {
			t.Errorf("%s on %s: %s\nwant %s", row.chart, row.tuning, got, row.want)
		}
	}
}
