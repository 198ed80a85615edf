package draw

import (
	"strings"
	"testing"

	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/ansi"
	"github.com/google/go-cmp/cmp"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

func voicing(t *testing.T, tuning, frets, symbol string) fret.Voicing {
	t.Helper()
	tn, err := fret.ParseTuning(tuning)
	if err != nil {
		t.Fatal(err)
	}
	s, err := fret.ParseShape(frets)
	if err != nil {
		t.Fatal(err)
	}
	c, err := read.Chord(symbol)
	if err != nil {
		t.Fatal(err)
	}
	v, err := fret.Voice(tn, s, c)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func plainText(s string) string {
	lines := strings.Split(ansi.Strip(s), "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

func TestNeckOfC(t *testing.T) {
	got := plainText(Neck{Voicing: voicing(t, "ukulele", "0003", "C"), Named: true}.Render(NewTheme(true, colorprofile.TrueColor)))
	want := strings.TrimPrefix(`
    g     C     E     A
    ○     ○     ○
   ═╪═════╪═════╪═════╪═
    │     │     │     │
   ─┼─────┼─────┼─────┼─
    │     │     │     │
   ─┼─────┼─────┼─────┼─
    │     │     │     ●  3
   ─┼─────┼─────┼─────┼─
    │     │     │     │
   ─┼─────┼─────┼─────┼─

    G     C     E     C
    5     R     3     R
          └─ doubled ─┘`, "\n")
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestNeckSmallAndMuted(t *testing.T) {
	got := plainText(Neck{Voicing: voicing(t, "guitar", "x32010", "C"), Size: Small, Named: true}.Render(NewTheme(true, colorprofile.TrueColor)))
	want := strings.TrimPrefix(`
    E   A   D   G   B   E
    x           ○       ○
   ═╪═══╪═══╪═══╪═══╪═══╪═
   ▁│▁▁▁│▁▁▁│▁▁▁│▁▁▁●▁▁▁│▁ 1
   ▁│▁▁▁│▁▁▁●▁▁▁│▁▁▁│▁▁▁│▁ 2
   ▁│▁▁▁●▁▁▁│▁▁▁│▁▁▁│▁▁▁│▁ 3
   ▁│▁▁▁│▁▁▁│▁▁▁│▁▁▁│▁▁▁│▁

        C   E   G   C   E
        R   3   5   R   3
        └─ doubled ─┘
            └─ doubled ─┘`, "\n")
	if got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

// The brackets stand under the strings they join, whatever the room; the word stands in them between dashes, and
// else beside them.
func TestBrackets(t *testing.T) {
	for _, c := range []struct {
		tuning, frets, chord string
		size                 Size
		want                 []string
	}{
		{"ukulele", "0003", "C", Small, []string{"doubled └───────┘"}},
		{"ukulele", "0003", "C", Usual, []string{"          └─ doubled ─┘"}},
		{"ukulele", "5433", "C", Small, []string{"    └─ doubled ─┘"}},
		{"ukulele", "0010", "C6", Small, nil},
		{"ukulele", "0033", "C5", Small, []string{"    └───────┘ doubled", "doubled └───────┘"}},
		{"guitar", "022100", "E", Small, []string{"    └───────┴───────────┘ doubled", "        └─ doubled ─┘"}},
		{"guitar", "022100", "E", Usual, []string{"    └───────────┴─────────────────┘ doubled", "          └──── doubled ────┘"}},
	} {
		n := Neck{Voicing: voicing(t, c.tuning, c.frets, c.chord), Size: c.size, Named: true}
		lines := strings.Split(plainText(n.Render(NewTheme(true, colorprofile.TrueColor))), "\n")
		var got []string
		for _, l := range lines {
			if strings.ContainsAny(l, "└┘") {
				got = append(got, l)
			}
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s, size %v:\n%s\n%s", c.frets, c.size, diff, strings.Join(lines, "\n"))
		}
	}
}

func TestNeckInWords(t *testing.T) {
	got := Neck{Voicing: voicing(t, "ukulele", "x003", "C"), Named: true}.Words()
	want := []string{
		"g string, not played",
		"C string, open, C, the root, doubled",
		"E string, open, E, the major third",
		"A string, fret 3, C, the root, doubled",
	}
	for i, line := range got {
		if i >= len(want) || line.Aloud() != want[i] {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// Two notes that belong to no chord have no root: they are named, and nothing is said of what they are in one.
func TestTwoNotesHaveNoRoot(t *testing.T) {
	v := voicing(t, "ukulele", "xx22", "B5")
	v.Chord = theory.Chord{}
	n := Neck{Voicing: v, Named: true}
	if drawn := plainText(n.Render(Theme{})); strings.Contains(drawn, "R") || !strings.Contains(drawn, "F♯") {
		t.Errorf("drawn as\n%s", drawn)
	}
	for _, line := range n.Words() {
		if said := line.Aloud(); strings.Contains(said, "root") || strings.Contains(said, "fifth") {
			t.Errorf("said as %q", said)
		}
	}
}

// With open strings the nut is in the picture as long as it takes one row more.
func TestNeckShowsTheNutWithOpenStrings(t *testing.T) {
	for _, c := range []struct {
		frets, chord string
		first, rows  int
	}{
		{"0003", "C", 1, 4},
		{"0005", "Cadd9", 1, 5},
		{"0007", "C", 7, 4},
		{"5435", "C", 3, 4},
	} {
		d := Neck{Voicing: voicing(t, "ukulele", c.frets, c.chord)}.drawing()
		if d.first != c.first || d.rows != c.rows {
			t.Errorf("%s shows %d frets from %d on", c.frets, d.rows, d.first)
		}
	}
}

// Under two notes that are heard one after the other it is written which is first, in every size, named or not; one string may be both.
func TestNotesInTurnAreNumbered(t *testing.T) {
	v := voicing(t, "ukulele", "00xx", "C")
	v.Chord = theory.Chord{}
	th := NewTheme(true, colorprofile.TrueColor)
	for _, size := range Sizes {
		for _, named := range []bool{true, false} {
			for _, c := range []struct {
				order []int
				want  string
			}{{[]int{3, 4}, "2nd 1st"}, {[]int{4, 3}, "1st 2nd"}, {[]int{3, 3}, "both"}} {
				text := plainText(Neck{Voicing: v, Size: size, Named: named, InTurn: c.order}.Render(th))
				lines := strings.Split(text, "\n")
				if got := strings.Join(strings.Fields(lines[len(lines)-1]), " "); got != c.want {
					t.Errorf("size %v, named %v, %v: %q, want %q\n%s", size, named, c.order, got, c.want, text)
				}
			}
			if text := plainText(Neck{Voicing: v, Size: size, Named: named}.Render(th)); strings.Contains(text, "1st") {
				t.Errorf("a chord says which of it is first:\n%s", text)
			}
		}
	}
}
