package catalogue

import (
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/ear"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/drills/wording"
	"sparetone/synth"
	"sparetone/theory"
)

// What a question may be like, by which its form is told.
var forms = map[string]func(q *drills.Question, on *neck.Instrument) bool{
	"own voice": func(q *drills.Question, on *neck.Instrument) bool { return q.Voice == on.Voices[0] },
	"plain first": func(q *drills.Question, _ *neck.Instrument) bool {
		return len(q.Sounds) == 2 && q.Sounds[0].Label.Equal(wording.LabelPlain)
	},
	"strummed": func(q *drills.Question, _ *neck.Instrument) bool {
		return !slices.ContainsFunc(q.Sounds, func(s drills.Sound) bool { return len(s.Notes) > 2 && !inTuningOrder(s) })
	},
	"slow": func(q *drills.Question, _ *neck.Instrument) bool {
		return !slices.ContainsFunc(q.Sounds, func(s drills.Sound) bool { return len(s.Notes) > 2 && step(s) < 50*time.Millisecond })
	},
	"lasting": func(q *drills.Question, _ *neck.Instrument) bool {
		return !slices.ContainsFunc(q.Sounds, func(s drills.Sound) bool { return len(s.Notes) > 2 && s.Score.Length < 1500*time.Millisecond })
	},
	"one root": func(q *drills.Question, _ *neck.Instrument) bool {
		return theory.Name(trial.Pitches(q.Sounds[0]), theory.Context{NoBass: true})[0].Chord.Root.Same(soundedRoot(q.Sounds[1]))
	},
	"root lowest": func(q *drills.Question, _ *neck.Instrument) bool {
		return !slices.ContainsFunc(q.Sounds, func(s drills.Sound) bool {
			return !s.Label.Equal(wording.LabelPlain) && len(s.Notes) > 2 && slices.ContainsFunc(s.Notes, func(n synth.Sounding) bool {
				return n.Pitch.MIDI() < rootPitch(s)
			})
		})
	},
	"between the fourth and the fifth": func(q *drills.Question, _ *neck.Instrument) bool {
		if len(q.Sounds) != 3 {
			return false
		}
		root := soundedRoot(q.Sounds[1])
		for i, up := range map[int]theory.Interval{0: theory.PerfectFourth, 2: theory.PerfectFifth} {
			c := theory.Name(trial.Pitches(q.Sounds[i]), theory.Context{NoBass: true})[0].Chord
			if c.Kind.ID != "major" || c.Root.Class() != root.Up(up).Class() {
				return false
			}
		}
		return true
	},
	"turned": func(q *drills.Question, on *neck.Instrument) bool { // what is asked, or what is right
		v := q.Solution().Shapes[0].Voicing
		return neck.Lowest(on.Tuning, v.Shape)%12 == v.Chord.Bass.Class() && v.Chord.Bass != v.Chord.Root
	},
	"rising": func(q *drills.Question, _ *neck.Instrument) bool {
		return strings.Contains(q.Prompt.Screen(), "going up")
	},
	"in turn": func(q *drills.Question, _ *neck.Instrument) bool {
		return !strings.Contains(q.Prompt.Screen(), "together")
	},
	"far apart": func(q *drills.Question, _ *neck.Instrument) bool {
		return apart(q) == 0 || apart(q) == 5 || apart(q) == 7
	},
	"close": func(q *drills.Question, _ *neck.Instrument) bool { return apart(q) <= 2 },
	"no closer": func(q *drills.Question, _ *neck.Instrument) bool {
		return apart(q) == 0 || apart(q) == 3 || apart(q) == 4
	},
}

// step is how long it takes from the first string to the next.
func step(s drills.Sound) time.Duration { return s.Score.Plucks[1].At - s.Score.Plucks[0].At }

// rootPitch is the pitch of the string that sounds a chord's lowest root.
func rootPitch(s drills.Sound) int {
	return s.Notes[slices.IndexFunc(s.Notes, func(n synth.Sounding) bool { return n.String == s.Root })].Pitch.MIDI()
}

