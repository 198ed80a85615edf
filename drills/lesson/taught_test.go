package lesson

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/song"
	"sparetone/theory/song/arrange"
)

// On another instrument a lesson starts from the shapes that players are taught there. Where none of them becomes the colour by one string, one
// becomes another that the lesson names, and it is said; the colour itself stays among the chords.
func TestALessonStartsFromTaughtShapes(t *testing.T) {
	l, err := Read("x.toml", strings.NewReader("name = \"x\"\ntuning = \"ukulele\"\nkey = \"C\"\nchords = [\"C\", \"C6\", \"F\", \"Fadd9\"]\nshapes = [\"0003>0000\", \"2010>0010\"]\n"), nil)
	if err != nil {
		t.Fatal(err)
	}
	for tuning, want := range map[string]string{
		"guitar":   "x32010>x32030 Cadd9, xx3211>xx3213 Fadd9",
		"baritone": "2010>0010 Cadd9, 3211>3213 Fadd9",
		"mandolin": "0230>0030 Cadd9, 2331>2333 Fadd9",
	} {
		tn := tuningOf(t, tuning)
		taught := l.On(instrument(tn))
		var got []string
		for _, m := range taught.Hold.Moves {
			got = append(got, m.From.String()+">"+m.To.String()+" "+m.Coloured.Symbol())
			if !slices.ContainsFunc(fret.Taught(tn, m.Plain), func(s fret.Shape) bool { return slices.Equal(s, m.From) }) {
				t.Errorf("%s: %s is not what players are taught as %s", tuning, m.From, m.Plain)
			}
		}
		if all := strings.Join(got, ", "); all != want {
			t.Errorf("%s: %s", tuning, all)
		}
		if said := taught.Differs[0].Screen(); !strings.Contains(said, "here one string makes no C6 of a shape of C that players are taught, so it is C and Cadd9: ") {
			t.Errorf("%s: %s", tuning, said)
		}
		for chord, held := range map[string]string{"C6": "", "Cadd9": taught.Hold.Moves[0].To.String()} {
			if !slices.ContainsFunc(taught.Hold.Chords, func(h neck.HeldChord) bool {
				return h.Symbol() == chord && (held == "" || len(h.Shapes) == 1 && h.Shapes[0].String() == held)
			}) {
				t.Errorf("%s: %s is not held as %q", tuning, chord, held)
			}
		}
	}
}

// The colour that is wanted goes before others, then what is named, then what players are taught, then what asks the least of the hand.
func TestBestMove(t *testing.T) {
	none, all := func(*theory.Kind) bool { return false }, func(k *theory.Kind) bool { return k.ID == "added-ninth" }
	for _, c := range []struct {
		plain, coloured string
		named           func(*theory.Kind) bool
		want            string
	}{
		{"C", "Cadd9", none, "x32010>x32030"}, // and not x30010, which nobody teaches
		{"C", "C6", none, "x32010>x32000"},    // Cmaj7, which is taught
		{"C", "C6", all, "x32010>x32030"},
		{"Am", "Am7", all, "x02210>x02010"},
	} {
		of := func(symbol string) theory.Chord {
			c, err := read.Chord(symbol)
			if err != nil {
				t.Fatal(err)
			}
			return c
		}
		m, ok := instrument(tuningOf(t, "guitar")).BestMove(of(c.plain), of(c.coloured), c.named)
		if got := m.From.String() + ">" + m.To.String(); !ok || got != c.want {
			t.Errorf("%s to %s: %s, want %s", c.plain, c.coloured, got, c.want)
		}
	}
}

// Of a chord that stands over another note too a lesson takes the shapes over its own root, and of its colours the one that the song has.
func TestALessonOfASongTakesWhatItPlays(t *testing.T) {
	a := arrangedOn(t, "ukulele", "key: Bb\n| Bb | F/A | Gm | F |")
	text, err := OfSong(a, "x", "")
	if err != nil {
		t.Fatal(err)
	}
	if other := arrangedOn(t, "ukulele", "key: Gm\n| Gm | Cm | D7 | Gm |\n| Eb | Bb | Cm D7 | Gm |"); !slices.Equal(other.Places[4].Path.Colour.Shape, other.Places[4].Colours[0].Shape) {
		text, err := OfSong(other, "x", "")
		if c := other.Places[4].Path.Colour; err != nil || !strings.Contains(text, `"`+c.From.String()+">"+c.Shape.String()+`"`) {
			t.Errorf("%s is not in %s, %v", c.Shape, text, err)
		}
	} else {
		t.Error("the song has the first of the colours, which proves nothing")
	}
	last := a.Places[len(a.Places)-1]
	want := `"` + last.Path.Colour.From.String() + ">" + last.Path.Shape.String() + `"`
	if _, shapes, _ := strings.Cut(text, "shapes = "); !strings.Contains(shapes, want) {
		t.Errorf("%s is not in %s", want, shapes)
	}
}

// arrangedOn arranges a chart on an instrument, as rich as lessons have it.
func arrangedOn(t *testing.T, on, chart string) arrange.Arrangement {
	t.Helper()
	s, err := song.Read(chart)
	if err != nil {
		t.Fatal(err)
	}
	a, err := arrange.Arrange(s, arrange.Wishes{Rich: rich, Tuning: tuningOf(t, on)})
	if err != nil {
		t.Fatal(err)
	}
	return a
}
