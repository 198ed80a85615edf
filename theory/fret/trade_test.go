package fret_test

import (
	"slices"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// The shapes below are facts of the trade on re-entrant g C E A: common practice, no source.

func ukulele(t testing.TB) *fret.Tuning {
	t.Helper()
	u, err := fret.ParseTuning("ukulele")
	if err != nil {
		t.Fatal(err)
	}
	return u
}

func shape(t testing.TB, s string) fret.Shape {
	t.Helper()
	out, err := fret.ParseShape(s)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func chord(t testing.TB, s string) theory.Chord {
	t.Helper()
	c, err := read.Chord(s)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func sounds(v fret.Voicing) string {
	out := ""
	for _, p := range v.Pitches() {
		if out != "" {
			out += " "
		}
		out += p.Note.String()
	}
	return out
}

func TestPlainShapes(t *testing.T) {
	for _, row := range []struct{ shape, chord, notes, doubled string }{
		{"0003", "C", "G C E C", "R"},
		{"2010", "F", "A C F A", "3"},
		{"0232", "G", "G D G B", "R"},
		{"2220", "D", "A D F♯ A", "5"},
		{"2000", "Am", "A C E A", "R"},
		{"0432", "Em", "G E G B", "♭3"},
	} {
		u := ukulele(t)
		v, err := fret.Voice(u, shape(t, row.shape), chord(t, row.chord))
		if err != nil {
			t.Errorf("%s: %v", row.shape, err)
			continue
		}
		if got := sounds(v); got != row.notes {
			t.Errorf("%s sounds %s, want %s", row.shape, got, row.notes)
		}
		if d := v.Doubled(); len(d) != 1 || d[0].Interval.Degree() != row.doubled || len(d[0].Strings) != 2 {
			t.Errorf("%s doubles %v, want %s on two strings", row.shape, d, row.doubled)
		}
		if m := v.Missing(); m != nil {
			t.Errorf("%s lacks %v, want nothing", row.shape, m)
		}
		if names := fret.Names(u, v.Shape, theory.Context{}); names[0].Chord.Symbol() != row.chord {
			t.Errorf("%s is named %s, want %s", row.shape, names[0].Chord, row.chord)
		}
	}
}

func TestOneStringMoved(t *testing.T) {
	for _, row := range []struct{ from, chord, to, becomes, adds, givesUp string }{
		{"0003", "C", "0002", "Cmaj7", "M7", "P1"},
		{"0003", "C", "0001", "C7", "m7", "P1"},
		{"0003", "C", "0005", "Cadd9", "M9", "P1"},
		{"0003", "C", "0203", "Cadd9", "M9", "P1"},
		{"2010", "F", "0010", "Fadd9", "M9", "M3"},
		{"0232", "G", "0252", "Gadd9", "M9", "P1"},
		{"0432", "Em", "0422", "Em(add9)", "M9", "m3"},
		{"2220", "D", "0220", "Dadd4", "P4", "P5"},
	} {
		u := ukulele(t)
		swaps := fret.Swaps(u, shape(t, row.from), chord(t, row.chord), nil)
		n := slices.IndexFunc(swaps, func(s fret.Swap) bool { return s.To.String() == row.to })
		if n < 0 {
			t.Errorf("%s: no swap to %s", row.from, row.to)
			continue
		}
		s := swaps[n]
		if s.Chord.Symbol() != row.becomes || s.Adds.String() != row.adds || s.GivesUp.String() != row.givesUp || !s.Spare {
			t.Errorf("%s to %s: %s adds %s gives up %s, want %s adds %s gives up %s",
				row.from, row.to, s.Chord, s.Adds, s.GivesUp, row.becomes, row.adds, row.givesUp)
		}
	}
}

func TestOneShapeTwoRightNames(t *testing.T) {
	var got []string
	for _, n := range fret.Names(ukulele(t), shape(t, "0230"), theory.Context{}) {
		if n.Chord.Without == 0 {
			got = append(got, n.Chord.Symbol())
		}
	}
	for _, want := range []string{"Gsus2", "Dsus4"} {
		if !slices.Contains(got, want) {
			t.Errorf("0230 is named %v, want %s among them", got, want)
		}
	}
}

func TestSeventhIsSpelledFlat(t *testing.T) {
	v, err := fret.Voice(ukulele(t), shape(t, "0001"), chord(t, "C7"))
	if err != nil {
		t.Fatal(err)
	}
	if got := sounds(v); got != "G C E B♭" {
		t.Errorf("0001 as C7 sounds %s", got)
	}
}

func TestWrongShapes(t *testing.T) {
	for _, row := range []struct{ shape, want string }{
		{"000", "000 is for 3 strings: ukulele has 4"},
		{"xxxx", "xxxx: every string is muted"},
		{"0 0 17 0", "fret 17 on the E string: this neck has 15 frets"},
	} {
		_, err := fret.Voice(ukulele(t), shape(t, row.shape), chord(t, "C"))
		if err == nil || err.Error() != row.want {
			t.Errorf("%s: %v, want %s", row.shape, err, row.want)
		}
	}
}

func TestTuningsAsTyped(t *testing.T) {
	for typed, want := range map[string]string{
		"gCEA": "G4 C4 E4 A4", "G4 C4 E4 A4": "G4 C4 E4 A4", "GCEA": "G3 C4 E4 A4", "DADGAD": "D2 A2 D3 G3 A3 D4",
		"EADGBE": "E2 A2 D3 G3 B3 E4", "gDGBD": "G4 D3 G3 B3 D4", "CGDA": "C3 G3 D4 A4", "fBbDG": "F4 B♭3 D4 G4",
		"Ukulele": "G4 C4 E4 A4", "G3D4A4E5": "G3 D4 A4 E5",
		"violin": "G3 D4 A4 E5", "eadgbe": "E2 A2 D3 G3 B3 E4", "gcea": "G4 C4 E4 A4", "Uke": "G4 C4 E4 A4", "G2, C3, F3, B♭3": "G2 C3 F3 B♭3", "DAEA": "D3 A3 E4 A4",
	} {
		tuning, err := fret.ParseTuning(typed)
		if err != nil {
			t.Errorf("%s: %v", typed, err)
			continue
		}
		got := ""
		for i, p := range tuning.Strings {
			if i > 0 {
				got += " "
			}
			got += p.String()
		}
		if got != want {
			t.Errorf("%s is %s, want %s", typed, got, want)
		}
	}
}

func TestWrongTunings(t *testing.T) {
	const right = "; write a name such as ukulele, or strings such as gCEA or G4 C4 E4 A4"
	for typed, want := range map[string]string{
		"":             `tuning "": no strings` + right,
		"lute?":        `tuning "lute?": "l" is not a note: a note is a letter from A to G with # or b, such as F# or Bb` + right,
		"G4 C E A":     `tuning "G4 C E A": write the octave of every string or of none` + right,
		"C0 C4":        `tuning "C0 C4": C0 is no string: strings go from A0 to C8` + right,
		"EEAADDGGBBEE": `tuning "EEAADDGGBBEE": more than 8 strings` + right,
		"gCE\xffA\x1b": `tuning "gCEA": "" is not a note: a note is a letter from A to G with # or b, such as F# or Bb` + right,
	} {
		if _, err := fret.ParseTuning(typed); err == nil || err.Error() != want {
			t.Errorf("%q: %v, want %s", typed, err, want)
		}
	}
}

// A typed tuning has a name that is read back to it.
func FuzzParseTuning(f *testing.F) {
	for _, s := range []string{"gCEA", "G4 C4 E4 A4", "fBbDG", "E2A2D3G3B3E4", "violin", "x", "G♭", "A\xff", "BbbBbb"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		tuning, err := fret.ParseTuning(s)
		if err != nil {
			return
		}
		if again, err := fret.ParseTuning(tuning.Name); err != nil || !slices.Equal(again.Strings, tuning.Strings) {
			t.Errorf("%q is %s, read back as %v: %v", s, tuning.Name, again, err)
		}
	})
}

// A shape that is read is written back to the same shape.
func FuzzParseShape(f *testing.F) {
	for _, s := range []string{"0003", "x32010", "10,12,12,10", "0 0 0 3", "X", "12", "37,1", "1,,2", "-1,0", "1--2", "\xff00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		shape, err := fret.ParseShape(s)
		if err != nil {
			return
		}
		if again, err := fret.ParseShape(shape.String()); err != nil || !slices.Equal(again, shape) {
			t.Errorf("%q is %v, read back as %v: %v", s, shape, again, err)
		}
	})
}

func TestShapesAreWrittenBack(t *testing.T) {
	for typed, want := range map[string]string{
		"0003": "0003", "x32010": "x32010", "0 0 0 3": "0003", "10,12,12,10": "10,12,12,10", "X 0 12 0": "x,0,12,0", "x-3-2-0-1-0": "x32010", "10-12-12-10": "10,12,12,10",
		"00": "0,0", "x2": "x,2", "2X": "2,x", "12": "12",
	} {
		if got := shape(t, typed).String(); got != want {
			t.Errorf("%q is written back %q, want %q", typed, got, want)
		}
	}
}

func TestSuspending(t *testing.T) {
	for _, row := range []struct{ from, chord, to, becomes string }{
		{"0003", "C", "0013", "Csus4"},
		{"0232", "G", "0230", "Gsus2"},
		{"0212", "G7", "0213", "G7sus4"},
	} {
		swaps := fret.Swaps(ukulele(t), shape(t, row.from), chord(t, row.chord), nil)
		n := slices.IndexFunc(swaps, func(s fret.Swap) bool { return s.To.String() == row.to })
		if n < 0 {
			t.Errorf("%s: no swap to %s", row.from, row.to)
		} else if s := swaps[n]; s.Chord.Symbol() != row.becomes || s.Spare || s.GivesUp != theory.MajorThird {
			t.Errorf("%s to %s is %s and gives up %s", row.from, row.to, s.Chord, s.GivesUp)
		}
	}
}

func TestSwapsInAKey(t *testing.T) {
	key, err := read.Key("C")
	if err != nil {
		t.Fatal(err)
	}
	inKey, outside := 0, 0
	for _, s := range fret.Swaps(ukulele(t), shape(t, "0003"), chord(t, "C"), &key) {
		if want := s.Adds != theory.MinorSeventh && s.Adds != (theory.Interval{Number: 11, Semitones: 18}); s.InKey() != want {
			t.Errorf("%s with %s: in C major %v", s.To, s.Adds, s.InKey())
		}
		if s.InKey() && outside > 0 {
			t.Errorf("%s comes after those outside the key", s.To)
		}
		if s.InKey() {
			inKey++
		} else {
			outside++
		}
	}
	if inKey == 0 || outside == 0 {
		t.Errorf("%d swaps in the key, %d outside, want some of each", inKey, outside)
	}
}

func TestCapo(t *testing.T) {
	u, err := ukulele(t).Capo(2)
	if err != nil {
		t.Fatal(err)
	}
	v, err := fret.Voice(u, shape(t, "0003"), chord(t, "D"))
	if err != nil || sounds(v) != "A D F♯ D" || u.Frets != 13 {
		t.Errorf("0003 with a capo at fret 2 sounds %s on %d frets (%v)", sounds(v), u.Frets, err)
	}
	for _, f := range []int{-1, 15} {
		if _, err := ukulele(t).Capo(f); err == nil {
			t.Errorf("a capo at fret %d is taken", f)
		}
	}
}

// The short string of a five-string banjo begins at fret 5: fret 7 there is a whole tone above the open string.
func TestShortString(t *testing.T) {
	banjo, err := fret.ParseTuning("banjo")
	if err != nil {
		t.Fatal(err)
	}
	v, err := fret.Voice(banjo, shape(t, "7 0 0 0 0"), chord(t, "G"))
	if err != nil || v.Strings[0].Pitch.String() != "A4" {
		t.Errorf("fret 7 of the short string is %s (%v), want A4", v.Strings[0].Pitch, err)
	}
	if _, err := fret.Voice(banjo, shape(t, "50000"), chord(t, "G")); err == nil || err.Error() != "fret 5 on the high g string: this string begins at fret 5" {
		t.Errorf("fret 5 of the short string: %v", err)
	}
}

// With the third in the bass no chord is suspended: a fourth is added.
func TestNothingIsSuspendedOverItsThirdInTheBass(t *testing.T) {
	on, c := tuning(t, "guitar"), chord(t, "G/B")
	for _, s := range fret.Swaps(on, shape(t, "x2000x"), c, nil) {
		if s.To.String() == "x2001x" {
			if s.Chord.Symbol() != "Gadd4/B" || !s.Spare {
				t.Errorf("x2001x becomes %s, spare %v", s.Chord.Symbol(), s.Spare)
			}
			return
		}
	}
	t.Error("no x2001x")
}

// A capo takes no bass away, wherever it sits, and gives none.
func TestACapoKeepsTheBass(t *testing.T) {
	for name, want := range map[string]bool{"guitar": true, "bass": true, "ukulele": false, "tenor-guitar": false} {
		on, err := fret.ParseTuning(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, at := range []int{0, 1, 5, 9} {
			with, err := on.Capo(at)
			if err != nil {
				t.Fatal(err)
			}
			if again, err := with.Capo(2); err != nil || with.HasBass() != want || again.HasBass() != want {
				t.Errorf("%s, capo at %d: a bass %v, with another capo %v, %v", name, at, with.HasBass(), again.HasBass(), err)
			}
		}
	}
}
