package bench

import (
	"slices"
	"strings"
	"testing"

	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// What is said of a chord to take to the instrument is true on six instruments: the shapes are what they are called, just one string
// moves and one finger with it, and the note that is said to come is the one that comes.
func TestTakeawaysAreTrue(t *testing.T) {
	for _, name := range []string{"ukulele", "baritone", "guitar", "mandolin", "banjo", "ukulele-d"} {
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		all := Takeaways(on, func(string) bool { return true })
		if len(all) < 7 {
			t.Errorf("%s: %d chords, not one for each day of a week", name, len(all))
		}
		for _, a := range all {
			s := a.Swap
			if s == nil {
				t.Fatalf("%s: nothing colours %v", name, a.Plain.Chord)
			}
			for _, v := range []fret.Voicing{a.Plain, a.Coloured} {
				named := slices.ContainsFunc(fret.Names(on.Tuning, v.Shape, theory.Context{All: true}), func(n theory.Naming) bool {
					return n.Chord.Kind == v.Chord.Kind && n.Chord.Root.Same(v.Chord.Root)
				})
				if !named {
					t.Errorf("%s: %v is no %v", name, v.Shape, v.Chord)
				}
			}
			moved, fingers := 0, a.Plain.Fingers()
			for i := range a.Plain.Shape {
				if a.Plain.Shape[i] != a.Coloured.Shape[i] {
					moved++
					if n := fingers[i]; n > 0 && len(slices.DeleteFunc(slices.Clone(fingers), func(f int) bool { return f != n })) > 1 {
						t.Errorf("%s: %v: the finger that moves stops other strings as well", name, a.Plain.Shape)
					}
				}
			}
			if moved != 1 {
				t.Errorf("%s: %d strings move from %v to %v", name, moved, a.Plain.Shape, a.Coloured.Shape)
			}
			before, after := a.Plain.Strings[len(fingers)-s.String], a.Coloured.Strings[len(fingers)-s.String]
			stays := slices.ContainsFunc(a.Coloured.Pitches(), func(p theory.Pitch) bool { return p.Class() == before.Pitch.Class() })
			if stays != before.Doubled {
				t.Errorf("%s: %v to %v: another %v stays is %v", name, a.Plain.Shape, a.Coloured.Shape, before.Pitch.Note, stays)
			}
			if after.Interval != s.Adds || after.Foreign {
				t.Errorf("%s: %v to %v adds %v, and %v is said", name, a.Plain.Shape, a.Coloured.Shape, s.Adds, after.Interval)
			}
		}
	}
}

func TestTakeawaysInWords(t *testing.T) {
	on, err := neck.NewInstrument("ukulele", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	only := func(kinds ...string) []Takeaway {
		return Takeaways(on, func(kind string) bool { return slices.Contains(kinds, kind) })
	}
	told := func(all []Takeaway, chord string) string {
		for _, a := range all {
			if a.Chord().String() == chord {
				text := ""
				for _, l := range a.Told() {
					text += l.Screen() + " "
				}
				return text
			}
		}
		return ""
	}
	for _, c := range []struct {
		kinds []string
		chord string
		want  string
	}{
		{[]string{"added-ninth"}, "Fadd9", "Hold F, 2010, and take the finger off the g string: 0010. One A becomes G, the ninth; another A stays. "},
		{[]string{"dominant"}, "C7", "Hold C, 0003, and move the finger on the A string from fret 3 to fret 1: 0001. One C becomes B♭, the minor seventh; another C stays. "},
		{[]string{"minor-added-ninth"}, "Am(add9)", "Hold Am, 2000, and put a finger on the A string at fret 2: 2002. One A becomes B, the ninth; another A stays. "},
		{[]string{"suspended-fourth"}, "Asus4", "Hold A, 2100, and move the finger on the C string from fret 1 to fret 2: 2200. C♯, the major third, becomes D, the fourth. "},
		{[]string{"major"}, "F", "Hold F, 2010, and play it slowly, string by string, and then all at once. "},
		{[]string{"major", "dominant"}, "F", ""}, // a colour comes before a plain chord
		{nil, "F", ""},
	} {
		if got := told(only(c.kinds...), c.chord); got != c.want {
			t.Errorf("%v: %q, want %q", c.kinds, got, c.want)
		}
	}
	guitar, err := neck.NewInstrument("guitar", 0, "")
	if err != nil {
		t.Fatal(err)
	}
	sevenths := Takeaways(guitar, func(kind string) bool { return kind == "dominant" })
	if got := told(sevenths, "E7"); !strings.HasSuffix(got, "One E becomes D, the minor seventh; 2 others stay. ") {
		t.Errorf("on the guitar E7 is told as %q", got)
	}
	if sounds := only("added-ninth")[0].Sounds(); len(sounds) != 2 || sounds[0].Label.Screen() == sounds[1].Label.Screen() {
		t.Errorf("it sounds as %v", sounds)
	}
}
