package fret_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"sparetone/theory"
	"sparetone/theory/fret"
)

func tuning(t testing.TB, s string) *fret.Tuning {
	t.Helper()
	out, err := fret.ParseTuning(s)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// The easiest shapes of common chords are those that players learn first. Common practice, no source.
func TestEasiestShapes(t *testing.T) {
	for _, row := range []struct{ tuning, chord, want string }{
		{"ukulele", "C", "0003"}, {"ukulele", "F", "2010"}, {"ukulele", "G", "0232"}, {"ukulele", "D", "2220"},
		{"ukulele", "Am", "2000"}, {"ukulele", "E7", "1202"}, {"ukulele", "G7", "0212"}, {"ukulele", "A", "2100"},
		{"guitar", "C", "x32010"}, {"guitar", "D", "xx0232"}, {"guitar", "A", "x02220"}, {"guitar", "E", "022100"},
		{"guitar", "Am", "x02210"}, {"guitar", "Em", "022000"}, {"guitar", "Dm", "xx0231"}, {"guitar", "C7", "x32310"},
		{"mandolin", "G", "0023"}, {"mandolin", "D", "2002"}, {"banjo", "G", "00000"}, {"guitar-open-g", "G/D", "000000"},
		{"baritone", "G", "0003"},
	} {
		found := fret.Search(tuning(t, row.tuning), chord(t, row.chord), fret.DefaultHand)
		if len(found) == 0 || found[0].Shape.String() != row.want {
			t.Errorf("%s on %s: %v, want %s", row.chord, row.tuning, found[:min(3, len(found))], row.want)
		}
	}
}

// fingerings are how players hold shapes: common practice, no source.
var fingerings = []struct {
	shape   string
	fingers []int
	barre   int
}{
	{"0000", []int{0, 0, 0, 0}, 0},
	{"0003", []int{0, 0, 0, 3}, 0},
	{"0232", []int{0, 1, 3, 2}, 0},
	{"2220", []int{1, 2, 3, 0}, 0},
	{"2010", []int{2, 0, 1, 0}, 0},
	{"2100", []int{2, 1, 0, 0}, 0},
	{"0432", []int{0, 3, 2, 1}, 0},
	{"3211", []int{3, 2, 1, 1}, 1},
	{"4222", []int{3, 1, 1, 1}, 2},
	{"133211", []int{1, 3, 4, 2, 1, 1}, 1},
	{"x32010", []int{0, 3, 2, 0, 1, 0}, 0},
	{"xx0232", []int{0, 0, 0, 1, 3, 2}, 0},
	{"x02210", []int{0, 0, 2, 3, 1, 0}, 0},
	{"022100", []int{0, 2, 3, 1, 0, 0}, 0},
	{"x24432", []int{0, 1, 3, 4, 2, 1}, 2},
}

func TestFingerings(t *testing.T) {
	for _, row := range fingerings {
		fingers, barre, _, ok := fret.Finger(shape(t, row.shape))
		if !ok || !slices.Equal(fingers, row.fingers) || barre != row.barre {
			t.Errorf("%s is fingered %v with a barre at %d, want %v at %d", row.shape, fingers, barre, row.fingers, row.barre)
		}
	}
	for _, s := range []string{"123456", "1234x5", "12121212"} {
		if fingers, _, _, ok := fret.Finger(shape(t, s)); ok {
			t.Errorf("%s is fingered %v, but no hand holds it", s, fingers)
		}
	}
}

func TestTonesLeftOut(t *testing.T) {
	for _, row := range []struct{ tuning, chord, shape, missing string }{
		{"ukulele", "C9", "0201", "R"},
		{"ukulele", "C9", "3203", "5"},
		{"ukulele", "C13b5b9", "2312", ""},
		{"guitar", "C7", "x32310", "5"},
		{"guitar", "C9", "x32333", ""},
		{"guitar", "C9", "x3233x", "5"},
	} {
		found := fret.Search(tuning(t, row.tuning), chord(t, row.chord), fret.DefaultHand)
		n := slices.IndexFunc(found, func(f fret.Found) bool { return f.Shape.String() == row.shape })
		if row.missing == "" && n < 0 {
			continue
		}
		if n < 0 {
			t.Errorf("%s on %s: no %s", row.chord, row.tuning, row.shape)
			continue
		}
		missing := ""
		for _, m := range found[n].Missing {
			missing += m.Degree()
		}
		if missing != row.missing {
			t.Errorf("%s as %s lacks %s, want %s", row.chord, row.shape, missing, row.missing)
		}
	}
}

// Whatever is found is the chord, lacks only what it says and what the kind allows, and can be fingered.
func TestFoundShapesAreTheChord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		on := rapid.SampledFrom(fret.Tunings()).Draw(t, "tuning")
		c := theory.NewChord(
			theory.Note{
				Letter: theory.Letter(rapid.IntRange(0, 6).Draw(t, "root")),
				Alter:  int8(rapid.IntRange(-1, 1).Draw(t, "alteration")),
			},
			rapid.SampledFrom(theory.Kinds()).Draw(t, "kind"),
		)
		if rapid.IntRange(0, 3).Draw(t, "slash") == 0 {
			c.Bass = rapid.SampledFrom(c.Tones()).Draw(t, "bass")
		}
		if fifth := slices.Index(c.Kind.Formula, theory.PerfectFifth); fifth > 0 && rapid.IntRange(0, 3).Draw(t, "no fifth") == 0 {
			c.Without |= 1 << fifth
			c.Bass = c.Root
		}
		hand := fret.Hand{Span: rapid.IntRange(1, 5).Draw(t, "span"), MaxFret: 12, Mute: rapid.Bool().Draw(t, "mute")}
		last := 0.0
		for _, f := range fret.Search(on, c, hand) {
			v, err := fret.Voice(on, f.Shape, c)
			if err != nil {
				t.Fatalf("%s: %v", f.Shape, err)
			}
			if !slices.Equal(v.Missing(), f.Missing) {
				t.Errorf("%s as %s lacks %v, not %v", f.Shape, c, v.Missing(), f.Missing)
			}
			for _, m := range f.Missing {
				if !slices.Contains(c.Kind.Omit, m) && !slices.Contains(c.Missing(), m) {
					t.Errorf("%s as %s lacks %v", f.Shape, c, m)
				}
			}
			lowest, lo, hi := 1<<30, 99, 0
			for i, s := range v.Strings {
				if s.Foreign {
					t.Errorf("%s as %s sounds %s", f.Shape, c, s.Pitch)
				}
				if (f.Fingers[i] > 0) != (s.Fret > 0) {
					t.Errorf("%s is fingered %v", f.Shape, f.Fingers)
				}
				if s.Fret == fret.Muted && (len(f.Shape) < 5 || !hand.Mute) {
					t.Errorf("%s mutes a string", f.Shape)
				}
				if s.Fret != fret.Muted {
					lowest = min(lowest, s.Pitch.MIDI())
				}
				if s.Fret > 0 {
					lo, hi = min(lo, s.Fret), max(hi, s.Fret)
				}
				for j := range i {
					switch a, b := f.Fingers[i], f.Fingers[j]; {
					case a == 0 || b == 0:
					case a == b && f.Shape[i] != f.Shape[j]:
						t.Errorf("%s is fingered %v: a finger on two frets", f.Shape, f.Fingers)
					case a > b && f.Shape[i] < f.Shape[j], a < b && f.Shape[i] > f.Shape[j]:
						t.Errorf("%s is fingered %v: fingers crossed", f.Shape, f.Fingers)
					}
				}
			}
			if c.Bass != c.Root && lowest%12 != c.Bass.Class() {
				t.Errorf("%s as %s has another bass", f.Shape, c)
			}
			if hi-lo >= hand.Span && hi > 0 || hi > hand.MaxFret {
				t.Errorf("%s is beyond the hand", f.Shape)
			}
			toll := fret.Toll(f)
			switch {
			case f.Taught && !slices.ContainsFunc(fret.Taught(on, c), func(s fret.Shape) bool { return slices.Equal(s, f.Shape) }):
				t.Errorf("%s is not taught", f.Shape)
			case f.Taught && last > 0:
				t.Errorf("%s is taught and comes after one that is not", f.Shape)
			case !f.Taught && toll < last:
				t.Errorf("%s comes after a harder one", f.Shape)
			case !f.Taught:
				last = toll
			}
			if toll < f.Effort {
				t.Errorf("%s: toll %.2f, effort %.2f", f.Shape, toll, f.Effort)
			}
		}
	})
}

