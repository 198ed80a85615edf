package chord

import (
	"slices"
	"testing"

	"sparetone/theory"
	"sparetone/theory/read"
)

// A chord is turned over its third, its fifth and its seventh, over no added note, and not where every note of it may be called the root.
func TestTurned(t *testing.T) {
	for _, row := range []struct {
		chord string
		want  []string
	}{
		{"C", []string{"C/E", "C/G"}},
		{"Am", []string{"Am/C", "Am/E"}},
		{"C7", []string{"C7/E", "C7/G", "C7/Bb"}},
		{"C6", []string{"C6/E", "C6/G"}},
		{"Csus4", []string{"Csus4/G"}},
		{"Caug", []string{"Caug"}},
		{"Bdim7", []string{"Bdim7"}},
		{"Bdim", []string{"Bdim/D", "Bdim/F"}},
	} {
		c, err := read.Chord(row.chord)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, turned := range Turned(c) {
			got = append(got, turned.Symbol())
		}
		if !slices.Equal(got, row.want) {
			t.Errorf("%s over other notes is %v, want %v", row.chord, got, row.want)
		}
	}
}

// What was answered stands over the tone of the same number, and over its root where it has none.
func TestTurnedAs(t *testing.T) {
	for _, row := range []struct{ chord, like, want string }{
		{"Am", "C/E", "Am/C"}, {"A", "C/E", "A/C#"}, {"Asus4", "C/E", "Asus4"}, {"G7", "C7/Bb", "G7/F"}, {"G", "C7/Bb", "G"}, {"G", "C", "G"},
	} {
		c, err := read.Chord(row.chord)
		like, failed := read.Chord(row.like)
		if err != nil || failed != nil {
			t.Fatal(err, failed)
		}
		if got := TurnedAs(c, like).Symbol(); got != row.want {
			t.Errorf("%s as %s is %s, want %s", row.chord, row.like, got, row.want)
		}
	}
}

// Of the right names of a shape those are told beside the one it is called by that players say: C6 beside Am7, and no C6sus4 beside Fadd9.
func TestNamesBesideAreOfKindsThatAreAsked(t *testing.T) {
	names := []theory.Chord{}
	for _, symbol := range []string{"Fadd9", "C6sus4", "Am7", "C6"} {
		c, err := read.Chord(symbol)
		if err != nil {
			t.Fatal(err)
		}
		names = append(names, c)
	}
	var got []string
	for _, c := range NamesBeside(names, names[0]) {
		got = append(got, c.Symbol())
	}
	if want := []string{"Am7", "C6"}; !slices.Equal(got, want) {
		t.Errorf("beside Fadd9 stand %v, want %v", got, want)
	}
}
