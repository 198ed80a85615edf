package bench

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"sparetone/drills/trial"
	"sparetone/synth"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// gripped is what was typed, held on an instrument.
func gripped(t *testing.T, tuning, key, text string) Grip {
	t.Helper()
	g, err := NewGrip(trial.Instrument(t, tuning), key).Read(text)
	if err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return g
}

// What is told of a grip, as a player would say it.
func TestGripTells(t *testing.T) {
	for _, row := range []struct {
		tuning, key, text, shape string
		told                     []string
	}{
		{"ukulele", "", "C", "0003", []string{"C", "C, the root, sounds on the C and A strings: one of the two is spare."}},
		{"ukulele", "", "0003", "0003", []string{"C", "C, the root, sounds on the C and A strings: one of the two is spare."}},
		{"ukulele", "", "0 2 0 3", "0203", []string{"Cadd9, added ninth", "No note is doubled."}},
		{"ukulele", "", "Am7", "0000", []string{"Am7, minor seventh", "Also C6.", "No note is doubled."}},
		{"ukulele", "", "C6", "0000", []string{"C6", "Also Am7.", "No note is doubled."}},
		{"ukulele", "", "C9", "0201", []string{"C9", "Also Gm6, Em7♭5.", "Left out: the root.", "No note is doubled."}},
		{"guitar", "", "x32010", "x32010", []string{"C", "C, the root, sounds on the A and B strings: one of the two is spare.",
			"E, the major third, sounds on the D and high E strings: one of the two is spare."}},
		{"guitar", "", "320003", "320003", []string{"G", "G, the root, sounds on the low E, G and high E strings: all but one are spare.",
			"B, the major third, sounds on the A and B strings: one of the two is spare."}},
		{"ukulele", "", "0001", "0001", []string{"C7", "No note is doubled."}},
		{"ukulele", "", "xxx3", "xxx3", []string{"C alone makes no chord."}},
		{"ukulele", "", "x1x2", "x1x2", []string{"C♯ and B together have no name."}},
		{"guitar", "", "012340", "012340", []string{"E, B♭ and E♭ together have no name."}},
	} {
		g := gripped(t, row.tuning, row.key, row.text)
		if g.Shape.String() != row.shape {
			t.Errorf("%s is held as %s, want %s", row.text, g.Shape, row.shape)
		}
		if diff := cmp.Diff(row.told, trial.Printed(g.Told())); diff != "" {
			t.Errorf("%s: %s", row.text, diff)
		}
	}
}

// From C on a ukulele: the spare root goes to the seventh, and what it came from stays known.
func TestGripMoves(t *testing.T) {
	c := gripped(t, "ukulele", "", "C")
	n := slices.IndexFunc(c.Swaps, func(s fret.Swap) bool { return s.Chord.Symbol() == "C7" })
	if n < 0 {
		t.Fatalf("no swap of %s makes C7", c.Shape)
	}
	seventh := c.Swapped(n)
	if got := seventh.Shape.String(); got != "0001" {
		t.Errorf("C with the seventh is held as %s", got)
	}
	if want := []string{"C7", "No note is doubled.", "It came from C."}; !slices.Equal(trial.Printed(seventh.Told()), want) {
		t.Errorf("%q", seventh.Told())
	}
	if back := seventh.Back(); back.Shape.String() != "0003" || back.Chord.Symbol() != "C" || back.Back().Shape.String() != "0003" {
		t.Errorf("back from C7 is %s, %s", back.Shape, back.Chord)
	}
	if seventh.Moved != 1 {
		t.Errorf("string %d was moved", seventh.Moved)
	}
	if c.Shape.String() != "0003" || c.Chord.Symbol() != "C" || c.Before != nil {
		t.Errorf("the grip that was moved from is now %s, %s", c.Shape, c.Chord)
	}
	// Plain against coloured is the same from before the swap and from after it.
	if diff := cmp.Diff(c.Compared(n), seventh.Compared(-1)); diff != "" {
		t.Error(diff)
	}
	if got := c.Compared(-1); got != nil {
		t.Errorf("nothing was taken, and yet %v is compared", got)
	}
}

// A grip goes through all its names, each with its own degrees, and comes back to the first.
func TestGripNames(t *testing.T) {
	g := gripped(t, "ukulele", "", "0000")
	var heard []string
	for range len(g.Names) + 1 {
		degrees := ""
		for _, s := range g.Strings {
			degrees += " " + s.Interval.Degree()
		}
		heard = append(heard, g.Chord.Symbol()+degrees)
		g = g.NextName()
	}
	if want := []string{"Am7 ♭7 ♭3 5 R", "C6 5 R 3 6", "Am7 ♭7 ♭3 5 R"}; !slices.Equal(heard, want) {
		t.Errorf("%q, want %q", heard, want)
	}
}

