package fret_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
	"sparetone/theory/say"
)

var writeSwaps = flag.Bool("write-swaps", false, "write testdata/swaps.tsv again")

// swapTable is what is listed for twenty shapes; a key stands after the chord where one is given.
var swapTable = []struct{ tuning, shape, chord, key string }{
	{"ukulele", "0003", "C", ""}, {"ukulele", "2010", "F", ""}, {"ukulele", "0232", "G", "G"}, {"ukulele", "2000", "Am", "Am"},
	{"ukulele", "2100", "A", ""}, {"ukulele", "2220", "D", ""}, {"ukulele", "2210", "Dm", ""}, {"ukulele", "0432", "Em", ""},
	{"ukulele", "0212", "G7", ""}, {"ukulele", "0230", "Gsus2", ""}, {"ukulele-low-g", "0003", "C", ""}, {"baritone", "0003", "G", ""},
	{"guitar", "x32010", "C", ""}, {"guitar", "320003", "G", "C"}, {"guitar", "xx0232", "D", ""}, {"guitar", "x02210", "Am", ""},
	{"guitar", "022000", "Em", ""}, {"guitar", "133211", "F", ""}, {"mandolin", "0023", "G", ""}, {"mandolin", "2002", "D", ""},
}

// Whole rows of what is listed, every field. A change has to be looked at with an instrument in hand.
func TestSwapsOfTwentyShapes(t *testing.T) {
	const file = "testdata/swaps.tsv"
	var b strings.Builder
	fmt.Fprintln(&b, "# What Swaps lists for twenty shapes. Ours; go test ./theory/fret -run TwentyShapes -write-swaps writes it again.")
	fmt.Fprintln(&b, "# tuning\tchord\tkey\tfrom\tto\tstring\tfrets\tbecomes\tadds\tgives up\tspare\tlowest\teffort\tin the key\trubs\tin words")
	for _, row := range swapTable {
		on, c := tuning(t, row.tuning), chord(t, row.chord)
		var key *theory.Key
		if row.key != "" {
			k, err := read.Key(row.key)
			if err != nil {
				t.Fatal(err)
			}
			key = &k
		}
		for _, s := range fret.Swaps(on, shape(t, row.shape), c, key) {
			rubs := ""
			if s.Rubbing() {
				rubs = s.Rubs.String()
			}
			fmt.Fprintf(&b, "%s\t%s\t%s\t%s\t%s\t%d\t%d-%d\t%s\t%s\t%s\t%v\t%v\t%.2f\t%s\t%s\t%s\n", row.tuning, row.chord, row.key, s.From, s.To,
				s.String, s.FromFret, s.ToFret, s.Chord.Symbol(), s.Adds, s.GivesUp, s.Spare, s.Lowest, s.Effort, s.Standing, rubs, say.Trade(s))
		}
	}
	if *writeSwaps {
		if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	wanted, got := strings.Split(string(want), "\n"), strings.Split(b.String(), "\n")
	for n := range max(len(wanted), len(got)) {
		if n >= len(wanted) || n >= len(got) || wanted[n] != got[n] {
			t.Fatalf("%s:%d differs:\n%s", file, n+1, strings.Join(got[min(n, len(got)):min(n+1, len(got))], ""))
		}
	}
}

// Where there is a bass, the root that is in it stays there; and no string is moved by more than four frets.
func TestSwapsLeaveTheBassAndDoNotLeap(t *testing.T) {
	seen := 0
	for _, name := range []string{"ukulele", "guitar", "guitar-drop-d", "bass", "baritone", "mandolin", "mandocello"} {
		on := tuning(t, name)
		for _, symbol := range []string{"C", "D", "E", "F#", "G", "Am", "Bm", "Em", "G7", "Dm7"} {
			c := chord(t, symbol)
			for _, f := range fret.Easiest(on, c, fret.DefaultHand, fret.Wish{Most: 6, Effort: 30}) {
				for _, s := range fret.Swaps(on, f.Shape, c, nil) {
					seen++
					if on.HasBass() && lowestClass(on, f.Shape) == c.Root.Class() && lowestClass(on, s.To) != c.Root.Class() {
						t.Errorf("%s on %s: %s to %s gives up the root in the bass", symbol, name, s.From, s.To)
					}
					if d := s.ToFret - s.FromFret; d > 4 || d < -4 {
						t.Errorf("%s on %s: %s to %s is a leap", symbol, name, s.From, s.To)
					}
					if added := on.MIDI(len(s.To)-s.String, s.ToFret); s.Lowest != (added == lowestMIDI(on, s.To)) {
						t.Errorf("%s on %s: %s to %s: lowest %v", symbol, name, s.From, s.To, s.Lowest)
					}
				}
			}
		}
	}
	if seen < 500 {
		t.Errorf("%d swaps looked at", seen)
	}
}

func lowestMIDI(on *fret.Tuning, s fret.Shape) int {
	low := 1 << 30
	for i, f := range s {
		if f != fret.Muted {
			low = min(low, on.MIDI(i, f))
		}
	}
	return low
}

func lowestClass(on *fret.Tuning, s fret.Shape) int { return lowestMIDI(on, s) % 12 }
