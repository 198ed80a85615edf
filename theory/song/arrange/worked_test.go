package arrange

import (
	"slices"
	"strings"
	"testing"

	"sparetone/theory"
)

// Twelve progressions of ours, worked by hand before they were asked for: the key by its cadence, a numeral for each chord, ! before
// what is not of the key, and the notes that the key has. The rules are those of harmony textbooks, each looked up:
//
//	cadence  a song is in the key of the chord on I that it closes with, after V (authentic) or IV (plagal).
//	         Karl W. Gehrkens, Music Notation and Terminology (1914), §§ 203 and 205
//	numeral  a triad is called by the step of the scale that it is built on, large where it is major, small where minor. Gehrkens, § 198
//	seventh  the dominant seventh is G B D F in C, A C♯ E G in D, E♭ G B♭ D♭ in A♭ (Gehrkens, § 209), the same in minor as in major, and
//	         goes to I or VI. Percy Goetschius, The Theory and Practice of Tone-Relations (1892, 1917), ¶ 151
//	minor    of a minor key the chord on VI is major, those on II and on the leading tone are diminished. George W. Chadwick, Harmony (1897),
//	         ¶¶ 107 and 108. Beside those of the signature it has the raised sixth and seventh of its melodic scale. Goetschius, ¶¶ 212 to 214
//	foreign  the dominant seventh of another key is the usual way there (Gehrkens, § 209): so it is not of the key it is met in
var worked = []struct{ chords, key, numerals, notes, rules string }{
	{"C Am Dm G7 C", "C major", "I vi ii V7 I", "C D E F G A B", "cadence numeral seventh"},
	{"G Em Am D7 G", "G major", "I vi ii V7 I", "G A B C D E F#", "cadence numeral seventh"},
	{"F Bb Gm C7 F", "F major", "I IV ii V7 I", "F G A Bb C D E", "cadence numeral seventh"},
	{"D Bm Em A7 D", "D major", "I vi ii V7 I", "D E F# G A B C#", "cadence numeral seventh"},
	{"Am Dm E7 Am", "A minor", "i iv V7 i", "A B C D E F G F# G#", "cadence numeral seventh minor"},
	{"Em C Am B7 Em", "E minor", "i VI iv V7 i", "E F# G A B C D C# D#", "cadence numeral seventh minor"},
	{"Dm Gm Edim A7 Dm", "D minor", "i iv ii° V7 i", "D E F G A Bb C B C#", "cadence numeral seventh minor"},
	{"C E7 Am F G C", "C major", "I !III7 vi IV V I", "C D E F G A B", "cadence numeral foreign"}, // E7 is the dominant seventh of A
	{"C D7 G7 C", "C major", "I !II7 V7 I", "C D E F G A B", "cadence numeral seventh foreign"},   // D7 is that of G
	{"G C Cm G", "G major", "I IV !iv I", "G A B C D E F#", "cadence numeral"},                    // plagal; E♭ is no tone of G major
	{"Cmaj7 Am7 Dm7 G7 Cmaj7", "C major", "Imaj7 vi7 ii7 V7 Imaj7", "C D E F G A B", "cadence numeral seventh"},
	{"Gm Cm Adim D7 Gm", "G minor", "i iv ii° V7 i", "G A Bb C D Eb F E F#", "cadence numeral seventh minor"},
}

func TestProgressionsWorkedByHand(t *testing.T) {
	of, foreign := 0, 0
	for _, row := range worked {
		a := arrangeChart(t, "| "+strings.Join(strings.Fields(row.chords), " | ")+" |", Wishes{Rich: 5})
		var numerals []string
		for _, p := range a.Places {
			mark := ""
			if p.Outside {
				mark = "!"
			}
			numerals = append(numerals, mark+a.Key.Numeral(p.Chord))
		}
		if got := strings.Join(numerals, " "); a.Key.String() != row.key || got != row.numerals {
			t.Errorf("%s: %s in %s, want %s in %s", row.chords, got, a.Key, row.numerals, row.key)
		}
		var notes []theory.Note
		for name := range strings.FieldsSeq(row.notes) {
			n, err := theory.ParseNote(name)
			if err != nil {
				t.Fatal(err)
			}
			notes = append(notes, n)
		}
		for _, p := range a.Places {
			// A colour of the path is of the key, keeps what tells the chord, and is no other chord of the same root and plainer kind.
			if c := p.Path.Colour; c != nil && (!c.InKey() || c.Lost || c.Harder || c.Chord.Root != p.Chord.Root) {
				t.Errorf("%s in %s: %s", row.chords, row.key, list([]Colour{*c}))
			}
			// Each that is offered is of the key where the note that it adds is among those by hand.
			for _, c := range p.Colours {
				added := c.Chord.Root.Up(c.Adds)
				if slices.ContainsFunc(notes, added.Same) != c.InKey() {
					t.Errorf("%s in %s: %s adds %s, %v", p.Chord, row.key, c.Chord, added, c.Standing)
				}
				if c.InKey() {
					of++
				} else {
					foreign++
				}
			}
		}
	}
	if of < 100 || foreign < 30 {
		t.Errorf("only %d colours of their key and %d that are not were looked at", of, foreign)
	}
}

// After a key that changes the numerals, what is of the key and the colours are those of the new one. B is the ♯11 of F, of E major and
// not of F major.
func TestEachChordInItsKey(t *testing.T) {
	a := arrangeChart(t, "key: E\n| E | B7 |\nkey: F\n| C7 | F |\nkey: E\n| F | E |", Wishes{Rich: 5})
	got := ""
	for _, p := range a.Places {
		mark := ""
		if p.Outside {
			mark = "!"
		}
		got += mark + a.KeyOf(p).Numeral(p.Chord) + " "
		if p.Chord.Root.Letter != theory.F {
			continue
		}
		for _, c := range p.Colours {
			if c.Adds == theory.SharpEleventh && c.InKey() != p.Outside {
				t.Errorf("%s in %s: %s, of the key %v", p.Chord, a.KeyOf(p), c.Chord, c.InKey())
			}
		}
	}
	if want := "I V7 V7 I !♭II I "; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if got := a.KeysTold().Screen(); got != "E major, then F major, then E major" {
		t.Error(got)
	}
	// The same chord before the same one has other colours in another key.
	b := arrangeChart(t, "key: C\n| F | C |\nkey: Bb\n| F | C |", Wishes{Rich: 5})
	fourths := 0
	for n, want := range map[int]bool{0: false, 2: true} { // B♭
		for _, c := range b.Places[n].Colours {
			if c.Adds.Semitones%12 != theory.PerfectFourth.Semitones {
				continue
			}
			if fourths++; c.InKey() != want {
				t.Errorf("%s in %s: of the key %v", c.Chord, b.KeyOf(b.Places[n]), c.InKey())
			}
		}
	}
	if fourths < 2 {
		t.Errorf("%d fourths are added", fourths)
	}
	// The key that is found is that of the chords before the first that is said.
	if a := arrangeChart(t, "| G | C | D7 | G |\nkey: A\n| A | E | A | E | A | E |", Wishes{}); a.Key.String() != "G major" {
		t.Error(a.Key)
	}
}
