package played

import (
	"fmt"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"sparetone/drills/neck"
	"sparetone/drills/played/student"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// struckAs is what one stroke over a shape is heard as where another is expected; nil if the strings are to be plucked.
func struckAs(t *testing.T, s *student.Student, on *neck.Instrument, expected, struck fret.Shape) fret.Shape {
	t.Helper()
	want, err := fret.Voice(on.Tuning, expected, fret.Names(on.Tuning, expected, theory.Context{})[0].Chord)
	if err != nil {
		t.Fatal(err)
	}
	a := NewShapeAttempt(want, 0)
	a.whole = true
	came, _ := plays(t, a, func() []float64 { return s.Strum(struck) }, 1)
	return came.Shape
}

// One stroke does not tell which string sounds what: of a shape that is neither expected nor known the strings are plucked, rather than called what they
// are not. A string that is silent to it may sound what another sounds, or what another masks.
func TestAStrokeIsHeardAsNoOtherShape(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	s := student.New(on.Tuning, on.Voices[0], 1)
	for _, c := range []struct{ expected, struck, as string }{
		{"2010", "0013", ""}, // masked by the C string
		{"0101", "0131", ""}, // in unison with the g string
		{"1333", "4331", ""}, // as 3332
		{"1100", "1400", ""},
		{"2102", "2442", ""},
		{"0002", "0001", "0001"},
		{"0203", "0202", "0202"},
	} {
		got := struckAs(t, s, on, shapeOf(t, c.expected), shapeOf(t, c.struck))
		if got == nil && c.as == "" || got != nil && got.String() == c.as {
			continue
		}
		t.Errorf("%s struck for %s is heard as %s, want %q", c.struck, c.expected, got, c.as)
	}
}

// TestStudyOfAnyStroke prints how often one stroke over a shape of the book with a finger or two anywhere else is heard as what it is, and as what it is not.
func TestStudyOfAnyStroke(t *testing.T) {
	if os.Getenv("SPARETONE_STUDY") == "" {
		t.Skip("a study of a minute: SPARETONE_STUDY=1")
	}
	for _, name := range []string{"ukulele", "guitar"} {
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		r := rand.New(rand.NewPCG(5, 5))
		s := student.New(on.Tuning, on.Voices[0], 1)
		book := Book(on.Tuning)
		trials, heard := 0, 0
		var wrong []string
		for trials < 300 {
			expected := book[r.IntN(len(book))]
			struck := slices.Clone(expected)
			for range 1 + r.IntN(2) {
				if i := r.IntN(len(struck)); expected[i] != fret.Muted {
					struck[i] = r.IntN(6)
				}
			}
			if slices.Equal(struck, expected) {
				continue
			}
			trials++
			if got := struckAs(t, s, on, expected, struck); got != nil {
				if heard++; !slices.Equal(got, struck) {
					wrong = append(wrong, fmt.Sprintf("%s as %s", struck, got))
				}
			}
		}
		t.Logf("%s: %d strokes, %d heard as a shape, of these %d as another: %s", name, trials, heard, len(wrong), strings.Join(wrong, ", "))
		if len(wrong) > 0 {
			t.Errorf("%s: strokes are called what they are not", name)
		}
	}
}

// The same wrong shape struck twice is no answer by the second stroke, for what is misheard once is misheard again: its strings are plucked, and are
// the answer. Another wrong shape is one by itself, and so is what was only shown.
func TestStruckTheSameTwice(t *testing.T) {
	a := held(t, "ukulele", "0003", "C")
	first := a.Take(heardAs(a, shapeOf(t, "0212")))
	if first.Answer != "0212" || first.InTurn || a.InTurn() {
		t.Fatalf("struck once: %+v", first)
	}
	if other := a.Take(heardAs(a, shapeOf(t, "0211"))); other.Answer != "0211" || a.InTurn() {
		t.Errorf("another, struck once: %+v", other)
	}
	again := a.Take(heardAs(a, shapeOf(t, "0211")))
	if want := "I heard the same once more. Pluck the strings one after another, from g to A."; again.Answer != "" || !again.Anew || again.Says.Screen() != want || !slices.Equal(a.turn, []int{4, 3, 2, 1}) {
		t.Errorf("struck twice: %+v, %q, then %v are plucked", again, again.Says.Screen(), a.turn)
	}
	if plucked := a.Take(heardAs(a, shapeOf(t, "0211"))); plucked.Answer != "0211" || !plucked.InTurn {
		t.Errorf("plucked: %+v", plucked)
	}
	shown := held(t, "ukulele", "0003", "C")
	shown.whole = false
	for range 2 {
		if c := shown.Take(heardAs(shown, shapeOf(t, "0212"))); c.Answer != "0212" || shown.InTurn() {
			t.Errorf("only shown: %+v", c)
		}
	}
}

// A right shape is said to be heard in turn where its strings were plucked.
func TestRightShapesHeardInTurn(t *testing.T) {
	for _, turn := range []bool{false, true} {
		a := held(t, "ukulele", "0002", "Cmaj7")
		if turn {
			a.turn = a.all()
		}
		if c := a.Take(heardAs(a, a.want.Shape)); !c.Right && turn || c.InTurn != (turn && c.Answer != "") {
			t.Errorf("in turn %v: %+v", turn, c)
		}
	}
}
