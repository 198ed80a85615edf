package paper

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"testing"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/neck"
	"sparetone/progress"
	"sparetone/synth"
	"sparetone/theory/fret"
)

// sitter is a simulated student who sits a paper. What is hard for it is no sum of what papers are made alike by: it has its own limits.
type sitter struct {
	knows, perTarget         float64 // logits
	seed                     uint64
	high, stretch, signs     float64 // how much a shape up the neck, one that asks much, and sharps and flats cost it
	deep, together, strange  float64 // what is low, struck at once, or in a strange voice
	many                     float64 // more strings than three
	highFrom, deepFrom, hard float64 // from where on
}

func newSitter(rng *rand.Rand) sitter {
	cost := func(most float64) float64 { return most * rng.Float64() }
	return sitter{
		knows: 0.6 + rng.NormFloat64(), perTarget: 0.8, seed: rng.Uint64(),
		high: cost(1.2), stretch: cost(1), signs: cost(0.8), deep: cost(0.8), together: cost(0.8), strange: cost(0.6), many: cost(0.5),
		highFrom: 2 + 4*rng.Float64(), deepFrom: 52 + 12*rng.Float64(), hard: 4 + 5*rng.Float64(),
	}
}

// facts are what a student finds in a question.
type facts struct {
	target                           string
	guess                            float64
	highest, effort, signs, lowest   float64
	together, strange, many, sounded bool
}

func factsOf(q *drills.Question, on *neck.Instrument) facts {
	f := facts{target: q.Drill + "/" + q.Target, strange: len(q.Sounds) > 0 && q.Voice != on.Voices[0], sounded: len(q.Sounds) > 0, lowest: 200}
	if len(q.Choices) > 0 {
		f.guess = 1 / float64(len(q.Choices))
	}
	for _, s := range q.Sounds {
		for _, p := range s.Score.Plucks {
			f.lowest = min(f.lowest, float64(p.Pitch.MIDI()))
			f.together = f.together || len(s.Score.Plucks) > 1 && p.At == s.Score.Plucks[0].At && p != s.Score.Plucks[0]
		}
	}
	for _, r := range q.Solution().AskedShapes() {
		_, _, effort, _ := fret.Finger(r.Voicing.Shape)
		f.effort = max(f.effort, effort)
		sounding := 0
		for _, s := range r.Voicing.Strings {
			f.highest = max(f.highest, float64(s.Fret))
			if s.Fret != fret.Muted {
				sounding++
				if s.Pitch.Note.Alter != 0 {
					f.signs++
				}
			}
		}
		f.many = f.many || sounding > 3
	}
	return f
}

// chance is how likely a student is right.
func (s sitter) chance(f facts) float64 {
	h := uint64(14695981039346656037) ^ s.seed
	for _, c := range []byte(f.target) {
		h = (h ^ uint64(c)) * 1099511628211
	}
	logit := s.knows + s.perTarget*rand.New(rand.NewPCG(h, s.seed)).NormFloat64()
	for _, cost := range []struct {
		is   bool
		much float64
	}{{f.highest > s.highFrom, s.high}, {f.effort > s.hard, s.stretch}, {f.signs > 0, s.signs}, {f.signs > 2, s.signs}, {f.sounded && f.lowest < s.deepFrom, s.deep},
		{f.together, s.together}, {f.strange, s.strange}, {f.many, s.many}} {
		if cost.is {
			logit -= cost.much
		}
	}
	knows := 1 / (1 + math.Exp(-logit))
	return knows + (1-knows)*f.guess
}

// apart is how many standard errors the scores of so many students in two papers lie apart; each sits both.
func apart(a, b []*drills.Question, on *neck.Instrument, students int, rng *rand.Rand) float64 {
	score := func(facts []facts, s sitter) (right float64) {
		for _, f := range facts {
			if rng.Float64() < s.chance(f) {
				right++
			}
		}
		return right
	}
	var one, other []facts
	for n := range a {
		one, other = append(one, factsOf(a[n], on)), append(other, factsOf(b[n], on))
	}
	var sum, squares float64
	for range students {
		s := newSitter(rng)
		d := score(one, s) - score(other, s)
		sum, squares = sum+d, squares+d*d
	}
	n := float64(students)
	variance := squares/n - sum/n*sum/n
	if variance == 0 {
		return 0
	}
	return sum / n / math.Sqrt(variance/n)
}