// Nothing playable is missed: on four strings every shape whose names hold the chord, complete or a chord of four tones
// without its fifth, is found if the hand can hold it.
func TestNoShapeIsMissed(t *testing.T) {
	u := ukulele(t)
	hand := fret.Hand{Span: 6, MaxFret: 6}
	for _, symbol := range []string{"C", "Em", "G7", "Bbmaj7", "F#m7b5", "Dsus4", "Caug"} {
		c := chord(t, symbol)
		found := map[string]bool{}
		for _, f := range fret.Search(u, c, hand) {
			found[f.Shape.String()] = true
		}
		count := 0
		s := make(fret.Shape, 4)
		for n := range 7 * 7 * 7 * 7 {
			lo, hi := 99, 0
			for i := range s {
				s[i] = n % 7
				n /= 7
				if s[i] > 0 {
					lo, hi = min(lo, s[i]), max(hi, s[i])
				}
			}
			v, err := fret.Voice(u, s, c)
			if err != nil {
				t.Fatal(err)
			}
			bare := len(c.Kind.Formula) == 4 && slices.Equal(v.Missing(), []theory.Interval{theory.PerfectFifth})
			whole := (bare || v.Missing() == nil) && !slices.ContainsFunc(v.Strings, func(s fret.StringTone) bool { return s.Foreign })
			if _, _, _, ok := fret.Finger(s); whole && ok && (hi == 0 || hi <= u.Reach(lo)) {
				count++
				if !found[s.String()] {
					t.Errorf("%s: %s is not found", symbol, s)
				}
			}
		}
		if count != len(found) {
			t.Errorf("%s: %d shapes found, want %d", symbol, len(found), count)
		}
	}
}

