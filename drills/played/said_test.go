package played

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"sparetone/drills/neck"
	"sparetone/drills/played/student"
	"sparetone/synth/hear"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// A string that sounds another tone of the chord is told by the name that it has in the chord.
func TestWhatIsAmissIsSpelledAsInTheChord(t *testing.T) {
	for _, row := range []struct{ chord, shape, played, says string }{
		{"Cm", "0333", "0 3 11 3", "E♭"},
		{"A", "2100", "6100", "C♯"},
		{"Db", "1114", "6114", "D♭"},
		{"C", "0003", "0013", "F"}, // none of the chord
	} {
		if got := held(t, "ukulele", row.shape, row.chord).amiss(shapeOf(t, row.played)).Screen(); !strings.Contains(got, " sounds "+row.says+", not ") {
			t.Errorf("%s for %s in %s: %q, want %s", row.played, row.shape, row.chord, got, row.says)
		}
	}
}

// It says what is to be played now: a stroke, some strings in turn, or all of them.
func TestWhatIsToBePlayedIsSaid(t *testing.T) {
	a := held(t, "ukulele", "0003", "C")
	for _, row := range []struct {
		turn []int
		want string
	}{
		{nil, sayStrum.Screen()},
		{[]int{4, 2}, sayPluckThese(a.on, []int{4, 2}).Screen()},
		{a.all(), sayPluckAll(a.on).Screen()},
	} {
		if a.turn = row.turn; a.Asks().Screen() != row.want {
			t.Errorf("strings %v in turn: %q, want %q", row.turn, a.Asks().Screen(), row.want)
		}
	}
}

// Where no string sounded there is no shape, and what was asked for stands.
func TestSilenceIsNoShape(t *testing.T) {
	a := held(t, "ukulele", "0003", "C")
	a.turn = a.all()
	r := hear.Reading{AboveNoise: 40, Sure: 1, Among: -1}
	for _, number := range a.turn {
		r.Strings = append(r.Strings, hear.Heard{Number: number, Pitch: hear.Silent, Sure: 1})
	}
	if c := a.Take(Heard{Reading: &r}); c.Answer != "" || !c.Again || c.Says.Screen() != sayNothing.Screen() || !a.InTurn() {
		t.Errorf("%+v", c)
	}
}

// The intervals that two notes make are named by how far they lie apart, up to two octaves.
func TestIntervalsByTheirSemitones(t *testing.T) {
	const want = "P1 m2 M2 m3 M3 P4 A4 P5 m6 M6 m7 M7 P8 m9 M9 m10 M10 P11 A11 P12 m13 M13 m14 M14 P15"
	var names []string
	for n, i := range intervals {
		if names = append(names, i.String()); int(i.Semitones) != n {
			t.Errorf("%s is %d semitones wide, and stands at %d", i, i.Semitones, n)
		}
	}
	if got := strings.Join(names, " "); got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// Of notes that are wrong it is not said that they are it. A pause between notes and a noise take nothing away.
func TestWrongNotesAreNotPraised(t *testing.T) {
	for _, drill := range []string{"interval-ear", "spell"} {
		on, asked := asking(t, drill, "ukulele", 10)
		wrong, right := 0, 0
		rng := rand.New(rand.NewPCG(4, 4))
		for _, q := range asked {
			a := New(q, on, 0)
			for range 12 {
				if c := a.Take(Heard{Paused: true}); c.Answer != "" || !c.Says.IsZero() {
					t.Fatalf("%s: a pause is %+v", drill, c)
				}
				if c := a.Take(Heard{Noisy: true}); c.Answer != "" || !c.Again {
					t.Fatalf("%s: noise is %+v", drill, c)
				}
				c := a.Take(Heard{Note: &Note{MIDI: 60 + rng.IntN(13)}})
				switch {
				case c.Answer == "":
				case !c.Anew:
					t.Errorf("%s: after %s nothing else is listened for", drill, c.Answer)
				case c.Right:
					right++
				default:
					wrong++
				}
				if c.Answer != "" && c.Right != (c.Says.Screen() == sayThatIsIt.Screen()) {
					t.Errorf("%s: of %q, right %v, it says %q", drill, c.Answer, c.Right, c.Says.Screen())
				}
			}
		}
		if wrong == 0 {
			t.Errorf("%s: nothing wrong was played, %d right", drill, right)
		}
	}
}

// Of a shape that leaves tones of its chord out no more is asked for than what sounds.
func TestTonesThatSoundAreAskedFor(t *testing.T) {
	on, asked := asking(t, "shape-tones", "ukulele", 1)
	kind, _ := theory.KindByID("dominant-ninth")
	c := theory.NewChord(theory.Note{}, kind)
	shown, err := fret.Voice(on.Tuning, fret.Shape{0, 2, 0, 1}, c)
	if err != nil {
		t.Fatal(err)
	}
	q := *asked[0]
	q.Shown = &shown
	var got []string
	for _, tone := range newTones(&q, 0).(*tones).asked {
		got = append(got, tone.String())
	}
	if want := []string{"M3", "P5", "m7", "M9"}; !slices.Equal(got, want) {
		t.Errorf("of %s %v, want %v: its root does not sound", shown.Shape, got, want)
	}
}

// Strings are listened for from their first fret on, and by the shapes that players are taught, each once.
func TestWhatIsListenedFor(t *testing.T) {
	for _, name := range []string{"ukulele", "banjo"} { // the banjo has a short string, and no table of shapes
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range Strings(on.Tuning) {
			open, last := on.Tuning.MIDI(i, 0), on.Tuning.MIDI(i, on.Tuning.Frets)
			if s.Open != open || s.Number != on.Tuning.StringNumber(i) || s.May[0] != on.Tuning.MIDI(i, on.Tuning.Start(i)) || s.May[len(s.May)-1] != last {
				t.Errorf("%s: string %d is %+v, want %d to %d", name, on.Tuning.StringNumber(i), s, open, last)
			}
		}
		book := Book(on.Tuning)
		taught := 0
		for _, l := range fret.Lessons(on.Tuning) {
			for _, s := range l.Shapes {
				if taught++; !has(book, s) {
					t.Errorf("%s: %s is taught, and not listened for", name, s)
				}
			}
		}
		if len(book) == 0 || taught > 0 && len(book) > taught {
			t.Errorf("%s: %d shapes of %d that are taught", name, len(book), taught)
		}
		for n, s := range book {
			if has(book[:n], s) {
				t.Errorf("%s: %s stands there twice", name, s)
			}
		}
	}
}

// One string, struck for all to hear where a stroke over all of them is listened for, is told as none.
func TestOneStringIsNoStroke(t *testing.T) {
	a := held(t, "ukulele", "0003", "C")
	voice, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	s := student.New(a.on, voice.Voices[0], 1)
	ear, err := NewEar(student.Rate, a.Listens())
	if err != nil {
		t.Fatal(err)
	}
	var none, read, heard int
	for block := range slices.Chunk(append(s.Turn(a.want.Shape, []int{1}), s.Silence(6)...), student.Rate/50) {
		heard += len(block)
		for _, h := range ear.Feed(block) {
			switch {
			case h.Nothing:
				none++
				if heard < student.Rate { // others may still follow
					t.Errorf("it is told after %d samples of %d a second", heard, student.Rate)
				}
			case h.Reading != nil:
				read++
			}
		}
	}
	if none != 1 || read != 0 {
		t.Errorf("told as none %d times, read %d times", none, read)
	}
}