// Simulated students score alike on all versions of a paper: of pairs of papers no more are told apart, at 1,000 students and five chances
// of a hundred to be wrong, than by chance. Papers from other seeds, which nothing evens out, are told apart far more often, so the students
// do tell. SPARETONE_STUDY=1 makes eight papers of each drill on two instruments.
func TestVersionsAreAsHard(t *testing.T) {
	const students = 1000
	papers, tunings, ids := 1, fret.Tunings()[:1], []string{"chord-ear", "added-ear", "build", "shape-tones"}
	if os.Getenv("SPARETONE_STUDY") != "" {
		papers, ids = 8, catalogue.IDs()
		guitar, err := fret.ParseTuning("guitar")
		if err != nil {
			t.Fatal(err)
		}
		tunings = append(slices.Clone(tunings), guitar)
	}
	rng := rand.New(rand.NewPCG(5, 18))
	pairs, told, plain := 0, 0, 0
	for _, tuning := range tunings {
		on := &neck.Instrument{Tuning: tuning, Voices: synth.Voices(), Hand: fret.DefaultHand}
		for _, id := range ids {
			d, _ := catalogue.ByID(id)
			here, alone, shared := 0, 0, 0
			for seed := range papers {
				all, err := OfDrill(d, on, 20, uint64(seed+1), 3)
				if err != nil {
					t.Fatal(err)
				}
				other, err := OfDrill(d, on, 20, uint64(seed+1001), 1)
				if err != nil {
					t.Fatal(err)
				}
				for _, pair := range [][2]int{{0, 1}, {0, 2}} {
					if math.Abs(apart(all[pair[0]], all[pair[1]], on, students, rng)) > 1.96 {
						here++
					}
					if math.Abs(apart(all[0], other[0], on, students, rng)) > 1.96 {
						alone++
					}
					shared += Shared(all[pair[0]], all[pair[1]])
				}
			}
			t.Logf("%s on %s: of %d pairs %d told apart, from other seeds %d; %.1f of 20 questions in common", id, tuning.Name, 2*papers, here, alone, float64(shared)/float64(2*papers))
			pairs, told, plain = pairs+2*papers, told+here, plain+alone
		}
	}
	t.Logf("of %d pairs %d told apart, from other seeds %d", pairs, told, plain)
	// Five in a hundred, and what luck adds in one of a thousand such runs.
	if most := 0.05*float64(pairs) + 3.1*math.Sqrt(0.05*0.95*float64(pairs)); float64(told) > most {
		t.Errorf("%d of %d pairs are told apart, where chance tells %.0f at the most", told, pairs, most)
	}
	if plain < 4*told || plain < pairs/4 {
		t.Errorf("papers from other seeds are told apart %d times of %d: the students tell nothing", plain, pairs)
	}
}

// The first version is the paper as it is alone; the others ask in each place for the same, with the same choices, about something else.
func TestVersionsAskTheSameOfOthers(t *testing.T) {
	on := &neck.Instrument{Tuning: fret.Tunings()[0], Voices: synth.Voices(), Hand: fret.DefaultHand}
	const count = 5
	for id, versions := range map[string]int{"interval-ear": 3, "chord-ear": 2, "swap": 2, "key-add": 2} {
		d, _ := catalogue.ByID(id)
		alone, err := OfDrill(d, on, count, 7, 1)
		if err != nil {
			t.Fatal(err)
		}
		all, err := OfDrill(d, on, count, 7, versions)
		if err != nil || len(all) != versions {
			t.Fatalf("%s: %d versions, %v", id, len(all), err)
		}
		again, err := OfDrill(d, on, count, 7, versions)
		if err != nil {
			t.Fatal(err)
		}
		for k, questions := range all {
			same := 0
			for n, q := range questions {
				if k == 0 && q.Text() != alone[0][n].Text() {
					t.Errorf("%s: question %d of the first version is %s, and %s alone", id, n+1, q.Text(), alone[0][n].Text())
				}
				if q.Text() != again[k][n].Text() {
					t.Errorf("%s: the seed does not make question %d of version %d", id, n+1, k+1)
				}
				if q.Target != alone[0][n].Target || q.Form != alone[0][n].Form || len(q.Choices) != len(alone[0][n].Choices) {
					t.Errorf("%s: question %d of version %d asks for %s, with %d choices; %s and %d in the first", id, n+1, k+1, q.Target, len(q.Choices), alone[0][n].Target, len(alone[0][n].Choices))
				}
				if v, err := q.Mark(q.Expected().Typed); err != nil || v.Result != progress.Right {
					t.Errorf("%s: %v, %v", id, v.Result, err)
				}
				if k > 0 && q.Text() == alone[0][n].Text() {
					same++
				}
			}
			if same > 1 {
				t.Errorf("%s: version %d has %d questions in the place where the first has them", id, k+1, same)
			}
		}
	}
}

// A lesson's questions are shared out: each step has one, where there are enough, and a step that asks for more has more.
func TestSharesOfALesson(t *testing.T) {
	for _, c := range []struct {
		things []int
		count  int
		want   string
	}{
		{[]int{3, 1, 2}, 9, "[3 1 2]"},
		{[]int{3, 1, 2}, 6, "[3 1 2]"},
		{[]int{3, 1, 2}, 3, "[1 1 1]"},
		{[]int{8, 2, 2}, 6, "[4 1 1]"},
		{[]int{8, 0, 2}, 3, "[2 0 1]"},
		{[]int{5, 5, 5, 5}, 2, "[1 1 0 0]"},
		{[]int{9, 9}, 4, "[2 2]"},
	} {
		if got := fmt.Sprint(shares(c.things, c.count)); got != c.want {
			t.Errorf("%d questions of %v are shared as %s, want %s", c.count, c.things, got, c.want)
		}
	}
	on := &neck.Instrument{Tuning: fret.Tunings()[0], Voices: synth.Voices(), Hand: fret.DefaultHand}
	c := course.Course{{ID: "a", Drill: "chord-ear", Asks: []string{"major", "minor", "dominant", "major-seventh"}}, {ID: "b", Drill: "build", Asks: []string{"major", "minor"}}}
	all, err := OfLesson(c, on, 3, 1, 1)
	if err != nil || len(all[0]) != 3 {
		t.Fatal(all, err)
	}
	questions := all[0]
	if questions[0].Drill != "chord-ear" || questions[1].Drill != "chord-ear" || questions[2].Drill != "build" {
		t.Errorf("of two steps are asked %s, %s, %s", questions[0].Drill, questions[1].Drill, questions[2].Drill)
	}
}
