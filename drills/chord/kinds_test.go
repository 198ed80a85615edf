package chord

import (
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// Kinds that may be two names of one shape clash: C6 is Am7, Gsus2 is Dsus4, and of the kinds of triad that are left no two.
func TestClash(t *testing.T) {
	for _, row := range []struct {
		a, b string
		want bool
	}{
		{"major-sixth", "minor-seventh", true},
		{"suspended-second", "suspended-fourth", true},
		{"minor-sixth", "half-diminished", true},
		{"major", "minor", false},
		{"major", "augmented", false},
		{"dominant", "major-seventh", false},
	} {
		if got, back := Clash(row.a, row.b), Clash(row.b, row.a); got != row.want || back != row.want {
			t.Errorf("%s and %s clash: %v, and the other way round %v, want %v", row.a, row.b, got, back, row.want)
		}
	}
}

// An augmented chord sounds alike on roots a major third apart, a diminished seventh on roots a minor third apart.
func TestSameSound(t *testing.T) {
	c := MustNotes("C")[0]
	for _, row := range []struct {
		kind, root string
		want       bool
	}{
		{"augmented", "E", true}, {"augmented", "G#", true}, {"augmented", "Eb", false},
		{"diminished-seventh", "Eb", true}, {"diminished-seventh", "E", false},
		{"major", "C", true}, {"major", "E", false},
	} {
		if got := SameSound(Kind(row.kind), c, MustNotes(row.root)[0]); got != row.want {
			t.Errorf("%s on C and on %s: %v, want %v", row.kind, row.root, got, row.want)
		}
	}
}

// A chord of five tones may lose its fifth on four strings, and one of four may not lose anything on three.
func TestTooMany(t *testing.T) {
	three, err := fret.ParseTuning("GCE")
	if err != nil {
		t.Fatal(err)
	}
	four, err := fret.ParseTuning("ukulele")
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		kind string
		on   *fret.Tuning
		want bool
	}{
		{"major", three, false}, {"dominant", three, true}, {"dominant", four, false}, {"dominant-ninth", four, false}, {"dominant-ninth", three, true},
	} {
		if got := TooMany(Kind(row.kind), row.on); got != row.want {
			t.Errorf("%s on %d strings: too many is %v, want %v", row.kind, len(row.on.Strings), got, row.want)
		}
	}
}

// Each kind that is asked for is read as it is typed, and is mistaken for others, never for itself.
func TestAskedKinds(t *testing.T) {
	for _, asked := range AskedKinds {
		k := Kind(asked.ID)
		if got, ok := read.Kind(TypedKind(k)); !ok || got != k {
			t.Errorf("%s is typed %q, and that is read as %v", asked.ID, TypedKind(k), got)
		}
		if len(asked.Near) == 0 {
			t.Errorf("%s is mistaken for nothing", asked.ID)
		}
		for _, near := range asked.Near {
			if near == asked.ID || Kind(near) == nil {
				t.Errorf("%s is mistaken for %s", asked.ID, near)
			}
		}
	}
}

// Roots are written so that the chords on them have few accidentals, and none that nobody likes to read where that can be had.
func TestRootsOf(t *testing.T) {
	for _, row := range []struct{ kind, want string }{
		{"major", "C Db D Eb E F F# G Ab A Bb B"},
		{"minor", "C C# D Eb E F F# G G# A Bb B"},
	} {
		got := ""
		for _, n := range RootsOf(Kind(row.kind)) {
			if got != "" {
				got += " "
			}
			got += n.ASCII()
		}
		if got != row.want {
			t.Errorf("roots of %s: %s, want %s", row.kind, got, row.want)
		}
	}
}

// Odd is what nobody likes to read: double accidentals, and C♭, F♭, E♯ and B♯.
func TestOddNotes(t *testing.T) {
	for typed, want := range map[string]bool{"C": false, "C#": false, "Gb": false, "Cb": true, "E#": true, "F##": true, "Bbb": true} {
		if got := IsOdd(MustNotes(typed)[0]); got != want {
			t.Errorf("%s is odd: %v, want %v", typed, got, want)
		}
	}
	for typed, want := range map[string]string{"E#": "F", "Cb": "B", "Ebb": "D", "Gb": "Gb", "A#": "A#"} {
		if got := Plainly(MustNotes(typed)[0]); got != MustNotes(want)[0] {
			t.Errorf("%s is written plainly as %v, want %s", typed, got, want)
		}
	}
	if got := WrittenAs(MustNotes("C#")[0], Roots); got != MustNotes("Db")[0] {
		t.Errorf("C♯ among the roots is %v", got)
	}
	for symbol, want := range map[string]bool{"C": false, "G#": true, "F#": false, "Abm": true} {
		c, err := read.Chord(symbol)
		if err != nil {
			t.Fatal(err)
		}
		if got := OddlyWritten(c); got != want {
			t.Errorf("%s has a note that is odd: %v, want %v", symbol, got, want)
		}
	}
}

// A shape of C6 is right as C6 and as Am7, whatever bass either is written over, and the name beside the one is the other.
func TestNamesOfOneShape(t *testing.T) {
	uke, err := fret.ParseTuning("ukulele")
	if err != nil {
		t.Fatal(err)
	}
	c6, am7 := theory.NewChord(MustNotes("C")[0], Kind("major-sixth")), theory.NewChord(MustNotes("A")[0], Kind("minor-seventh"))
	v, err := fret.Voice(uke, fret.Shape{0, 0, 0, 0}, c6)
	if err != nil {
		t.Fatal(err)
	}
	names := RightNames(v)
	c := theory.NewChord(MustNotes("C")[0], Kind("major"))
	if !IsNamed(names, c6) || !IsNamed(names, am7) || IsNamed(names, c) {
		t.Errorf("0000 is named %v", names)
	}
	if beside := NamesBeside(names, c6); len(beside) != 1 || !IsNamed(beside, am7) {
		t.Errorf("beside C6 stands %v", beside)
	}
	over := func(bass string) theory.Chord { c := c; c.Bass = MustNotes(bass)[0]; return c }
	if ForeignBass(over("E")) || !ForeignBass(over("D")) || IsForeign(c, MustNotes("G")[0]) {
		t.Error("E is C's own and D is not")
	}
}