// The easiest shapes are the first of all that are as wished.
func TestEasiestAreTheFirstOfAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		on := rapid.SampledFrom(fret.Tunings()).Draw(t, "tuning")
		kind := rapid.SampledFrom(theory.Kinds()).Draw(t, "kind")
		c := theory.NewChord(theory.Note{Letter: theory.Letter(rapid.IntRange(0, 6).Draw(t, "root"))}, kind)
		wish := fret.Wish{
			Most:   rapid.IntRange(0, 8).Draw(t, "most"),
			Effort: rapid.Float64Range(0, 20).Draw(t, "effort"),
			Needs:  rapid.SliceOfNDistinct(rapid.SampledFrom(kind.Formula), 0, 3, rapid.ID).Draw(t, "needs"),
		}
		var want []string
		for _, f := range fret.Search(on, c, fret.DefaultHand) {
			lacks := slices.ContainsFunc(f.Missing, func(i theory.Interval) bool { return slices.Contains(wish.Needs, i) })
			if f.Effort <= wish.Effort && !lacks && (wish.Most == 0 || len(want) < wish.Most) {
				want = append(want, fmt.Sprint(f))
			}
		}
		var got []string
		for _, f := range fret.Easiest(on, c, fret.DefaultHand, wish) {
			got = append(got, fmt.Sprint(f))
		}
		if !slices.Equal(got, want) {
			t.Errorf("%s on %s, %+v: %v, want %v", c, on.Name, wish, got, want)
		}
	})
}

func BenchmarkEasiest(b *testing.B) {
	for _, row := range []struct{ tuning, chord string }{
		{"ukulele", "C"}, {"ukulele", "C7"}, {"guitar", "C"}, {"guitar", "Am7"}, {"guitar", "C9"},
	} {
		b.Run(row.tuning+" "+row.chord, func(b *testing.B) {
			on, c := tuning(b, row.tuning), chord(b, row.chord)
			wish := fret.Wish{Most: 6, Effort: 12, Needs: c.Kind.Formula}
			b.ReportAllocs()
			for b.Loop() {
				fret.Easiest(on, c, fret.DefaultHand, wish)
			}
		})
	}
}

func BenchmarkSearch(b *testing.B) {
	for _, row := range []struct{ tuning, chord string }{
		{"ukulele", "C"}, {"ukulele", "C7"}, {"ukulele", "C13"}, {"guitar", "C"}, {"guitar", "Am7"}, {"guitar", "C13"},
	} {
		b.Run(row.tuning+" "+row.chord, func(b *testing.B) {
			on, c := tuning(b, row.tuning), chord(b, row.chord)
			b.ReportAllocs()
			for b.Loop() {
				fret.Search(on, c, fret.DefaultHand)
			}
		})
	}
}