// soundedRoot is the note of the string that sounds a chord's root.
func soundedRoot(s drills.Sound) theory.Note {
	return s.Notes[slices.IndexFunc(s.Notes, func(n synth.Sounding) bool { return n.String == s.Root })].Pitch.Note
}

// apart is how many semitones two notes lie apart.
func apart(q *drills.Question) int {
	n := q.Sounds[0].Notes
	return max(n[0].Pitch.MIDI()-n[1].Pitch.MIDI(), n[1].Pitch.MIDI()-n[0].Pitch.MIDI())
}

// Each rung holds fixed what it says, whatever the seed, and lets the rest vary: what one rung holds and the next does not varies there.
func TestRungs(t *testing.T) {
	for _, c := range []struct {
		drill, target string
		holds         [][]string // by rung
		turned        bool       // where there is a bass another rung follows
	}{
		{"chord-ear", "minor", [][]string{{"own voice", "plain first", "strummed", "root lowest", "lasting", "slow"}, {"own voice", "strummed", "root lowest", "lasting"}, {"own voice", "strummed", "lasting"}, {"own voice", "lasting"}, {"lasting"}, {}, {"between the fourth and the fifth"}}, true},
		{"shape-name", "minor", [][]string{{"own voice"}, {}, {}, {}}, true},
		{"shape-tones", "minor", [][]string{{"own voice"}, {}, {}, {}}, true},
		{"build", "minor", [][]string{{"own voice"}, {}, {}, {}}, true},
		{"same-or-not", "major-or-minor", [][]string{{"own voice", "strummed", "root lowest", "one root", "lasting", "slow"}, {"own voice", "strummed", "root lowest", "lasting"}, {"own voice", "strummed", "lasting"}, {"own voice", "lasting"}, {"lasting"}, {}}, false},
		{"added-ear", "added-ninth", [][]string{{"own voice", "strummed", "root lowest", "lasting", "slow"}, {"own voice", "strummed", "lasting"}, {"own voice", "lasting"}, {"lasting"}, {}}, false},
		{"added-ear", "added-ninth-alone", [][]string{{"own voice", "strummed", "root lowest", "lasting", "slow"}, {"own voice", "strummed", "lasting"}, {"own voice", "lasting"}, {"lasting"}, {}}, false},
		{"resolve", "dominant", [][]string{{"own voice", "strummed", "root lowest", "lasting", "slow"}, {"own voice", "strummed", "lasting"}, {"own voice", "lasting"}, {"lasting"}, {}}, false},
		{"spell", "third-of-triad", [][]string{{"own voice", "strummed", "root lowest", "lasting", "slow"}, {"own voice", "strummed", "lasting"}, {"own voice", "lasting"}, {"lasting"}, {}}, false},
		{"progression-ear", "1-4-5", [][]string{{"own voice", "strummed"}, {"own voice"}, {}}, false},
		{"interval-ear", "P5", [][]string{{"own voice", "rising", "in turn"}, {"own voice", "in turn"}, {"own voice"}, {}}, false},
		{"same-or-not", "same-note", [][]string{{"own voice", "far apart"}, {"own voice", "no closer"}, {"own voice", "close"}, {"close"}}, false},
	} {
		for _, tuning := range []string{"ukulele", "guitar"} {
			on := trial.Instrument(t, tuning)
			d, _ := ByID(c.drill)
			byRung := c.holds
			if c.turned && tuning == "guitar" {
				byRung = append(slices.Clone(byRung), []string{"turned"})
			}
			if got := len(Rungs(on, c.drill, c.target)); got != len(byRung) {
				t.Fatalf("%s %s has %d rungs, want %d", c.drill, c.target, got, len(byRung))
			}
			for n, holds := range byRung {
				at, rung := AtRung(on, c.drill, c.target, n+1)
				if rung != n+1 || at.Words.IsZero() {
					t.Errorf("%s %s: rung %d is %d, %q", c.drill, c.target, n+1, rung, at.Words)
				}
				var varies []string // what the rung before held
				if n > 0 {
					varies = slices.DeleteFunc(slices.Clone(byRung[n-1]), func(f string) bool { return slices.Contains(holds, f) })
				}
				times := map[string]int{}
				const seeds = 40
				for seed := range uint64(seeds) {
					q, err := d.Ask(drills.Request{Target: c.target, On: on, Clarity: at.Clarity, Reach: at.Reach, Rand: drills.QuestionRand(c.drill, c.target, seed)})
					if err != nil {
						t.Fatal(err)
					}
					for _, f := range holds {
						if !forms[f](q, on) {
							t.Errorf("%s, %s %s, rung %d, seed %d: not %s: %s", tuning, c.drill, c.target, n+1, seed, f, q.Text())
						}
					}
					for _, f := range varies {
						if forms[f](q, on) {
							times[f]++
						}
					}
				}
				for _, f := range varies {
					if times[f] == seeds && (f != "root lowest" || tuning == "ukulele") { // on a guitar all shapes that are asked stand on the root
						t.Errorf("%s, %s %s, rung %d: always %s", tuning, c.drill, c.target, n+1, f)
					}
				}
			}
		}
	}
}