// Going from shape to shape passes through every shape of the chord, the easiest first, and stays the chord.
func TestGripShapes(t *testing.T) {
	g := gripped(t, "ukulele", "", "F")
	first := g.Shape.String()
	var seen []string
	for {
		if g.Chord.Symbol() != "F" {
			t.Fatalf("%s is %s", g.Shape, g.Chord)
		}
		seen = append(seen, g.Shape.String())
		if g = g.NextShape(); g.Shape.String() == first {
			break
		}
		if slices.Contains(seen, g.Shape.String()) {
			t.Fatalf("%s comes twice in %v", g.Shape, seen)
		}
	}
	f, _ := read.Chord("F")
	if all := fret.Search(g.Tuning, f, fret.DefaultHand); len(seen) != len(all) || first != "2010" {
		t.Errorf("%d of %d shapes, from %s on", len(seen), len(all), first)
	}
}

// A shape that was asked about keeps the name it was asked by, even one of which a tone is left out.
func TestGripHeardAsAsked(t *testing.T) {
	on := trial.Instrument(t, "ukulele")
	am, _ := read.Chord("C6")
	g := NewGrip(on, "").Hold(fret.Shape{0, 0, 0, 0}).As(am)
	if g.Chord.Symbol() != "C6" {
		t.Errorf("0000 heard as C6 is %s", g.Chord)
	}
	f, _ := read.Chord("F")
	if g := g.As(f); g.Chord.Symbol() != "C6" {
		t.Errorf("0000 is no F, and is now %s", g.Chord)
	}
}

// In a key, the swaps that stay in it come first and the notes are spelled as it has them.
func TestGripInKey(t *testing.T) {
	g := gripped(t, "ukulele", "F", "C")
	out := slices.IndexFunc(g.Swaps, func(s fret.Swap) bool { return !s.InKey() })
	for n, s := range g.Swaps {
		if (n < out) != s.InKey() {
			t.Errorf("swap %d, %s, stands on the wrong side", n, s.Chord)
		}
	}
	if out <= 0 || !g.Swaps[slices.IndexFunc(g.Swaps, func(s fret.Swap) bool { return s.Chord.Symbol() == "C7" })].InKey() {
		t.Errorf("in F, C takes the seventh: %v", g.Swaps)
	}
}

// Whatever is held can be heard; muted strings and a neck without a shape are no trouble.
func TestGripSounds(t *testing.T) {
	g := gripped(t, "ukulele", "", "x102")
	for _, how := range []synth.How{synth.Strum, synth.Pick, synth.Apart} {
		s := g.Played(how)
		if len(s) != 1 || len(s[0].Notes) != 3 || len(s[0].Score.Plucks) < 3 {
			t.Errorf("%s: %v", how, s)
		}
	}
	mute := g.Hold(fret.Shape{fret.Muted, fret.Muted, fret.Muted, fret.Muted})
	if mute.Played(synth.Strum) != nil || len(mute.Strings) != 4 || mute.Told()[0].Screen() != "Every string is muted." {
		t.Errorf("%v, %q", mute.Voicing, mute.Told())
	}
	for _, still := range []Grip{mute.NextName(), mute.NextShape(), mute.As(g.Chord)} {
		if diff := cmp.Diff(mute.Shape, still.Shape); diff != "" {
			t.Error(diff)
		}
	}
}

// What cannot be read is said as the trade would say it, and the grip stays.
func TestGripRefuses(t *testing.T) {
	g := gripped(t, "ukulele", "", "C")
	for text, says := range map[string]string{
		"":        "empty",
		"000":     "ukulele has 4",
		"00099x":  "strings",
		"0 0 0 z": `"z" is not a fret`,
		"x":       "x is for 1 string:",
		"Hello":   "starts with its root",
		"Cfoo":    "character 2",
		"xxxx":    "every string is muted",
		"Ü":       "starts with its root",
	} {
		after, err := g.Read(text)
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%q: %v", text, err)
		}
		if after.Shape.String() != "0003" {
			t.Errorf("%q: now %s is held", text, after.Shape)
		}
	}
}

// Every instrument can be taken up, whatever is set as its key.
func TestGripOnEveryInstrument(t *testing.T) {
	for _, tn := range fret.Tunings() {
		on := trial.Instrument(t, tn.Name)
		for _, key := range []string{"", "none", "Gb", "C#m"} {
			g := NewGrip(on, key)
			if err := on.Tuning.Check(g.Shape); err != nil {
				t.Errorf("%s: %v", tn.Name, err)
			}
			if len(g.Told()) == 0 || len(g.Played(synth.Strum)) != 1 {
				t.Errorf("%s: %q", tn.Name, g.Told())
			}
		}
	}
}

// What was read as one chord of several is told, until the fingers move.
func TestAlteredIsToldOnTheBench(t *testing.T) {
	const told = "alt means that the fifth and the ninth are both altered"
	g, err := NewGrip(trial.Ukulele(t), "").Read("C7alt")
	if err != nil || !strings.Contains(strings.Join(trial.Printed(g.Told()), " "), told) {
		t.Errorf("%q, %v", g.Told(), err)
	}
	if said := strings.Join(trial.Printed(g.NextShape().Told()), " "); strings.Contains(said, told) {
		t.Errorf("%q", said)
	}
	if g, err = g.Read("C7#5#9"); err != nil || strings.Contains(strings.Join(trial.Printed(g.Told()), " "), told) {
		t.Errorf("%q, %v", g.Told(), err)
	}
}
