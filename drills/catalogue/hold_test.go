package catalogue

import (
	"slices"
	"strconv"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/synth"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// holdOf is a hold to chords, each with shapes after a colon if it has any, and to moves such as F=2010>Fadd9=0010.
func holdOf(t testing.TB, on *neck.Instrument, chords string, moves string) (h neck.Hold) {
	t.Helper()
	chord := func(symbol string) theory.Chord {
		c, err := read.Chord(symbol)
		if err != nil {
			t.Fatal(err)
		}
		return c
	}
	shape := func(frets string) fret.Shape {
		s, err := on.ReadShape(frets)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	for _, word := range strings.Fields(chords) {
		symbol, shapes, _ := strings.Cut(word, ":")
		c := neck.HeldChord{Chord: chord(symbol)}
		for _, s := range strings.FieldsFunc(shapes, func(r rune) bool { return r == ',' }) {
			c.Shapes = append(c.Shapes, shape(s))
		}
		h.Chords = append(h.Chords, c)
	}
	for _, word := range strings.Fields(moves) {
		from, to, _ := strings.Cut(word, ">")
		plain, before, _ := strings.Cut(from, "=")
		coloured, after, _ := strings.Cut(to, "=")
		h.Moves = append(h.Moves, neck.HeldMove{Plain: chord(plain), Coloured: chord(coloured), From: shape(before), To: shape(after)})
	}
	return h
}

// asksAbout lists the chords and shapes that a question is about, but for those that are only one note.
func asksAbout(q *drills.Question) (chords []theory.Chord, shapes []fret.Shape) {
	if q.Shown != nil {
		chords, shapes = append(chords, q.Shown.Chord), append(shapes, q.Shown.Shape)
	}
	if q.Answer.Kind != nil {
		chords = append(chords, q.Answer)
	}
	if q.Drill == "chord-ear" || q.Drill == "added-ear" || q.Drill == "same-or-not" {
		for _, s := range q.Solution().Shapes {
			chords, shapes = append(chords, s.Voicing.Chord), append(shapes, s.Voicing.Shape)
		}
	}
	return chords, shapes
}

// Every question of every drill is on the chords that are held to, on the first rung as on the last; of what has no question the drill
// says so. What is coloured by one string has a plain chord of these, or is one.
func TestQuestionsAreHeldToChords(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar"} {
		plain := trial.Instrument(t, name)
		h := holdOf(t, plain, "C Am F G7 Dm Fadd9", "")
		h.Key = &theory.Key{Tonic: h.Chords[0].Root}
		on := plain.HeldTo(h)
		roots := func(c theory.Chord) bool {
			return slices.ContainsFunc(h.Chords, func(l neck.HeldChord) bool { return l.Root.Same(c.Root) && l.Kind == c.Kind }) ||
				!slices.ContainsFunc(h.Chords, func(l neck.HeldChord) bool { return l.Kind == c.Kind }) && slices.ContainsFunc(h.Chords, func(l neck.HeldChord) bool { return l.Root.Same(c.Root) })
		}
		for _, d := range All() {
			asked := 0
			for _, target := range d.Targets(on) {
				for seed := range uint64(2) {
					rungs := Rungs(on, d.About().ID, target.ID)
					r := drills.Request{Target: target.ID, On: on, Reach: float64(seed), Rand: drills.QuestionRand(d.About().ID, target.ID, seed)}
					r.Clarity = rungs[int(seed)%len(rungs)].Clarity
					q, err := d.Ask(r)
					if err != nil {
						continue
					}
					asked++
					chords, _ := asksAbout(q)
					for _, c := range chords {
						if !roots(c) {
							t.Errorf("%s: %s/%s seed %d asks about %s", name, d.About().ID, target.ID, seed, c)
						}
					}
				}
			}
			if asked == 0 && d.About().ID != "progression-ear" {
				t.Errorf("%s: %s asks nothing", name, d.About().ID)
			}
		}
	}
}

// Shapes and moves are held to where any are listed.
func TestQuestionsAreHeldToShapes(t *testing.T) {
	on := trial.Ukulele(t)
	on = on.HeldTo(holdOf(t, on, "F:2010 Fadd9:0010 C:0003,5433 Am", "F=2010>Fadd9=0010"))
	for _, c := range []struct{ drill, target, shapes string }{
		{"swap", "added-ninth", "2010"},
		{"added-ear", "added-ninth", "2010 0010"},
		{"build", "added-ninth", ""},
		{"shape-tones", "major", "2010 0003 5433"},
		{"shape-name", "added-ninth", "0010"},
		{"chord-ear", "major", "2010 0003 5433"},
		{"doubled", "third", "2010 0003 5433 0010"},
	} {
		d, _ := ByID(c.drill)
		met := map[string]bool{}
		for seed := range uint64(60) {
			q, err := d.Ask(drills.Request{Target: c.target, On: on, Reach: 1, Rand: drills.QuestionRand(c.drill, c.target, seed)})
			if err != nil {
				t.Fatalf("%s: %v", c.drill, err)
			}
			_, shapes := asksAbout(q)
			for _, s := range shapes {
				if met[s.String()] = true; !slices.Contains(strings.Fields(c.shapes), s.String()) && c.drill != "doubled" {
					t.Errorf("%s asks about %s", c.drill, s)
				}
			}
		}
		if want := strings.Fields(c.shapes); len(met) < len(want) && c.drill != "doubled" {
			t.Errorf("%s asks about %d of the shapes %s", c.drill, len(met), c.shapes)
		}
	}
}

// The names to choose from are of chords that are held to, and none of them is another name of what is shown.
func TestNamesToChooseFromAreHeldTo(t *testing.T) {
	on := trial.Ukulele(t)
	h := holdOf(t, on, "C Am F G7 Am7 C6", "")
	d, _ := ByID("shape-name")
	for seed := range uint64(40) {
		q, err := d.Ask(drills.Request{Target: []string{"major", "minor", "dominant", "minor-seventh"}[seed%4], On: on.HeldTo(h), Rand: drills.QuestionRand("shape-name", "major", seed)})
		if err != nil {
			t.Fatal(err)
		}
		right := 0
		for _, c := range q.Choices {
			if !slices.ContainsFunc(h.Chords, func(l neck.HeldChord) bool { return l.Chord.Symbol() == c.Typed }) {
				t.Errorf("%s is offered", c.Typed)
			}
			if v, err := q.Mark(c.Typed); err == nil && v.Result.String() == "right" {
				right++
			}
		}
		if right != 1 {
			t.Errorf("%s: %d of the choices are right", q.Text(), right)
		}
	}
}

// A key that is held to is the key of every question in a key, or its relative: it is named, or its tonic is heard first.
func TestQuestionsAreHeldToAKey(t *testing.T) {
	on := trial.Ukulele(t)
	on = on.HeldTo(neck.Hold{Key: &theory.Key{Tonic: chord.MustNotes("G")[0]}})
	tonics := []string{"7 11 2", "4 7 11"} // pitch classes of G and of Em
	for id, targets := range map[string]string{"key-add": "add-to-major-4 add-to-minor-1 clash-with-major-1", "progression-ear": "1-4-5 minor-1-4-5 with-a-ninth"} {
		d, _ := ByID(id)
		for _, target := range strings.Fields(targets) {
			q, err := d.Ask(drills.Request{Target: target, On: on, Reach: 0.5, Rand: drills.QuestionRand(id, target, 1)})
			if err != nil {
				t.Fatal(id, target, err)
			}
			switch p := q.Prompt.Screen(); {
			case len(q.Sounds) > 0:
				if !slices.ContainsFunc(tonics, func(all string) bool {
					return !slices.ContainsFunc(q.Sounds[0].Notes, func(n synth.Sounding) bool {
						return !slices.Contains(strings.Fields(all), strconv.Itoa(n.Pitch.Class()))
					})
				}) {
					t.Errorf("%s begins with %v", target, q.Sounds[0].Notes)
				}
			case !strings.Contains(p, "G major") && !strings.Contains(p, "E natural minor"):
				t.Errorf("%s: %s", target, p)
			}
		}
	}
}