// What is to be seen or held begins with the first shapes and reaches further with each rung; what is about names alone has one.
func TestRungsOfTheNeck(t *testing.T) {
	on := trial.Ukulele(t)
	for _, d := range All() {
		id := d.About().ID
		for _, target := range d.Targets(on) {
			all := Rungs(on, id, target.ID)
			for n, r := range all {
				if (len(all) == 1) != r.Words.IsZero() {
					t.Errorf("%s %s, rung %d of %d is called %q", id, target.ID, n+1, len(all), r.Words)
				}
				if n > 0 && r.Reach < all[n-1].Reach {
					t.Errorf("%s %s: rung %d reaches less far than the one before", id, target.ID, n+1)
				}
			}
			if last := all[len(all)-1]; last.Clarity != (drills.Clarity{Among: last.Clarity.Among}) {
				t.Errorf("%s %s is never asked in any form", id, target.ID)
			}
		}
	}
	for _, c := range []struct {
		drill, target string
		rung          int
		tells         string
		at            int
	}{
		{"shape-name", "major", 0, "", 1}, {"shape-name", "major", 1, "", 1}, {"shape-name", "major", 2, "in the first shapes", 2},
		{"shape-name", "major", 5, "anywhere on the neck", 4}, {"shape-name", "major", 9, "anywhere on the neck", 4},
		{"chord-ear", "major", 3, "without the plain chord", 3}, {"added-ear", "added-ninth-alone", 3, "without the plain chord, in any voicing", 3},
		{"key-add", "scale-of-major-1", 4, "", 1},
	} {
		if got := TellsIt(on, c.drill, c.target, c.rung).Screen(); got != c.tells && len(Rungs(on, c.drill, c.target)) > 1 {
			t.Errorf("%s %s on rung %d: told %q, want %q", c.drill, c.target, c.rung, got, c.tells)
		}
		if _, at := AtRung(on, c.drill, c.target, c.rung); at != c.at {
			t.Errorf("%s %s on rung %d is asked on %d, want %d", c.drill, c.target, c.rung, at, c.at)
		}
	}
}

// Where any of the choices is new the question is as clear as can be, whichever of them is asked for; where none is it stays as it was.
func TestWhatIsNewMakesAQuestionClear(t *testing.T) {
	on := trial.Ukulele(t)
	for _, isNew := range []string{"minor", "major", "nothing"} {
		anew := drills.NewAnew(func(string) bool { return true }, drills.QuestionRand("", "", 7))
		anew.AskNewAt(drills.Rung{Clarity: drills.KindRungs[0].Clarity}, func(target string) bool { return target == isNew })
		q, err := ear.Chord{}.Ask(drills.Request{Target: "major", On: on, InPlay: []string{"major", "minor"}, Anew: anew, Reach: 1, Rand: drills.QuestionRand("chord-ear", "major", 3)})
		if err != nil {
			t.Fatal(err)
		}
		want := isNew != "nothing"
		if anew.AnyNew() != want || forms["plain first"](q, on) != want {
			t.Errorf("%s is new: told so %v, asked clearly %v", isNew, anew.AnyNew(), forms["plain first"](q, on))
		}
	}
}
