package played

import (
	"math"
	"slices"
	"strings"
	"testing"

	"sparetone/drills/neck"
	"sparetone/synth/hear"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// held is an attempt at a shape on an instrument, as it is asked for by a question.
func held(t *testing.T, tuning, shape, chord string) *ShapeAttempt {
	t.Helper()
	on, err := neck.NewInstrument(tuning, 0, "")
	if err != nil {
		t.Fatal(err)
	}
	s, err := fret.ParseShape(shape)
	if err != nil {
		t.Fatal(err)
	}
	c, err := read.Chord(chord)
	if err != nil {
		t.Fatal(err)
	}
	v, err := fret.Voice(on.Tuning, s, c)
	if err != nil {
		t.Fatal(err)
	}
	a := NewShapeAttempt(v, 0)
	a.whole = true
	return a
}

func shapeOf(t *testing.T, typed string) fret.Shape {
	t.Helper()
	s, err := fret.ParseShape(typed)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What else may be played as a whole is listened for once each: what is accepted, what is shown, and the shapes that players are taught; never
// what is expected.
func TestOthersAreListenedFor(t *testing.T) {
	on, asked := asking(t, "swap", "ukulele", 8)
	for _, q := range asked {
		a := New(q, on, 0).(*ShapeAttempt)
		among := a.Listens().Task.Among
		want := append([]fret.Shape{}, Book(on.Tuning)...)
		if q.Shown != nil {
			want = append(want, q.Shown.Shape)
		}
		for _, typed := range q.Accepts {
			want = append(want, shapeOf(t, typed))
		}
		for _, s := range want {
			n := 0
			for _, p := range among {
				if slices.Equal(p, Pitches(on.Tuning, s)) {
					n++
				}
			}
			if expected := slices.Equal(s, a.want.Shape); expected && n != 0 || !expected && n != 1 {
				t.Errorf("%s, for %s: it is listened for %d times", s, a.want.Shape, n)
			}
		}
	}
}

// Where no table says which shapes players are taught, the easiest of plain chords are listened for.
func TestEasyShapesAreListenedFor(t *testing.T) {
	tuning, err := fret.ParseTuning("banjo")
	if err != nil {
		t.Fatal(err)
	}
	if len(fret.Lessons(tuning)) > 0 {
		t.Fatal("the banjo has a table now: take another instrument")
	}
	book := Book(tuning)
	if len(book) <= 12*5 || len(book) > 12*5*easyShapes {
		t.Errorf("%d shapes", len(book))
	}
	for i, s := range book {
		if has(book[:i], s) {
			t.Errorf("%s is there twice", s)
		}
	}
}

// Another chord is named where at least two strings differ and it was heard as a whole; what differs on one string is no other chord.
func TestAnotherChordIsSaid(t *testing.T) {
	for _, c := range []struct {
		shape string
		among int
		part  bool
		want  string
	}{
		{"0232", 0, false, "Another chord: this sounds like G."},
		{"0232", -1, false, ""},
		{"0232", 0, true, ""},
		{"0004", 0, false, ""},
		{"2003", 0, false, ""},                                   // one string
		{"2013", 0, false, "Another chord: this sounds like F."}, // two
	} {
		a := held(t, "ukulele", "0003", "C")
		h := heardAs(a, shapeOf(t, c.shape))
		h.Reading.Among = c.among
		if c.part {
			h.Reading.Strings = h.Reading.Strings[1:]
		}
		got := a.another(*h.Reading, shapeOf(t, c.shape))
		said := ""
		if !got.IsZero() {
			said = got.Screen()
		}
		if said != c.want {
			t.Errorf("%+v: %q", c, said)
		}
	}
}

// A reading is sure if all strings are together, in quiet.
func TestSurely(t *testing.T) {
	four := make([]hear.Heard, 4)
	least := math.Pow(hear.Certain, 4)
	for _, c := range []struct {
		r    hear.Reading
		want bool
	}{
		{hear.Reading{AboveNoise: hear.Quiet, Sure: least, Strings: four}, true},
		{hear.Reading{AboveNoise: hear.Quiet - 0.1, Sure: 1, Strings: four}, false},
		{hear.Reading{AboveNoise: 40, Sure: least - 0.001, Strings: four}, false},
		{hear.Reading{AboveNoise: 40, Sure: least + 0.02, Strings: make([]hear.Heard, 3)}, false},
	} {
		if got := surely(c.r); got != c.want {
			t.Errorf("%+v: %v", c.r, got)
		}
	}
}

// Strings that sound the same as another or octaves away from it are plucked in turn, in their order; silent ones are not.
func TestDoubtfulStrings(t *testing.T) {
	const x = hear.Silent
	a := held(t, "ukulele", "0003", "C")
	for _, c := range []struct {
		pitches, want []int
	}{
		{[]int{67, 60, 64, 69}, nil},
		{[]int{67, 60, 64, 72}, []int{3, 1}},
		{[]int{67, 62, 67, 71}, []int{4, 2}},
		{[]int{x, 60, x, 69}, nil},
		{[]int{84, 60, 64, 69}, []int{4, 3}},
		{[]int{67, 55, 64, 79}, []int{4, 3, 1}},
	} {
		if got := a.doubtful(c.pitches); !slices.Equal(got, c.want) {
			t.Errorf("%v: %v, want %v", c.pitches, got, c.want)
		}
	}
}

// What is amiss on a string may be none where it is in unison with another, or lies octaves away from one, as it is or as it should be.
func TestWhatIsAmissMayBeNone(t *testing.T) {
	const x = hear.Silent
	a := held(t, "ukulele", "0003", "C")
	reading := func(expected, heard []int) hear.Reading {
		r := hear.Reading{AboveNoise: 40, Sure: 1}
		for i := range heard {
			r.Strings = append(r.Strings, hear.Heard{Number: 4 - i, Expected: expected[i], Pitch: heard[i], Sure: 1})
		}
		return r
	}
	for _, c := range []struct {
		name            string
		expected, heard []int
		want            bool
	}{
		{"nothing is amiss", []int{67, 60, 64, 72}, []int{67, 60, 64, 72}, false},
		{"an octave above another is silent", []int{67, 60, 64, 72}, []int{67, 60, 64, x}, true},
		{"a fret up, an octave from none", []int{67, 60, 64, 69}, []int{67, 60, 64, 70}, false},
		{"a fret up, where an octave was expected", []int{67, 60, 64, 72}, []int{67, 60, 64, 73}, true},
		{"an octave where none was expected", []int{67, 60, 64, 71}, []int{67, 60, 64, 72}, true},
		{"silent, and another sounds it", []int{67, 62, 67, 71}, []int{67, 62, x, 71}, true},
		{"silent, and none sounds it: it may be stopped where another sounds, or masks it", []int{67, 60, 64, 69}, []int{67, 60, x, 69}, true},
		{"silent, as it should be", []int{x, 60, 64, 69}, []int{x, 60, 64, 69}, false},
		{"silent, and its octave is silent too", []int{67, 60, 64, 72}, []int{67, x, 64, x}, true},
	} {
		if got := a.anyDoubtful(reading(c.expected, c.heard)); got != c.want {
			t.Errorf("%s: %v", c.name, got)
		}
	}
	r := reading([]int{67, 60, 64, 69}, []int{67, 60, 64, 70})
	r.Strings[3].Unison = 4
	if !a.anyDoubtful(r) {
		t.Error("in unison with another, and not doubted")
	}
}

// What is not sure is plucked in turn, and after two times so it is said how else to answer.
func TestNotSureIsPluckedTwice(t *testing.T) {
	a := held(t, "ukulele", "0232", "G")
	h := heardAs(a, a.want.Shape)
	h.Reading.Sure, h.Reading.Verdict = 0.5, hear.Unsure
	if c := a.Take(h); !c.Anew || c.Answer != "" || !slices.Equal(a.turn, []int{4, 3, 2, 1}) || !strings.HasPrefix(c.Says.Screen(), "Not sure. Pluck") {
		t.Fatalf("a stroke that is not sure: %+v, %v", c, a.turn)
	}
	for n, want := range []string{"Not sure. Pluck", "Still not sure."} {
		h := heardAs(a, a.want.Shape)
		h.Reading.Strings[2].Sure = hear.Certain - 0.01
		if c := a.Take(h); c.Answer != "" || !strings.HasPrefix(c.Says.Screen(), want) {
			t.Errorf("not sure for the %d. time: %q", n+1, c.Says.Screen())
		}
	}
	if c := a.Take(heardAs(a, a.want.Shape)); c.Answer != "0232" || !c.Right || a.tries != 0 {
		t.Errorf("then surely: %+v, after %d tries", c, a.tries)
	}
}

// A stroke that sounds right in which strings double another is not enough for a question: those are plucked, and what the stroke told of the others
// stands.
func TestDoubledStringsArePlucked(t *testing.T) {
	a := held(t, "ukulele", "0003", "C") // C4 and C5
	c := a.Take(heardAs(a, a.want.Shape))
	if c.Answer != "" || !slices.Equal(a.turn, []int{3, 1}) || !c.Anew || !strings.Contains(c.Says.Screen(), "cannot be told apart") {
		t.Fatalf("a stroke: %+v, then %v", c, a.turn)
	}
	if task := a.Listens().Task; len(task.Strings) != 2 || task.Among != nil || !slices.Equal(task.Expect, []int{60, 72}) {
		t.Errorf("it listens for %+v", task)
	}
	if c := a.Take(heardAs(a, shapeOf(t, "0002"))); c.Answer != "0002" || c.Right || c.Amiss.Screen() != "The A string sounds B, not C." {
		t.Errorf("a fret low: %+v, amiss %q", c, c.Amiss.Screen())
	}
	shown := held(t, "ukulele", "0003", "C")
	shown.whole = false
	if c := shown.Take(heardAs(shown, shown.want.Shape)); c.Answer != "0003" || !c.Right {
		t.Errorf("where it was only shown: %+v", c)
	}
}

// Which strings are amiss is said of each.
func TestStringsAmissAreSaid(t *testing.T) {
	for shape, want := range map[string]string{
		"x32010": "",
		"xx2010": "The A string is silent.",
		"032010": "The low E string sounds E and should be silent.",
		"x32011": "The high E string sounds F, not E.",
	} {
		a := held(t, "guitar", "x32010", "C")
		got := ""
		if s := shapeOf(t, shape); !slices.Equal(s, a.want.Shape) {
			got = a.amiss(s).Screen()
		}
		if got != want {
			t.Errorf("%s: %q, want %q", shape, got, want)
		}
	}
}

// A stroke is no answer where what is amiss may be none, nor where strings double others in what was heard, nor where it would only count as right
// by another shape that is accepted: all strings are plucked.
func TestAStrokeThatMayBeMisheardIsPlucked(t *testing.T) {
	for _, c := range []struct {
		name, heard string
		accepted    bool
		plucked     bool
	}{
		{"an octave that is silent", "000x", false, true},
		{"a fret up beside an octave", "0013", false, true},
		{"accepted, and it may be misheard", "000x", true, true},
		{"two frets amiss, no octave", "0212", false, false},
	} {
		a := held(t, "ukulele", "0003", "C")
		if c.accepted {
			a.right = func(fret.Shape) bool { return true }
		}
		came := a.Take(heardAs(a, shapeOf(t, c.heard)))
		if got := came.Answer == "" && slices.Equal(a.turn, []int{4, 3, 2, 1}); got != c.plucked {
			t.Errorf("%s: answer %q, then %v are plucked", c.name, came.Answer, a.turn)
		}
	}
}

// Where more sounded than the instrument's strings, a stroke is no answer, right or not, and what was plucked is plucked again.
func TestWhatIsForeignIsNoAnswer(t *testing.T) {
	for _, shape := range []string{"0003", "0212"} {
		a := held(t, "ukulele", "0003", "C")
		foreign := func() Heard {
			h := heardAs(a, shapeOf(t, shape))
			h.Reading.Foreign = true
			return h
		}
		if came := a.Take(foreign()); came.Answer != "" || !slices.Equal(a.turn, []int{4, 3, 2, 1}) {
			t.Errorf("%s struck: answer %q, then %v are plucked", shape, came.Answer, a.turn)
		}
		if came := a.Take(foreign()); came.Answer != "" || a.turn == nil {
			t.Errorf("%s plucked: answer %q, then %v are plucked", shape, came.Answer, a.turn)
		}
	}
}

// The pitches of a shape may be held in another way: as a player's hand reaches, on other strings. Strings that are silent stay so.
func TestShapesThatAreHeldOtherwise(t *testing.T) {
	for _, c := range []struct {
		tuning, shape string
		want          bool
	}{
		{"ukulele", "0002", false},
		{"ukulele", "3332", true}, // as 4331
		{"ukulele", "2802", true}, // as 2442; no hand holds what was heard
		{"ukulele", "7002", true}, // as 4005
		{"baritone", "x201", false},
		{"guitar", "xx0232", false},
	} {
		a := held(t, c.tuning, map[string]string{"ukulele": "0003", "baritone": "2010", "guitar": "x32010"}[c.tuning], "C")
		if got := a.heldOtherwise(shapeOf(t, c.shape)); got != c.want {
			t.Errorf("%s on %s: %v", c.shape, c.tuning, got)
		}
	}
}

// A finger slips by two frets at the most, and one at a time.
func TestSlipsOfAFinger(t *testing.T) {
	a := held(t, "ukulele", "0003", "C")
	for shape, want := range map[string]bool{"0003": false, "0002": false, "0005": false, "0001": false, "0006": true, "0000": true, "3003": true, "0203": false, "0013": false, "0014": true} {
		if got := a.farOff(shapeOf(t, shape)); got != want {
			t.Errorf("%s: %v", shape, got)
		}
	}
}
