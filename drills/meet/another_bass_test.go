package meet

import (
	"slices"
	"testing"

	"sparetone/drills/catalogue"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/theory"
	"sparetone/theory/fret"
)

// withBass are instruments with a bass, tuned in fourths, in fifths and open, of four strings to seven.
var withBass = []string{"guitar", "guitar-drop-d", "guitar-dadgad", "guitar-open-g", "mandocello", "bass", "B1 E2 A2 D3 G3 B3 E4"}

// Chords over another note are met in the drills that ask for them: one chord over its root, and over its third, told by the lowest string
// alone, the same notes else; and the sentence says what is in the bass.
func TestAnotherBassIsMet(t *testing.T) {
	for _, name := range withBass {
		on, err := neck.NewInstrument(name, 0, "")
		if err != nil {
			t.Fatal(err)
		}
		met := 0
		for _, d := range catalogue.All() {
			if !AsksAnotherBass(d, on) {
				continue
			}
			met++
			m, err := New(d, AnotherBass, on)
			if err != nil {
				t.Errorf("%s, %s: %v", name, d.About().ID, err)
				continue
			}
			if m.Drill != d.About().ID || m.Target != AnotherBass || !m.Name.Equal(AnotherBassName) || m.Like.IsZero() || m.Voice != on.Voices[0] || m.Ears != d.About().Ears || m.Beside != nil || len(m.Heard) != 2 {
				t.Fatalf("%s: %+v is no whole meeting", name, m)
			}
			rooted, over := m.Heard[0].Shape, m.Heard[1].Shape
			isShape(t, m.Heard[0])
			isShape(t, m.Heard[1])
			tone := over.Chord.Root.To(over.Chord.Bass)
			if neck.Lowest(on.Tuning, rooted.Shape)%12 != rooted.Chord.Root.Class() || neck.Lowest(on.Tuning, over.Shape)%12 != over.Chord.Bass.Class() || tone.Number != 3 {
				t.Errorf("%s: %s as %s, and %s as %s", name, rooted.Chord, rooted.Shape, over.Chord, over.Shape)
			}
			if neck.Sounding(over.Shape) < 4 || len(rooted.Missing()) > 0 || len(over.Missing()) > 0 || rooted.Chord.Kind != over.Chord.Kind {
				t.Errorf("%s: %s and %s", name, rooted.Shape, over.Shape)
			}
			var moved []int
			for i := range over.Shape {
				if over.Shape[i] != rooted.Shape[i] {
					moved = append(moved, i)
				}
			}
			if len(moved) != 1 || over.Shape[moved[0]] == fret.Muted || on.Tuning.MIDI(moved[0], over.Shape[moved[0]]) != neck.Lowest(on.Tuning, over.Shape) {
				t.Errorf("%s: from %s to %s strings %v move", name, rooted.Shape, over.Shape, moved)
			}
			looks := m.Looks()
			if number := on.Tuning.StringNumber(moved[0]); looks[0].Mark != number || looks[1].Mark != number || m.First() != 1 {
				t.Errorf("%s: strings %d and %d are marked, look %d shows first", name, looks[0].Mark, looks[1].Mark, m.First())
			}
			if got, want := m.Facts[0].Screen(), " with the major third in the bass."; len(m.Facts) != 1 || len(got) < len(want) || got[len(got)-len(want):] != want {
				t.Errorf("%s: %q", name, m.Facts)
			}
			if answer := map[string]string{"chord-ear": "major", "shape-name": rooted.Chord.String()}[m.Drill]; m.Answer.Screen() != answer {
				t.Errorf("%s %s: the answer is %q, not %q", name, m.Drill, m.Answer, answer)
			}
			again, _ := New(d, AnotherBass, on)
			if !slices.EqualFunc(m.Heard, again.Heard, sameNotes) {
				t.Errorf("%s: it is met otherwise again", name)
			}
		}
		if met != 4 {
			t.Errorf("%s: it is met in %d drills", name, met)
		}
	}
}

// On a guitar it is C as everybody holds it, and the open string below it. Where there is no bass it is not met.
func TestAnotherBassOnAGuitar(t *testing.T) {
	d, _ := catalogue.ByID("build")
	on, _ := neck.NewInstrument("guitar", 0, "")
	m, err := New(d, AnotherBass, on)
	if err != nil || m.Heard[0].Shape.Shape.String() != "x32010" || m.Heard[1].Shape.Shape.String() != "032010" {
		t.Errorf("it is met as %v, %v", m.Heard, err)
	}
	uke, _ := neck.NewInstrument("ukulele", 0, "")
	held := on.HeldTo(neck.Hold{Chords: []neck.HeldChord{{Chord: theory.NewChord(theory.Note{Letter: theory.C}, chord.Kind("major"))}}})
	spells, _ := catalogue.ByID("spell")
	for _, one := range []struct {
		asks bool
		want bool
	}{{AsksAnotherBass(d, on), true}, {AsksAnotherBass(d, uke), false}, {AsksAnotherBass(d, held), false}, {AsksAnotherBass(spells, on), false}} {
		if one.asks != one.want {
			t.Errorf("it is asked: %v, want %v", one.asks, one.want)
		}
	}
}
