package catalogue

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/progress"
	"sparetone/theory"
	"sparetone/theory/read"
)

// The studies ask many questions of every drill. The ordinary run takes a part of them;
// SPARETONE_STUDY=1 go test -run Study -timeout 1h -v ./drills/catalogue runs them whole.

// anyRequest draws a request as a session may make it: a target among some that are in play, with some reach.
func anyRequest(d drills.Drill, on *neck.Instrument, rng *rand.Rand) drills.Request {
	targets := d.Targets(on)
	r := drills.Request{On: on, Reach: float64(rng.IntN(3)) / 2, Rand: rng}
	if rng.IntN(2) == 0 {
		for _, n := range rng.Perm(len(targets))[:min(len(targets), 2+rng.IntN(7))] {
			r.InPlay = append(r.InPlay, targets[n].ID)
		}
		r.Target = r.InPlay[rng.IntN(len(r.InPlay))]
	} else {
		r.Target = targets[rng.IntN(len(targets))].ID
	}
	all := Rungs(on, d.About().ID, r.Target)
	at := all[rng.IntN(len(all))]
	r.Clarity = at.Clarity
	if rng.IntN(2) == 0 {
		r.Reach = at.Reach
	}
	return r
}

// eachQuestion asks questions of every drill.
func eachQuestion(t *testing.T, on *neck.Instrument, count int, check func(t *testing.T, r drills.Request, q *drills.Question)) {
	for _, d := range All() {
		t.Run(d.About().ID, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(7, 77))
			for range count {
				r := anyRequest(d, on, rng)
				q, err := d.Ask(r)
				if err != nil {
					t.Fatalf("%s: %v", r.Target, err)
				}
				check(t, r, q)
			}
		})
	}
}

// Every question is marked right for its own answer and for all it accepts, and wrong for every other choice.
func TestStudyOfMarking(t *testing.T) {
	for _, name := range []string{"ukulele", "guitar"} {
		t.Run(name, func(t *testing.T) {
			eachQuestion(t, trial.Instrument(t, name), trial.StudyOf(60, 5000), func(t *testing.T, r drills.Request, q *drills.Question) {
				for _, text := range append([]string{q.Expected().Typed, q.Expected().Said.Screen()}, q.Accepts...) {
					if v, err := q.Mark(text); err != nil || v.Result != progress.Right {
						t.Errorf("%s %q: %q is marked %v, %v", r.Target, q.Text(), text, v.Result, err)
					} else if len(v.Lines) == 0 {
						t.Errorf("%s %q: %q is not explained", r.Target, q.Text(), text)
					}
				}
				for i, c := range q.Choices {
					v, err := q.Mark(c.Typed)
					if right := c.ID == q.Expected().ID; err != nil || (v.Result == progress.Right) != right {
						t.Errorf("%s %q: choice %q is marked %v, %v", r.Target, q.Text(), c.Typed, v.Result, err)
					}
					if isNumber(c.Typed) || slices.ContainsFunc(q.Choices[:i], func(o drills.Choice) bool { return o.Typed == c.Typed || o.Said.Screen() == c.Said.Screen() }) {
						t.Errorf("%s: choice %q cannot be told from another", r.Target, c.Typed)
					}
				}
				if (q.Form == drills.Choose) != (len(q.Choices) >= 2) {
					t.Errorf("%s: form %d with %d choices", r.Target, q.Form, len(q.Choices))
				}
			})
		})
	}
}

// isNumber reports whether a text would be taken for the number of a choice.
func isNumber(s string) bool { return len(s) == 1 && s[0] >= '1' && s[0] <= '0'+drills.MostChoices }

// progressionHeard reports whether the naming engine may call the chords that sound by the numerals of a choice, in
// the key that the first sound sets.
func progressionHeard(q *drills.Question, c drills.Choice) bool {
	tonic := theory.Name(trial.Pitches(q.Sounds[0]), theory.Context{NoBass: true})[0].Chord
	k := theory.Key{Tonic: tonic.Root, Minor: tonic.Kind.ID == "minor"}
	for i, degree := range strings.Split(strings.TrimPrefix(c.ID, "minor-"), "-") {
		n, _ := strconv.Atoi(degree)
		named := k.Triads()[n-1]
		if k.Minor && n == 5 { // with the raised seventh
			named.Kind = chord.Kind("major")
		}
		if !chord.IsNamed(namesOf(trial.Pitches(q.Sounds[i+1])), named) {
			return false
		}
	}
	return true
}

