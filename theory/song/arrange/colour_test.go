package arrange

import (
	"fmt"
	"slices"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

func chord(t testing.TB, symbol string) theory.Chord {
	t.Helper()
	c, err := read.Chord(symbol)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func shape(t testing.TB, frets string) fret.Shape {
	t.Helper()
	s, err := fret.ParseShape(frets)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func key(t testing.TB, name string) theory.Key {
	t.Helper()
	k, err := read.Key(name)
	if err != nil {
		t.Fatal(err)
	}
	return k
}

func tuning(t testing.TB, name string) *fret.Tuning {
	t.Helper()
	on, err := fret.ParseTuning(name)
	if err != nil {
		t.Fatal(err)
	}
	return on
}

// The coloured shapes that players take on a ukulele are offered for their plain chords in a key that holds them. Common
// practice, no source. 0005 and 0252 ask more of the hand than two more than 0003 and 0232, and are marked so.
func TestColoursThatPlayersTake(t *testing.T) {
	uke := tuning(t, "ukulele")
	for _, row := range []struct {
		key, plain, of, colour, is string
		within                     int // the first so many
		harder                     bool
	}{
		{"C", "0003", "C", "0002", "Cmaj7", 3, false},
		{"F", "0003", "C", "0001", "C7", 3, false},
		{"C", "0003", "C", "0203", "Cadd9", 4, false},
		{"C", "0003", "C", "0005", "Cadd9", mostColours, true},
		{"C", "2010", "F", "0010", "Fadd9", 1, false},
		{"G", "0232", "G", "0252", "Gadd9", mostColours, true},
		{"G", "0432", "Em", "0422", "Em(add9)", 4, false},
		{"D", "2220", "D", "0220", "Dadd4", 3, false},
	} {
		all := Colours(uke, chord(t, row.of), key(t, row.key), shape(t, row.plain), nil)
		at := slices.IndexFunc(all, func(c Colour) bool { return c.Shape.String() == row.colour })
		if at < 0 || at >= row.within || all[at].Chord.Symbol() != row.is || all[at].Harder != row.harder {
			t.Errorf("%s in %s: %s is number %d of\n%s", row.of, row.key, row.colour, at+1, list(all))
		}
	}
}

func list(all []Colour) (out string) {
	for _, c := range all {
		out += fmt.Sprintf("%s %s from %s, %v for %v, effort %.2f, lost %v, harder %v, %v, rubs %+v, leads %v\n",
			c.Shape, c.Chord, c.From, c.Adds, c.GivesUp, c.Effort, c.Lost, c.Harder, c.Standing, c.Rubs, c.Leads)
	}
	return out
}

func TestFourthOfDComesBeforeItsNinth(t *testing.T) {
	all := Colours(tuning(t, "ukulele"), chord(t, "D"), key(t, "D"), shape(t, "2220"), nil)
	first := func(tone theory.Interval) int {
		return slices.IndexFunc(all, func(c Colour) bool { return c.Adds == tone })
	}
	fourth, ninth := first(theory.PerfectFourth), first(theory.MajorNinth)
	if fourth < 0 || ninth >= 0 && ninth < fourth || all[fourth].Shape.String() != "0220" || !all[fourth].Rubbing() {
		t.Errorf("the fourth is number %d and the ninth number %d of\n%s", fourth+1, ninth+1, list(all))
	}
}

// Whatever is offered is what it says: the naming engine has that name for it, the tones that it keeps sound, and it is within
// the limits that it is not marked as beyond.
func TestColoursAreWhatTheySay(t *testing.T) {
	seen, rubs, lost, outside := 0, 0, 0, 0
	for _, name := range []string{"ukulele", "guitar", "baritone", "mandolin"} {
		on := tuning(t, name)
		for _, keyName := range []string{"C", "Eb", "A", "F#m", "Gm"} {
			k := key(t, keyName)
			chords := k.Chords()
			if testing.Short() || on.HasBass() {
				chords = chords[:7]
			}
			for _, c := range chords {
				plain := fret.Easiest(on, c, fret.DefaultHand, fret.Wish{Most: 1, Effort: 1e9})
				if len(plain) == 0 {
					continue
				}
				for _, colour := range Colours(on, c, k, plain[0].Shape, plain[0].Shape) {
					seen++
					checkColour(t, on, c, k, plain[0], colour)
					for count, so := range map[*int]bool{&rubs: colour.Rubbing(), &lost: colour.Lost, &outside: !colour.InKey()} {
						if so {
							*count++
						}
					}
				}
			}
		}
	}
	t.Logf("%d colours, %d rub, %d lose a tone, %d are outside the key", seen, rubs, lost, outside)
	if seen < 1000 || rubs == 0 || lost == 0 && !testing.Short() || outside == 0 {
		t.Error("too few were looked at")
	}
}

func checkColour(t *testing.T, on *fret.Tuning, c theory.Chord, k theory.Key, plain fret.Found, colour Colour) {
	t.Helper()
	fail := func(what string) {
		t.Errorf("%s on %s in %s: %s", c, on.Name, k, what+"\n"+list([]Colour{colour}))
	}
	names := fret.Names(on, colour.Shape, theory.Context{Key: &k, All: true})
	if !slices.ContainsFunc(names, func(n theory.Naming) bool {
		return n.Chord.Root.Same(colour.Chord.Root) && n.Chord.Kind == colour.Chord.Kind
	}) {
		fail("the naming engine has no such name for it")
	}
	sounds := func(s fret.Shape, of theory.Interval) (is bool) {
		for i, f := range s {
			is = is || f != fret.Muted && (on.MIDI(i, f)-c.Root.Class()-of.Semitones)%12 == 0
		}
		return is
	}
	for _, tone := range c.Kind.Formula {
		if sounds(plain.Shape, tone) && sounds(colour.From, tone) && !sounds(colour.Shape, tone) && !(colour.Lost && tone == colour.GivesUp) {
			fail("the " + tone.Part() + " is gone")
		}
	}
	if colour.Lost == sounds(colour.Shape, colour.GivesUp) {
		fail("what is given up is said amiss")
	}
	if !sounds(colour.Shape, theory.Unison) && sounds(colour.From, theory.Unison) || !sounds(colour.Shape, colour.Adds) || sounds(colour.From, colour.Adds) {
		fail("the added tone or the root")
	}
	moved := 0
	for i, f := range colour.Shape {
		if f != colour.From[i] {
			moved++
			if on.StringNumber(i) != colour.String {
				fail("another string is moved")
			}
		}
	}
	if moved != 1 {
		fail("not one string is moved")
	}
	if _, _, effort, ok := fret.Finger(colour.Shape); !ok || effort != colour.Effort || colour.Harder != (effort > plain.Effort+2) {
		fail("the effort")
	}
	note := c.Root.Up(colour.Adds)
	if standing, _ := k.StandingBySound(note); colour.InKey() != (standing != theory.Outside) {
		fail("in the key or not")
	}
	for _, tone := range c.Kind.Formula {
		below := ((colour.Adds.Semitones-tone.Semitones)%12 + 12) % 12
		if below == 1 && sounds(colour.Shape, tone) && !colour.Rubbing() {
			fail("it rubs and does not say so")
		}
	}
	if on.HasBass() {
		low := 0
		for i, f := range colour.Shape {
			if f != fret.Muted && on.MIDI(i, f) < on.MIDI(low, max(0, colour.Shape[low])) || colour.Shape[low] == fret.Muted {
				low = i
			}
		}
		if on.StringNumber(low) == colour.String {
			fail("the added note is the lowest")
		}
	}
}

// Where no colour of the key comes of a doubled note, what loses a tone is offered, and said.
func TestWhatIsLostIsSaid(t *testing.T) {
	uke := tuning(t, "ukulele")
	g7 := Colours(uke, chord(t, "G7"), key(t, "C"), shape(t, "0212"), nil)
	if !slices.ContainsFunc(g7, func(c Colour) bool { return c.Lost && c.GivesUp == theory.PerfectFifth && c.InKey() }) {
		t.Errorf("a seventh chord on four strings gives up its fifth:\n%s", list(g7))
	}
}

func TestColoursLeadOn(t *testing.T) {
	uke := tuning(t, "ukulele")
	for _, row := range []struct {
		colour, next string
		leads        Lead
	}{
		{"0010", "0010", Stays}, // the open g of Fadd9 before a chord that has it open
		{"0010", "2010", Steps},
		{"0010", "xxx7", Leaps},
	} {
		all := Colours(uke, chord(t, "F"), key(t, "C"), shape(t, "2010"), shape(t, row.next))
		at := slices.IndexFunc(all, func(c Colour) bool { return c.Shape.String() == row.colour })
		if at < 0 || all[at].Leads != row.leads {
			t.Errorf("%s before %s: %s", row.colour, row.next, list(all))
		}
	}
}

// Where a bass is asked for, it stays the lowest note on an instrument that has no bass as well.
func TestColoursKeepTheBassThatIsAskedFor(t *testing.T) {
	for _, row := range []struct{ key, chord string }{{"A", "D/F#"}, {"C", "C/E"}, {"G", "G/B"}, {"D", "A/C#"}} {
		on, c := tuning(t, "ukulele"), chord(t, row.chord)
		offered := 0
		for _, plain := range Shapes(on, c) {
			for _, col := range Colours(on, c, key(t, row.key), plain, nil) {
				offered++
				v, err := fret.Voice(on, col.Shape, col.Chord)
				if err != nil {
					t.Fatal(err)
				}
				if low := v.Strings[lowest(v)].Pitch; low.Class() != c.Bass.Class() {
					t.Errorf("%s as %s becomes %s, and the lowest note is %s", row.chord, plain, col.Shape, low)
				}
			}
		}
		if offered == 0 {
			t.Errorf("no colour of %s", row.chord)
		}
	}
}

// A triad is held whole where there is room for it, though players are taught it without its fifth as well.
func TestTriadsAreHeldWhole(t *testing.T) {
	on, c := tuning(t, "mandolin"), chord(t, "C")
	if taught := fret.Taught(on, c); len(taught) != 2 || taught[1].String() != "5230" {
		t.Fatalf("C is taught as %v", taught)
	}
	for _, s := range Shapes(on, c) {
		if s.String() == "5230" {
			t.Error("5230 is taken, which has no fifth")
		}
	}
}

// What is heard beside a coloured shape is the plain one of which one string is moved, whatever the path of plain shapes has there.
func TestOneStringIsMovedOfWhatIsUncoloured(t *testing.T) {
	for on, chart := range map[string]string{"ukulele": "| Em | C | G | D/F# |\n| Am | B7 | Em | Em |", "guitar": "| Em | C | G | D/F# |\n| Em | C | G | B7 |"} {
		a := arrangeChart(t, chart, Wishes{Tuning: tuning(t, on), Rich: 5})
		others := 0
		for _, p := range a.Places {
			plain := p.Uncoloured()
			if p.Path.Colour == nil {
				if !slices.Equal(plain.Shape, p.Plain.Shape) {
					t.Errorf("%s in bar %d is uncoloured, and %s is not its plain shape", p.Chord, p.Bar, plain.Shape)
				}
				continue
			}
			moved := 0
			for i, f := range plain.Shape {
				if f != p.Path.Shape[i] {
					moved++
				}
			}
			if moved != 1 || plain.Chord != p.Chord || len(plain.Fingers) != len(a.Tuning.Strings) || plain.Effort <= 0 {
				t.Errorf("%s on %s: %+v beside %s", p.Chord, on, plain, p.Path.Shape)
			}
			if !slices.Equal(plain.Shape, p.Plain.Shape) {
				others++
			}
		}
		if others == 0 {
			t.Errorf("on %s every colour is made from the plain path's shape", on)
		}
	}
}
