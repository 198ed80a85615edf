package draw

import (
	"strings"
	"testing"

	"github.com/charmbracelet/colorprofile"
	"github.com/google/go-cmp/cmp"

	"sparetone/theory/fret"
	"sparetone/theory/say"
)

var dark = NewTheme(true, colorprofile.TrueColor)

// picture compares a drawing with lines that begin after the first line break.
func picture(t *testing.T, drawn, want string) {
	t.Helper()
	if diff := cmp.Diff(strings.TrimPrefix(want, "\n"), plainText(drawn)); diff != "" {
		t.Errorf("%s\ngot\n%s", diff, plainText(drawn))
	}
}

// A barre is a bar through the space of its fret, over strings that are stopped further along as well.
func TestBarreIsABar(t *testing.T) {
	f := voicing(t, "guitar", "133211", "F")
	picture(t, Neck{Voicing: f, Size: Small}.Render(dark), `
    E   A   D   G   B   E

   ═╪═══╪═══╪═══╪═══╪═══╪═
   ▁●━━━━━━━━━━━━━━━●━━━●▁ 1
   ▁│▁▁▁│▁▁▁│▁▁▁●▁▁▁│▁▁▁│▁ 2
   ▁│▁▁▁●▁▁▁●▁▁▁│▁▁▁│▁▁▁│▁ 3
   ▁│▁▁▁│▁▁▁│▁▁▁│▁▁▁│▁▁▁│▁`)
	picture(t, Neck{Voicing: f, Left: true, Fingers: true}.Render(dark), `
    E     B     G     D     A     E

   ═╪═════╪═════╪═════╪═════╪═════╪═
    1━━━━━1━━━━━━━━━━━━━━━━━━━━━━━1  1
   ─┼─────┼─────┼─────┼─────┼─────┼─
    │     │     2     │     │     │  2
   ─┼─────┼─────┼─────┼─────┼─────┼─
    │     │     │     4     3     │  3
   ─┼─────┼─────┼─────┼─────┼─────┼─
    │     │     │     │     │     │
   ─┼─────┼─────┼─────┼─────┼─────┼─`)
	picture(t, Neck{Voicing: voicing(t, "ukulele", "4446", "F#")}.Render(dark), `
    g     C     E     A

   ─┼─────┼─────┼─────┼─
    ●━━━━━●━━━━━●     │  4
   ─┼─────┼─────┼─────┼─
    │     │     │     │
   ─┼─────┼─────┼─────┼─
    │     │     │     ●  6
   ─┼─────┼─────┼─────┼─
    │     │     │     │
   ─┼─────┼─────┼─────┼─`)
}

// A shape that was not heard as a chord yet, as fingers that are just being set, has no bar.
func TestNoBarWhileFingersAreSet(t *testing.T) {
	v := voicing(t, "ukulele", "4446", "F#")
	v.Chord.Kind = nil
	if drawn := (Neck{Voicing: v}).Render(dark); strings.Contains(drawn, "━") {
		t.Error(plainText(drawn))
	}
}

// Large necks are the same picture with larger dots; a finger's number and the sign of a marked string stand in them.
func TestLargeNeck(t *testing.T) {
	picture(t, Neck{Voicing: voicing(t, "ukulele", "2220", "D"), Size: Large, Fingers: true, Lit: []int{1}, Named: true}.Render(dark), `
    g         C         E         A
                                  ◇
   ═╪═════════╪═════════╪═════════╪═
    │         │         │         │
    │         │         │         │
    │         │         │         │
   ─┼─────────┼─────────┼─────────┼─
  ▗▄▄▄▖     ▗▄▄▄▖     ▗▄▄▄▖       │
  ▐█1█▌     ▐█2█▌     ▐█3█▌       │    2
  ▝▀▀▀▘     ▝▀▀▀▘     ▝▀▀▀▘       │
   ─┼─────────┼─────────┼─────────┼─
    │         │         │         │
    │         │         │         │
    │         │         │         │
   ─┼─────────┼─────────┼─────────┼─
    │         │         │         │
    │         │         │         │
    │         │         │         │
   ─┼─────────┼─────────┼─────────┼─

    A         D         F♯        A
    5         R         3         5
    └────────── doubled ──────────┘`)
	picture(t, Neck{Voicing: voicing(t, "ukulele", "4446", "F#"), Size: Large, Lit: []int{1}}.Render(dark), `
    g         C         E         A

   ─┼─────────┼─────────┼─────────┼─
  ▗▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▄▖       │
  ▐███████████████████████▌       │    4
  ▝▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▀▘       │
   ─┼─────────┼─────────┼─────────┼─
    │         │         │         │
    │         │         │         │
    │         │         │         │
   ─┼─────────┼─────────┼─────────┼─
    │         │         │       ▗▄▄▄▖
    │         │         │       ▐█◆█▌  6
    │         │         │       ▝▀▀▀▘
   ─┼─────────┼─────────┼─────────┼─
    │         │         │         │
    │         │         │         │
    │         │         │         │
   ─┼─────────┼─────────┼─────────┼─`)
}

