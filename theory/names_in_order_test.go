package theory_test

import (
	"testing"

	"sparetone/theory"
)

// All names of a sound, each with the tones that it goes without, in their order: what lacks nothing before what lacks
// something, a fifth before another tone, and rootless names last.
func TestNamesInOrder(t *testing.T) {
	for _, row := range []struct{ sound, want string }{
		{"C E G", "C"},
		{"C D G", "Csus2"},
		{"C E G♯ B", "Cmaj7#5"},
		{"C E B♭", "C7(no5)"},
		{"C E♭ B♭", "Cm7(no5)"},
		{"C E B♭ D", "C9(no5)"},
		{"C E G A B♭", "C7add13 C13(no9)"},
		{"C E A B♭", "C13(no5,no9) C7add13(no5)"},
		{"C D A", "D5/C D7(no3)/C"},
		{"C D G B", "G/C Cmaj9(no3) Cmaj7sus2"},
		{"C F B♭", "C7sus4(no5) Fsus4/C Bbsus2/C"},
		{"C D F B♭", "Bb/C C9sus4(no5)"},
		{"C D F B", "Cmaj9sus4(no5) Cmaj11(no3,no5) Bdim/C"},
		{"C E♭ A B", "B7b9(no5)/C"},
		{"C F♯ G A", "Gmaj9sus4(no5)/C Am7add13(no5)/C Gmaj11(no3,no5)/C"},
		{"C E F♯ B", "Cmaj7#11(no5) Cmaj7b5 D13(no1,no5)/C Ab7#5#9(no1)/C"},
		{"C E♭ G♭ B♭", "Cm7b5 Ab9(no1)/C"},
		{"C E F♯ B♭", "C7b5 C7#11(no5) F#7b5/C"},
		{"B D G C", "Gadd4/B Csus2/B Bmb6b9(no5) Cmaj9(no3)/B Cmaj7sus2/B"}, {"C E♭ A♭ B♭", "Abadd9/C Ebsus4/C Cm7b13(no5)"}, // a chord with its third in the bass, before one suspended over what is foreign to it
		{"C E A B", "Cmaj13(no5,no9) Cmaj7add13(no5) Am(add9)/C Esus4/C"},
	} {
		if got := symbols(theory.Name(pitches(t, row.sound), theory.Context{})); got != row.want {
			t.Errorf("%s is %s, want %s", row.sound, got, row.want)
		}
	}
}

// In a key, a name on one of its notes comes before one on another note.
func TestNamesOnNotesOfTheKeyComeFirst(t *testing.T) {
	for _, row := range []struct{ key, sound, want string }{
		{"Gm", "C E♭ A♭ B♭", "Ebsus4/C"},
		{"Eb", "C E♭ A♭ B♭", "Abadd9/C"},
		{"C", "C D F A B", "Dm6/C"},
		{"C", "C E♭ A B", "B7b9/C"},
		{"Gm", "C F G A B♭", "C13sus4"}, // not Gm11, which is turned and has no fifth
	} {
		if got := theory.Name(pitches(t, row.sound), theory.Context{Key: key(t, row.key)}); got[0].Chord.Symbol() != row.want {
			t.Errorf("%s in %s is %s, want %s first", row.sound, row.key, symbols(got), row.want)
		}
	}
}

// After a chord on the same root, of names that are as likely the one on that root is first, and after a chord that leads to
// it the one that it leads to.
func TestTheChordBeforeDecides(t *testing.T) {
	for _, row := range []struct{ before, sound, want string }{
		{"C", "C F G", "Fsus2 Csus4"}, // C leads to F by a fifth
		{"F", "C F G", "Fsus2 Csus4"},
		{"G", "C F G", "Csus4 Fsus2"},
		{"C", "C D G", "Csus2 Gsus4"},
		{"E+", "C E G♯", "Eaug Caug Abaug"},
		{"Am", "C E♭ G A", "Am7b5 Cm6 F9(no1)"},
		{"C", "C E♭ G A", "Cm6 Am7b5 F9(no1)"},
		{"F#m", "C E F♯ B♭", "F#7b5 C7b5 F#7#11(no5) C7#11(no5)"},
	} {
		got := symbols(theory.Name(pitches(t, row.sound), theory.Context{Previous: parse(t, row.before), NoBass: true}))
		if got != row.want {
			t.Errorf("%s after %s is %s, want %s", row.sound, row.before, got, row.want)
		}
	}
}

// A MIDI number is written as a note only if it is that note's.
func TestSpell(t *testing.T) {
	for _, row := range []struct {
		midi       int
		note, want string
	}{
		{60, "C", "C4"}, {60, "B#", "B♯3"}, {60, "Dbb", "D♭♭4"}, {59, "Cb", "C♭4"}, {0, "C", "C-1"}, {60, "D", ""}, {61, "C", ""},
	} {
		p, ok := theory.Spell(row.midi, parse(t, row.note).Root)
		if ok != (row.want != "") || ok && p.String() != row.want || ok && p.MIDI() != row.midi || !ok && p != (theory.Pitch{}) {
			t.Errorf("%d as %s: %s, %v, want %q", row.midi, row.note, p, ok, row.want)
		}
	}
}

// A symbol is printed with signs for its accidentals, and typed with letters.
func TestSymbolsArePrinted(t *testing.T) {
	for typed, want := range map[string]string{
		"Bb7b9": "B♭7♭9", "C#7#5#9": "C♯7♯5♯9", "Fmaj7#11": "Fmaj7♯11", "Em7b5/Bb": "Em7♭5/B♭", "Absus4": "A♭sus4", "Dm(add4)": "Dm(add4)",
	} {
		c := parse(t, typed)
		if got := c.String(); got != want {
			t.Errorf("%s is printed %s, want %s", typed, got, want)
		}
		if got := c.Symbol(); got != typed {
			t.Errorf("%s is typed %s", typed, got)
		}
	}
}

// What is no pitch has an error, whatever of it could be read.
func TestWhatIsNoPitch(t *testing.T) {
	for _, s := range []string{"", "4", "A", "H4", "a4", "A-2", "A10", "A4.", "Bbb", "A 4"} {
		if p, err := theory.ParsePitch(s); err == nil {
			t.Errorf("%q is read as %s", s, p)
		}
	}
	for _, s := range []string{"A-1", "G9", "Bb3", "Cx0"} {
		if p, err := theory.ParsePitch(s); err != nil || p.ASCII()+p.String()[len(p.Note.String()):] != s {
			t.Errorf("%q is read as %s: %v", s, p, err)
		}
	}
}

// What each name costs is the sum of the table of name_cost.go, and the names are in its order.
func TestNamesHaveTheirCost(t *testing.T) {
	for _, row := range []struct {
		sound string
		costs []int
	}{
		{"C E G", []int{0}},
		{"E G C", []int{60}},           // turned
		{"B D G C", []int{115, 118}},   // an added fourth turned, 30 and 85; a suspended second over its major seventh, 8 and 110
		{"C E♭ A♭ B♭", []int{96, 102}}, // an added ninth turned, 11 and 85; a suspended fourth over another bass, 7 and 95
	} {
		names := theory.Name(pitches(t, row.sound), theory.Context{})
		for n, want := range row.costs {
			if names[n].Cost != want {
				t.Errorf("%s: %s costs %d, want %d", row.sound, names[n].Chord.FullSymbol(), names[n].Cost, want)
			}
		}
	}
}
