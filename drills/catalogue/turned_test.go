package catalogue

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"sparetone/drills"
	"sparetone/drills/chord"
	"sparetone/drills/guesser"
	"sparetone/drills/neck"
	"sparetone/drills/trial"
	"sparetone/progress"
)

// A chord over another note is asked for where there is a bass, and not on a ukulele.
func TestTurnedChordsAreAskedWhereThereIsABass(t *testing.T) {
	for _, row := range []struct {
		tuning, drill, target string
		last                  string
	}{
		{"guitar", "chord-ear", "major", "with another note in the bass"},
		{"guitar", "build", "dominant", "with another note in the bass"},
		{"ukulele", "chord-ear", "major", "among other chords"},
		{"ukulele", "build", "dominant", "anywhere on the neck"},
		{"guitar", "doubled", "root-doubled", "anywhere on the neck"},
		{"guitar", "same-or-not", "major-or-minor", "however short they are"},
	} {
		all := Rungs(trial.Instrument(t, row.tuning), row.drill, row.target)
		if last := all[len(all)-1].Words.Screen(); last != row.last {
			t.Errorf("%s %s on a %s is asked %s at last, want %s", row.drill, row.target, row.tuning, last, row.last)
		}
	}
}

// turnedQuestion is a question over another note on a guitar.
func turnedQuestion(t *testing.T, id, target string, seed uint64) *drills.Question {
	t.Helper()
	on := trial.Instrument(t, "guitar")
	d, _ := ByID(id)
	at, _ := AtRung(on, id, target, 99)
	q, err := d.Ask(drills.Request{Target: target, On: on, Clarity: at.Clarity, Reach: at.Reach, Rand: drills.QuestionRand(id, target, seed)})
	if err != nil {
		t.Fatal(err)
	}
	return q
}

// Four strings sound at least, the third, fifth or seventh is lowest, and the sentence says which. Where every note may be called the root
// there is none to say.
func TestTurnedChordsSayWhatIsInTheBass(t *testing.T) {
	for _, target := range []string{"major", "dominant", "major-sixth", "diminished-seventh"} {
		for seed := range uint64(20) {
			q := turnedQuestion(t, "shape-tones", target, seed)
			v := q.Solution()
			is := v.Shapes[0].Voicing
			tone := is.Chord.Root.To(is.Chord.Bass)
			if neck.Sounding(is.Shape) < 4 || neck.Lowest(is.Tuning, is.Shape)%12 != is.Chord.Bass.Class() {
				t.Errorf("%s is asked as %s", is.Shape, is.Chord)
			}
			turned := target != "diminished-seventh"
			if turned != (tone.Number == 3 || tone.Number == 5 || tone.Number == 7) {
				t.Errorf("%s is asked over %s", is.Chord, tone)
			}
			if said := v.Short.Screen(); strings.HasSuffix(said, ", with "+tone.Role()+" in the bass.") != turned {
				t.Errorf("%s: %q", is.Chord, said)
			}
		}
	}
}

// To build a chord over a note takes that note in the bass: with another it is partly right, and it is said which is wanted.
func TestBuildOverANote(t *testing.T) {
	for seed := range uint64(200) {
		q := turnedQuestion(t, "build", "major", seed)
		if q.Answer.Symbol() != "C/E" {
			continue
		}
		for _, row := range []struct {
			shape string
			want  progress.Result
		}{{"032010", progress.Right}, {"x32010", progress.Partly}, {"332010", progress.Partly}, {"022100", progress.Wrong}} {
			if v, err := q.Mark(row.shape); err != nil || v.Result != row.want {
				t.Errorf("%s as C/E is %v, %v", row.shape, v.Result, err)
			}
		}
		v, _ := q.Mark("332013") // too far from a right shape to be mended by one string
		if said := trial.Printed(v.Lines); !slices.Contains(said, "C/E has E in the bass: no note lies below it.") {
			t.Errorf("%q", said)
		}
		if more := q.MoreRight().Screen(); more != "Any other shape of just these notes, with E in the bass, is right too." {
			t.Errorf("%q", more)
		}
		return
	}
	t.Error("C/E is never asked for")
}

// Another note in the bass tells nothing but what it is: not how low it lies, how many strings sound or where on the neck.
func TestTurnedChordsAreFair(t *testing.T) {
	on := trial.Instrument(t, "guitar")
	for _, id := range []string{"chord-ear", "shape-name"} {
		t.Run(id, func(t *testing.T) {
			d, _ := ByID(id)
			rng := rand.New(rand.NewPCG(8, 15))
			targets := d.Targets(on)
			count := trial.StudyOf(600, allOfEach)
			var asked []met
			turned := 0
			for len(asked) < count {
				target := targets[rng.IntN(len(targets))].ID
				at, _ := AtRung(on, id, target, 99)
				q, err := d.Ask(drills.Request{Target: target, On: on, Clarity: at.Clarity, Reach: at.Reach, Rand: rng})
				if err != nil {
					t.Fatal(err)
				}
				if chord.IsTurned(q.Solution().Shapes[0].Voicing.Chord) {
					turned++
				}
				asked = append(asked, met{Question: q})
			}
			chance, figures := fairChoices(t, asked)
			bound := mostAboveChance
			if !trial.Whole() {
				bound = max(bound, 100*guesser.ByLuck(count, chance, len(figures)*2))
			}
			line := fmt.Sprintf("%d questions, %d over another note, chance %.1f %%:", count, turned, 100*chance)
			for _, f := range figures {
				if f.has {
					line += fmt.Sprintf(" %s %+.1f", f.feature, f.above)
				}
				if f.has && f.above > bound {
					t.Errorf("%s alone guesses %.1f points above chance, more than %.1f", f.feature, f.above, bound)
				}
			}
			t.Log(line)
			if 100*turned < 85*count { // all but those of which every note may be called the root
				t.Errorf("%d of %d over another note", turned, count)
			}
		})
	}
}