// namesOf returns the right names of what sounds.
func namesOf(sound []theory.Pitch) []theory.Chord {
	var out []theory.Chord
	for _, n := range theory.RightNames(sound) {
		out = append(out, n.Chord)
	}
	return out
}

// No question has two right answers among its choices: the naming engine calls what sounds or is shown by
// no choice but the marked one.
func TestStudyOfNames(t *testing.T) {
	anyRoot := func(sound []theory.Pitch, kind string) bool {
		return slices.ContainsFunc(namesOf(sound), func(n theory.Chord) bool { return n.Kind.ID == kind })
	}
	isRight := map[string]func(q *drills.Question, c drills.Choice) bool{
		"chord-ear": func(q *drills.Question, c drills.Choice) bool {
			return anyRoot(trial.Pitches(q.Sounds[map[int]int{2: 1, 3: 1}[len(q.Sounds)]]), c.ID) // after another, or between two
		},
		"added-ear": func(q *drills.Question, c drills.Choice) bool {
			if len(q.Sounds) == 1 {
				return anyRoot(trial.Pitches(q.Sounds[0]), strings.TrimSuffix(c.ID, "-alone"))
			}
			plain := theory.Name(trial.Pitches(q.Sounds[0]), theory.Context{NoBass: true})[0].Chord
			return chord.IsNamed(namesOf(trial.Pitches(q.Sounds[1])), theory.NewChord(plain.Root, chord.Kind(c.ID)))
		},
		"same-or-not": func(q *drills.Question, c drills.Choice) bool {
			if len(q.Sounds) == 1 { // two notes
				first, then := q.Sounds[0].Plucked()[0].Pitch.MIDI(), q.Sounds[0].Plucked()[1].Pitch.MIDI()
				return map[string]bool{"first": first > then, "second": then > first, "same": first == then, "different": first != then}[c.ID]
			}
			if coloured, ok := strings.CutPrefix(q.Target, "which-has-"); ok {
				return anyRoot(trial.Pitches(q.Sounds[map[string]int{"first": 0, "second": 1}[c.ID]]), coloured)
			}
			one, other, _ := strings.Cut(q.Target, "-or-")
			both := func(kind string) bool {
				return anyRoot(trial.Pitches(q.Sounds[0]), kind) && anyRoot(trial.Pitches(q.Sounds[1]), kind)
			}
			return (both(one) || both(other)) == (c.ID == "same")
		},
		"shape-name": func(q *drills.Question, c drills.Choice) bool {
			named, err := read.Chord(c.Typed)
			return err == nil && chord.IsNamed(namesOf(q.Shown.Pitches()), named)
		},
		"progression-ear": func(q *drills.Question, c drills.Choice) bool {
			if strings.HasPrefix(q.Target, "with-a-") {
				return c.ID == q.Expected().ID // the numerals are told: nothing is named
			}
			return progressionHeard(q, c)
		},
	}
	for _, name := range []string{"ukulele", "guitar"} {
		on := trial.Instrument(t, name)
		for _, drill := range IDs() {
			right, ok := isRight[drill]
			if !ok {
				continue // its choices are no names of what sounds
			}
			t.Run(name+"/"+drill, func(t *testing.T) {
				d, _ := ByID(drill)
				rng := rand.New(rand.NewPCG(9, 99))
				for range trial.StudyOf(300, 10000) {
					r := anyRequest(d, on, rng)
					q, err := d.Ask(r)
					if err != nil {
						t.Fatal(err)
					}
					for _, c := range q.Choices {
						if got := right(q, c); got != (c.ID == q.Expected().ID) {
							t.Errorf("%s %s: %q is a right name: %v", r.Target, q.Text(), c.Said.Screen(), got)
						}
					}
				}
			})
		}
	}
}