// A swap shows where the string is and where it would go; the two are one in colour.
func TestNeckShowsASwap(t *testing.T) {
	v := voicing(t, "ukulele", "2010", "F")
	n := Neck{Voicing: v, Swap: &fret.Swap{String: 4, ToFret: 0}, Size: Small}
	picture(t, n.Render(dark), `
    g   C   E   A
    ○   ○       ○
   ═╪═══╪═══╪═══╪═
   ▁│▁▁▁│▁▁▁●▁▁▁│▁ 1
   ▁◆▁▁▁│▁▁▁│▁▁▁│▁ 2
   ▁│▁▁▁│▁▁▁│▁▁▁│▁
   ▁│▁▁▁│▁▁▁│▁▁▁│▁`)
	if drawn := n.Render(dark); strings.Count(drawn, dark.Accent.Render("○")) != 1 || strings.Count(drawn, dark.Accent.Render("◆")) != 1 {
		t.Errorf("%q", drawn)
	}
}

// At no size does anything stand on a wire that has a line of its own, and every stopped string stands at its fret.
func TestDotsStandInTheSpaceOfTheirFret(t *testing.T) {
	for size := range grids {
		for _, frets := range []string{"0003", "2220", "5433", "4446", "x3x5"} {
			n := Neck{Voicing: voicing(t, "ukulele", frets, "C"), Size: size}
			lines := strings.Split(plainText(n.Render(dark)), "\n")
			at := map[[2]int]int{} // the first line of a fret of a string
			for _, p := range n.Places() {
				if was, known := at[[2]int{p.String, p.Fret}]; !known || p.Row < was {
					at[[2]int{p.String, p.Fret}] = p.Row
				}
			}
			for i, s := range n.Voicing.Strings {
				if s.Fret <= 0 {
					continue
				}
				row := at[[2]int{s.Number, s.Fret}] + grids[size].space/2
				line := []rune(lines[row])
				if sign := line[margin+i*grids[size].gap]; sign != '●' && sign != '█' {
					t.Errorf("%s at size %d: %q stands on string %d at fret %d:\n%s", frets, size, sign, s.Number, s.Fret, strings.Join(lines, "\n"))
				}
			}
			for _, l := range lines {
				if strings.Contains(l, "┼") && strings.ContainsAny(l, "●█▄▀━") {
					t.Errorf("%s at size %d has a dot on a wire: %s", frets, size, l)
				}
			}
		}
	}
}

// Necks side by side show the same frets at the same height, and their captions above.
func TestSideBySide(t *testing.T) {
	plain := Neck{Voicing: voicing(t, "ukulele", "2010", "F"), Caption: say.Of("F"), Size: Small}
	added := Neck{Voicing: voicing(t, "ukulele", "0565", "F"), Caption: say.Of("high up"), Chosen: true, Size: Small, Lit: []int{4}}
	picture(t, SideBySide(dark, 3, plain, added), `
    F                     › high up
    g   C   E   A           g   C   E   A
        ○       ○           ◇
   ═╪═══╪═══╪═══╪═         ═╪═══╪═══╪═══╪═
   ▁│▁▁▁│▁▁▁●▁▁▁│▁ 1       ▁│▁▁▁│▁▁▁│▁▁▁│▁
   ▁●▁▁▁│▁▁▁│▁▁▁│▁ 2       ▁│▁▁▁│▁▁▁│▁▁▁│▁
   ▁│▁▁▁│▁▁▁│▁▁▁│▁         ▁│▁▁▁│▁▁▁│▁▁▁│▁
   ▁│▁▁▁│▁▁▁│▁▁▁│▁         ▁│▁▁▁│▁▁▁│▁▁▁│▁
   ▁│▁▁▁│▁▁▁│▁▁▁│▁         ▁│▁▁▁●▁▁▁│▁▁▁●▁ 5
   ▁│▁▁▁│▁▁▁│▁▁▁│▁         ▁│▁▁▁│▁▁▁●▁▁▁│▁ 6`)
	far := Neck{Voicing: voicing(t, "ukulele", "x787", "C"), Size: Small}
	if first, rows := Together([]Neck{plain, far})[0].window(); first != 1 || rows != rowsShown {
		t.Errorf("beside a shape far up it shows %d frets from %d on", rows, first)
	}
}

// Fingers are said where they are asked for.
func TestFingersInWords(t *testing.T) {
	var got []string
	for _, l := range (Neck{Voicing: voicing(t, "ukulele", "x212", "B"), Fingers: true}).Words() {
		got = append(got, l.Aloud())
	}
	want := []string{"g string, not played", "C string, fret 2, finger 2", "E string, fret 1, finger 1", "A string, fret 2, finger 3"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}
