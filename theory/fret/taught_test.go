package fret_test

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
)

// taughtTunings are the instruments that have a table of their own.
var taughtTunings = []string{"ukulele", "guitar", "baritone", "mandolin"}

// What is taught is the chord, with its root in the bass where there is a bass, and a hand holds it.
func TestTaughtShapesAreTheirChord(t *testing.T) {
	for _, name := range taughtTunings {
		on := tuning(t, name)
		seen := map[string]bool{}
		for _, l := range fret.Lessons(on) {
			if key := fmt.Sprint(l.Chord.Root.Class(), l.Chord.Kind.ID); seen[key] {
				t.Errorf("%s on %s stands there twice", l.Chord, name)
			} else {
				seen[key] = true
			}
			found := fret.Search(on, l.Chord, fret.DefaultHand)
			for _, s := range l.Shapes {
				v, err := fret.Voice(on, s, l.Chord)
				if err != nil {
					t.Errorf("%s on %s: %v", l.Chord, name, err)
					continue
				}
				for _, st := range v.Strings {
					if st.Foreign {
						t.Errorf("%s on %s: %s sounds %s", l.Chord, name, s, st.Pitch)
					}
				}
				if !slices.ContainsFunc(found, func(f fret.Found) bool { return slices.Equal(f.Shape, s) }) {
					t.Errorf("%s on %s: the search does not find %s", l.Chord, name, s)
				}
			}
		}
		if len(seen) < 60 {
			t.Errorf("%s: %d chords are taught", name, len(seen))
		}
	}
}

// What players meet before any other: common practice, no source.
func TestFirstLessons(t *testing.T) {
	for _, row := range []struct{ tuning, want string }{
		{"ukulele", "C 0003, F 2010, G 0232, Am 2000, A 2100, D 2220, Dm 2210, Em 0432, G7 0212"},
		{"guitar", "E 022100, A x02220, D xx0232, G 320003, C x32010, Em 022000, Am x02210, Dm xx0231"},
		{"baritone", "G 0003, C 2010, D 0232, Em 2000, Am 2210, A 2220, E 2100, Dm 0231, G7 0001"},
		{"mandolin", "G 0023, C 0230, D 2002, A 2245, Em 0220, Am 2230, E 1220, Dm 2001"},
		{"ukulele-d", "D 0003, G 2010, A 0232, Bm 2000, B 2100, E 2220, Em 2210, F#m 0432, A7 0212"},
		{"mandola", "C 0023, F 0230, G 2002, D 2245, Am 0220, Dm 2230, A 1220, Gm 2001"},
		{"guitar-dadgad", ""},
	} {
		var got []string
		for _, l := range fret.Lessons(tuning(t, row.tuning)) {
			if l.First {
				got = append(got, l.Chord.Symbol()+" "+l.Shapes[0].String())
			}
		}
		if strings.Join(got, ", ") != row.want {
			t.Errorf("%s: %s, want %s", row.tuning, strings.Join(got, ", "), row.want)
		}
	}
}

// A shape goes along to an instrument that is tuned alike but higher or lower.
func TestTaughtWhereTunedAlike(t *testing.T) {
	for _, row := range []struct{ tuning, chord, want string }{
		{"ukulele", "Em", "[0432]"}, {"ukulele-low-g", "Em", "[0432]"}, {"ukulele-d", "F#m", "[0432]"},
		{"guitar", "F", "[133211 xx3211]"}, {"mandola", "C", "[0023 7523]"}, {"ukulele", "Gb", "[3121]"}, {"ukulele", "F#", "[3121]"},
		{"ukulele", "C/E", "[]"}, {"ukulele", "C(no5)", "[]"}, {"banjo", "C", "[]"}, {"guitar-drop-d", "D", "[]"},
	} {
		if got := fmt.Sprint(fret.Taught(tuning(t, row.tuning), chord(t, row.chord))); got != row.want {
			t.Errorf("%s on %s: %s, want %s", row.chord, row.tuning, got, row.want)
		}
	}
	capo, err := tuning(t, "ukulele").Capo(2)
	if err != nil {
		t.Fatal(err)
	}
	if got := fmt.Sprint(fret.Taught(capo, chord(t, "D"))); got != "[0003]" {
		t.Errorf("D with a capo at fret 2: %s", got)
	}
}

// taughtKinds are the data's kinds of which the ukulele's table has all twelve chords.
var taughtKinds = strings.Fields("major minor 7 m7 maj7 6 m6 dim dim7 aug sus2 sus4 7sus4 add9 m7b5 9")

// The ukulele's table is the open data's first positions, but for those that are listed with a reason.
func TestTaughtOnUkuleleIsTheData(t *testing.T) {
	u := ukulele(t)
	differ := map[string][2]string{}
	file, err := os.ReadFile("../../testdata/theory/ukulele-taught-differ.tsv")
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(strings.TrimSpace(string(file)), "\n") {
		if cells := strings.Split(line, "\t"); !strings.HasPrefix(line, "#") && len(cells) == 4 && cells[3] != "" {
			differ[cells[0]] = [2]string{cells[1], cells[2]}
		}
	}
	count := 0
	for _, n := range namedShapes(t) {
		if n.position != 1 || !slices.Contains(taughtKinds, strings.Fields(n.label)[1]) {
			continue
		}
		count++
		want := n.shape.String()
		if d, ok := differ[n.label]; ok {
			if d[0] != want {
				t.Errorf("%s is listed as %s, but is %s in the data", n.label, d[0], want)
			}
			want = d[1]
			delete(differ, n.label)
		}
		if got := fret.Taught(u, theory.NewChord(n.chord.Root, n.chord.Kind)); len(got) == 0 || got[0].String() != want {
			t.Errorf("%s is taught as %v, the data has %s", n.label, got, want)
		}
	}
	if count != len(fret.Lessons(u)) || count != 12*len(taughtKinds) || len(differ) > 0 {
		t.Errorf("%d rows of the data, %d lessons; listed and not in the data: %v", count, len(fret.Lessons(u)), differ)
	}
}
