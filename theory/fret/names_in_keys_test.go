package fret_test

import (
	"slices"
	"strings"
	"testing"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// allKeys are the keys of up to seven sharps or flats.
func allKeys(t testing.TB) []theory.Key {
	t.Helper()
	var out []theory.Key
	for _, row := range []struct{ mode, tonics string }{
		{"", "C G D A E B F# C# F Bb Eb Ab Db Gb Cb"}, {"m", "A E B F# C# G# D# A# D G C F Bb Eb Ab"},
	} {
		for _, tonic := range strings.Fields(row.tonics) {
			k, err := read.Key(tonic + row.mode)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, k)
		}
	}
	return out
}

// No name is worse with a key than without, as a whole: its kind, its bass and what is left out. A key may put a chord on its
// tonic first or the diminished seventh that leads in it; it takes no tone from a name that was whole, turns no chord over
// for another reason, gives no rarer name on the same root, and spells no bass as nobody reads it but as the key has it.
func TestNoNameIsWorseInAKey(t *testing.T) {
	keys := allKeys(t)
	for _, row := range []struct {
		tuning string
		step   int // of the shapes that count up, so many are passed over
	}{{"ukulele", 1}, {"guitar", 37}, {"baritone", 1}, {"mandolin", 1}} {
		on := tuning(t, row.tuning)
		strings := len(on.Strings)
		total, asked, changed := 1, 0, 0
		for range strings {
			total *= 6
		}
		for n := 0; n < total; n += row.step {
			s := make(fret.Shape, strings)
			for i, rest := 0, n; i < strings; i, rest = i+1, rest/6 {
				s[i] = rest%6 - 1 // from muted to fret 4
			}
			plain := fret.Names(on, s, theory.Context{})
			if len(plain) == 0 {
				continue
			}
			for at := n / row.step % 5; at < len(keys); at += 5 {
				k := keys[at]
				names := fret.Names(on, s, theory.Context{Key: &k})
				asked++
				if is, was := names[0].Chord, plain[0].Chord; !is.Root.Same(was.Root) || is.Kind != was.Kind {
					changed++
				}
				if why := worse(on, k, names[0].Chord, plain[0].Chord); why != "" {
					t.Errorf("%s on %s in %s: %s, was %s: %s", s, row.tuning, k, namesOf(names), namesOf(plain), why)
				}
			}
		}
		t.Logf("%s: %d shapes in a key, %d named otherwise than without it", row.tuning, asked, changed)
	}
}

// worse says why a name is worse than the one that a shape has without a key; empty if it is not.
func worse(on *fret.Tuning, k theory.Key, is, was theory.Chord) string {
	sameRoot := is.Root.Same(was.Root)
	leads := is.Kind.ID == "diminished-seventh"
	tonic := is.Root == k.Tonic && k.Holds(theory.NewChord(is.Root, is.Kind))
	rooted := func(c theory.Chord) bool { return c.Bass.Same(c.Root) }
	plain := func(c theory.Chord) bool { // a triad or a seventh chord
		f := c.Kind.Formula
		return len(f) < 5 && f[1].Number == 3 && f[2].Number == 5 && (len(f) == 3 || f[3].Number == 7)
	}
	odd := func(n theory.Note) bool {
		return n.Alter > 1 || n.Alter < -1 || slices.Contains([]string{"E#", "B#", "Fb", "Cb"}, n.ASCII())
	}
	switch {
	case sameRoot && (is.Kind != was.Kind || is.Without != was.Without || !is.Bass.Same(was.Bass)):
		return "another name on the same root"
	case is.Without != 0 && was.Without == 0:
		return "a tone is left out"
	case on.HasBass() && rooted(was) && !rooted(is) && !(plain(is) && (leads || tonic)):
		return "turned"
	case plain(was) && !plain(is) && !tonic:
		return "a rarer kind"
	case !rooted(is) && odd(is.Bass) && k.Standing(is.Bass) == theory.Outside:
		return "its bass is written as nobody reads it"
	}
	return ""
}
