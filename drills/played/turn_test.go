package played

import (
	"slices"
	"testing"

	"sparetone/drills/neck"
	"sparetone/drills/played/student"
	"sparetone/synth/hear"
	"sparetone/theory/fret"
)

// heardAs is a reading in which each string that is listened for surely sounds as in a shape.
func heardAs(a *ShapeAttempt, s fret.Shape) Heard {
	r := hear.Reading{AboveNoise: 40, Sure: 1, Among: -1, Verdict: hear.Other}
	for _, on := range a.Listens().Task.Strings {
		i := len(a.on.Strings) - on.Number
		r.Strings = append(r.Strings, hear.Heard{Number: on.Number, Pitch: Pitches(a.on, s)[i], Expected: Pitches(a.on, a.want.Shape)[i], Sure: 1})
	}
	return Heard{Reading: &r}
}

// building is an attempt at a question whose answer no string doubles.
func building(t *testing.T) (*ShapeAttempt, *neck.Instrument) {
	t.Helper()
	on, asked := asking(t, "build", "ukulele", 30)
	for _, q := range asked {
		if a := New(q, on, 0).(*ShapeAttempt); a.doubtful(Pitches(a.on, a.want.Shape)) == nil && a.want.Shape[0] != fret.Muted {
			return a, on
		}
	}
	t.Fatal("every answer doubles a string")
	return nil, nil
}

// While strings are plucked in turn the page counts them, and nothing is said aloud into them.
func TestPlucksAreCounted(t *testing.T) {
	a, _ := building(t)
	if c := a.Take(Heard{Begun: 1}); !c.Says.IsZero() {
		t.Errorf("before any stroke it says %q", c.Says.Screen())
	}
	a.turn = a.all()
	for begun, want := range map[int]string{1: "Plucked: 1 of 4.", 4: "Plucked: 4 of 4.", 6: "Plucked: 4 of 4."} {
		if c := a.Take(Heard{Begun: begun}); c.Says.Screen() != want || !c.Seen || c.Answer != "" || c.Anew {
			t.Errorf("after %d onsets: %+v, want %q for the eye", begun, c, want)
		}
	}
	if c := a.Take(Heard{Nothing: true}); c.Says.Screen() != "No string was heard in that." {
		t.Errorf("plucked and not heard: %q", c.Says.Screen())
	}
}

func TestWhatIsNoStrokeIsSaid(t *testing.T) {
	a, _ := building(t)
	if c := a.Take(Heard{Nothing: true}); c.Says.Screen() != "No stroke over all strings was heard." || !c.Again {
		t.Errorf("a string alone, struck: %q", c.Says.Screen())
	}
}

// What was plucked in turn and is not right is plucked once more. After what is right, and where no question was asked, it begins with a
// stroke again.
func TestPluckedOnceMore(t *testing.T) {
	for _, c := range []struct {
		name         string
		whole, right bool
		again        bool
	}{{"a fault", true, false, true}, {"right", true, true, false}, {"a fault in what was only shown", false, false, false}} {
		a, _ := building(t)
		a.whole, a.turn = c.whole, a.all()
		shape := fret.Shape{a.want.Shape[0] + 1, a.want.Shape[1], a.want.Shape[2], a.want.Shape[3]}
		if c.right {
			shape = a.want.Shape
		}
		came := a.Take(heardAs(a, shape))
		if came.Answer != shape.String() || came.Right != c.right || a.InTurn() != c.again || c.again && len(a.turn) != 4 {
			t.Errorf("%s: %s is heard as %q, right %v; in turn again: %v", c.name, shape, came.Answer, came.Right, a.turn)
		}
		if !slices.Equal(came.Shape, shape) || !came.Anew || c.right != (came.Says.Screen() == sayThatIsIt.Screen()) || c.right != came.Amiss.IsZero() {
			t.Errorf("%s: %+v", c.name, came)
		}
	}
}

// An ear counts strings as they are plucked in turn, and perhaps a noise or two of the hand; strokes, notes one after another, and what rings on and crackles
// are not counted.
func TestEarCountsPlucks(t *testing.T) {
	a, on := building(t)
	s := student.New(a.on, on.Voices[0], 1)
	for _, c := range []struct {
		name  string
		turn  []int
		sound []float64
		least int
	}{
		{"in turn", a.all(), s.Turn(a.want.Shape, a.all()), 4},
		{"a stroke", nil, s.Strum(a.want.Shape), 0},
		{"a stroke that rings on", a.all(), append(s.Strum(a.want.Shape)[student.Rate*3/2:], s.Silence(4)...), 0},
	} {
		a.turn = c.turn
		ear, err := NewEar(student.Rate, a.Listens())
		if err != nil {
			t.Fatal(err)
		}
		var got []int
		for block := range slices.Chunk(c.sound, student.Rate/50) {
			for _, h := range ear.Feed(block) {
				if h.Begun > 0 {
					got = append(got, h.Begun)
				}
			}
		}
		if !slices.IsSorted(got) || len(slices.Compact(slices.Clone(got))) != len(got) || len(got) < c.least || c.least == 0 && got != nil || c.least > 0 && got[0] != 1 {
			t.Errorf("%s: plucks are counted as %v, want each once, up to %d", c.name, got, c.least)
		}
	}
}
