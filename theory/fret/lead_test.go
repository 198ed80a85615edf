package fret_test

import (
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// Shapes on a ukulele, and whether what wants to move does.
func TestLeads(t *testing.T) {
	for _, row := range []struct {
		from, chord, to, goal string
		want                  bool
	}{
		{"0212", "G7", "0003", "C", true},
		{"0212", "G7", "5433", "C", true},     // F falls to the E of the third string, and B rises to C on its own
		{"0212", "G7", "0787", "C", false},    // there is an E, but an octave higher
		{"0212", "G7", "x433", "C", true},     // B rises to C
		{"0212", "G7", "043x", "C", false},    // there is no C for it
		{"0013", "Csus4", "0003", "C", true},  // F falls to E
		{"0013", "Csus4", "0787", "C", false}, // no string falls to E
		{"0003", "Csus4", "0787", "C", true},  // no string sounds a fourth
		{"2020", "Am7", "0003", "C", true},    // no chord that wants to move on: nothing has to
		{"xxx2", "G7", "xx03", "C", true},     // B alone, which rises
		{"xxx2", "G7", "0xx2", "G", false},    // B, which stays
		{"1212", "Bdim7", "0333", "Cm", true}, // A♭ falls to G, F to E♭ on another string, and B rises
	} {
		u := ukulele(t)
		from, err := fret.Voice(u, shape(t, row.from), chord(t, row.chord))
		if err != nil {
			t.Fatal(err)
		}
		to, err := fret.Voice(u, shape(t, row.to), chord(t, row.goal))
		if err != nil {
			t.Fatal(err)
		}
		r, _ := theory.ResolutionOf(from.Chord.Kind)
		if got := fret.Leads(r, from, to); got != row.want {
			t.Errorf("%s %s to %s %s: %v, want %v", row.chord, row.from, row.goal, row.to, got, row.want)
		}
	}
}

// A hand reaches a shape whose lowest fret lies no more than three further, and any with open strings alone.
func TestReaches(t *testing.T) {
	for _, row := range []struct {
		from, to string
		want     bool
	}{
		{"0003", "0004", true}, {"2225", "5555", true}, {"2225", "6666", false}, {"6666", "2225", false},
		{"0000", "9999", true}, {"9999", "0000", true},
	} {
		if got := fret.Reaches(shape(t, row.from), shape(t, row.to)); got != row.want {
			t.Errorf("%s to %s: %v, want %v", row.from, row.to, got, row.want)
		}
	}
}
