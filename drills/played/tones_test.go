package played

import (
	"slices"
	"strings"
	"testing"

	"sparetone/theory/fret"
)

// Each tone of the chord is asked for in turn; a pause goes on to the next, and only if something was plucked. A string belongs to the tone that it
// was plucked for last; what was plucked for none is said after the last tone, and all begins anew.
func TestTonesAreAskedInTurn(t *testing.T) {
	on, asked := asking(t, "shape-tones", "ukulele", 20)
	tried := 0
	for _, q := range asked {
		a := New(q, on, 0).(*tones)
		midi := func(i int) int { return a.shape.Strings[i].Pitch.MIDI() }
		pluck := func(i int) Came { return a.Take(Heard{Note: &Note{MIDI: midi(i)}}) }
		pause := func() Came { return a.Take(Heard{Paused: true}) }
		if strings.Contains(a.shape.Shape.String(), "x") || len(a.asked) != 3 {
			continue
		}
		tried++
		if c := pause(); !c.Says.IsZero() || a.at != 0 {
			t.Fatalf("%s: a pause before anything was plucked: %+v, at %d", a.shape.Shape, c, a.at)
		}
		first := a.Asks().Screen()
		last := len(a.shape.Strings) - 1
		// All strings but the last, and those that sound the same, are plucked as what they are.
		for n, tone := range a.asked {
			for i, s := range a.shape.Strings {
				if s.Interval == tone && midi(i) != midi(last) {
					if c := pluck(i); c.Answer != "" || a.given[i] != tone.DegreeASCII() || !slices.Equal(c.Given, a.given) {
						t.Fatalf("%s: string %d plucked for %v: %+v", a.shape.Shape, i, tone, c)
					}
				}
			}
			if !a.any { // the last string alone is this tone: another is plucked for it by mistake
				pluck(slices.IndexFunc(a.shape.Strings, func(s fret.StringTone) bool { return s.Pitch.MIDI() != midi(last) }))
			}
			c := pause()
			switch {
			case n < len(a.asked)-1:
				if a.at != n+1 || c.Says.Screen() != a.Asks().Screen() || a.any || !slices.Equal(c.Given, a.given) {
					t.Fatalf("%s: after tone %d: %+v", a.shape.Shape, n, c)
				}
			case c.Answer != "" || !strings.Contains(c.Says.Screen(), "for no tone, so once more.") || !strings.HasSuffix(c.Says.Screen(), first):
				t.Fatalf("%s: a string was plucked for no tone: %q, answer %q", a.shape.Shape, c.Says.Screen(), c.Answer)
			}
		}
		if a.at != 0 || a.any || slices.ContainsFunc(a.given, func(g string) bool { return g != "" }) {
			t.Errorf("%s: it does not begin anew: at %d, %v", a.shape.Shape, a.at, a.given)
		}
		// A string that is the second tone is plucked as the root first; then each as what it is. A pause after the last tone is not waited for.
		pluck(slices.IndexFunc(a.shape.Strings, func(s fret.StringTone) bool { return s.Interval == a.asked[1] }))
		var c Came
		for n, tone := range a.asked {
			for i, s := range a.shape.Strings {
				if s.Interval == tone && c.Answer == "" {
					c = pluck(i)
				}
			}
			if n < len(a.asked)-1 {
				pause()
			}
		}
		if !c.Right || !c.Anew || c.Answer != q.Expected().Typed || c.Says.Screen() != "That is it." {
			t.Errorf("%s: plucked as it is: %+v, want %s", a.shape.Shape, c, q.Expected().Typed)
		}
		if c := a.Take(Heard{Note: &Note{MIDI: 20}}); c.Answer != "" || a.any {
			t.Errorf("%s: a pitch that no string sounds: %+v", a.shape.Shape, c)
		}
	}
	if tried == 0 {
		t.Error("no shape was tried")
	}
}

// A muted string is typed as x, and the shape is whole without it.
func TestMutedStringsHaveNoTone(t *testing.T) {
	on, asked := asking(t, "shape-tones", "guitar", 30)
	for _, q := range asked {
		a := New(q, on, 0).(*tones)
		if a.shape.Shape[0] != fret.Muted {
			continue
		}
		var c Came
		for n, tone := range a.asked {
			for _, s := range a.shape.Strings {
				if s.Fret != fret.Muted && s.Interval == tone {
					c = a.Take(Heard{Note: &Note{MIDI: s.Pitch.MIDI()}})
				}
			}
			if n < len(a.asked)-1 {
				a.Take(Heard{Paused: true})
			}
		}
		if !strings.HasPrefix(c.Answer, "x ") || !c.Right {
			t.Errorf("%s: %+v, want %s", a.shape.Shape, c, q.Expected().Typed)
		}
		return
	}
	t.Error("no shape mutes the lowest string")
}

// Where every string was plucked for an earlier tone, the last tone is answered at the pause, so that each string can still be given to it.
func TestAllStringsPluckedAsTheRootAreNoAnswerYet(t *testing.T) {
	on, asked := asking(t, "shape-tones", "ukulele", 20)
	tried := 0
	for _, q := range asked {
		a := New(q, on, 0).(*tones)
		if strings.Contains(a.shape.Shape.String(), "x") || len(a.asked) != 3 {
			continue
		}
		tried++
		pluck := func(tone int) (c Came) {
			for _, s := range a.shape.Strings {
				if tone < 0 || s.Interval == a.asked[tone] {
					if c = a.Take(Heard{Note: &Note{MIDI: s.Pitch.MIDI()}}); c.Answer != "" {
						t.Fatalf("%s: answered %q before the pause", a.shape.Shape, c.Answer)
					}
				}
			}
			return a.Take(Heard{Paused: true})
		}
		pluck(-1)
		pluck(1)
		if c := pluck(2); !c.Right || c.Answer != q.Expected().Typed {
			t.Errorf("%s: %+v, want %s", a.shape.Shape, c, q.Expected().Typed)
		}
	}
	if tried == 0 {
		t.Error("no shape was tried")
	}
}
