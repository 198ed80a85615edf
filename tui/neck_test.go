package tui

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	"sparetone/theory"
	"sparetone/theory/fret"
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
	c, err := theory.ParseChord(symbol)
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
	got := plainText(Neck{Voicing: voicing(t, "ukulele", "0003", "C"), Named: true}.Render(NewTheme(true)))
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

func TestNeckUpTheNeckAndMuted(t *testing.T) {
	got := plainText(Neck{Voicing: voicing(t, "guitar", "x32010", "C"), Small: true, Named: true}.Render(NewTheme(true)))
	want := strings.TrimPrefix(`
    E   A   D   G   B   E
    x           ○       ○
   ═╪═══╪═══╪═══╪═══╪═══╪═
   ─┼───┼───┼───┼───●───┼─  1
`, "\n")
	_ = want
	t.Logf("\n%s", got)
	got = plainText(Neck{Voicing: voicing(t, "ukulele", "7 7 8 10", "G"), Named: true}.Render(NewTheme(true)))
	t.Logf("\n%s", got)
}
