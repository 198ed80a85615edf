package practice

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"sparetone/drills"
	"sparetone/theory/fret"
)

// Versions of a paper are for students who sit side by side. The n-th question of each asks for the same thing, with the same choices
// where these are things of the drill, about another chord, shape or sound. Of the questions that could stand there those are taken
// whose traits, what makes questions hard, are nearest to what they are in the first version, one by one and in how they are spread over the paper. What a question's
// traits do not tell of how hard it is, nobody evens out.

// version is one version of a paper.
type version struct {
	questions []*drills.Question
	asked     []asking // what each question asks for
}

// candidates is how many questions are made to take one from.
const candidates = 60

// candidate is a question that could stand in a place of a version.
type candidate struct {
	*drills.Question
	text string
	has  traits
	cost float64 // how little it is like the first version's question
}

// The costs of a version, beside how far each question's traits are from those of the first version's (from judgement).
const (
	costOfSpread = 6.0  // for one of a trait by which all its questions together are spread otherwise
	costOfChoice = 3.0  // for each choice that is another
	costOfAgain  = 16.0 // for each time that a question was asked already
)

// alike returns so many versions, itself the first.
func (v version) alike(on *drills.Instrument, seed uint64, versions int) [][]*drills.Question {
	all := [][]*drills.Question{v.questions}
	if versions < 2 {
		return all
	}
	wanted := make([]traits, len(v.questions))
	taken := map[string]int{} // how often each question was asked
	for n, q := range v.questions {
		wanted[n] = traitsOf(q, on)
		taken[q.Text()]++
	}
	for k := 1; k < versions; k++ {
		rng := rand.New(rand.NewPCG(seed, 0x76657273696f6e+uint64(k)))
		places := make([][]candidate, len(v.questions))
		for n, q := range v.questions {
			a := v.asked[n].among(q, on)
			for range candidates {
				if c, err := a.ask(on, rng.Uint64()); err == nil {
					has := traitsOf(c, on)
					places[n] = append(places[n], candidate{c, c.Text(), has, has.from(wanted[n]) + costOfChoice*float64(differing(q, c)) + costOfAgain*float64(taken[c.Text()])})
				}
			}
			if len(places[n]) == 0 {
				places[n] = []candidate{{q, q.Text(), wanted[n], 0}}
			}
		}
		others := evened(places, wanted)
		for _, q := range others {
			taken[q.Text()]++
		}
		all = append(all, others)
	}
	return all
}

// evened takes a question for each place so that each is like the first version's, whose traits are wanted, and all together are spread as
// those are: place by place the one that costs the least beside the others as they are, until none is better.
func evened(places [][]candidate, wanted []traits) []*drills.Question {
	chosen := make([]candidate, len(places))
	for n, place := range places {
		chosen[n] = slices.MinFunc(place, func(a, b candidate) int { return cmp.Compare(a.cost, b.cost) })
	}
	spread := newSpread(wanted)
	for better, rounds := true, 0; better && rounds < mostRounds; rounds++ {
		better = false
		for n, place := range places {
			cost := func(c candidate) float64 {
				sum := c.cost
				for m, other := range chosen {
					if m != n && other.text == c.text {
						sum += costOfAgain
					}
				}
				chosen[n] = c
				return sum + costOfSpread*spread.off(chosen)
			}
			best := chosen[n]
			least := cost(best) - 1e-9
			for _, c := range place {
				if now := cost(c); now < least {
					best, least, better = c, now, true
				}
			}
			chosen[n] = best
		}
	}
	out := make([]*drills.Question, len(places))
	for n, c := range chosen {
		out[n] = c.Question
	}
	return out
}

// mostRounds is how often all places are gone through at the most.
const mostRounds = 6

// spread is how each trait is spread over the questions of the first version.
type spread struct {
	wanted [traitCount][]float64 // in order
	have   []float64
}

func newSpread(of []traits) *spread {
	s := &spread{have: make([]float64, len(of))}
	for trait := range s.wanted {
		for _, t := range of {
			s.wanted[trait] = append(s.wanted[trait], t[trait])
		}
		slices.Sort(s.wanted[trait])
	}
	return s
}

// off is how far some questions are from being spread alike, one trait after the other: what has to be moved how far (the distance of
// Wasserstein, times the number of questions). So no more are above any bound than there should be, wherever that lies.
func (s *spread) off(chosen []candidate) (sum float64) {
	for trait, wanted := range s.wanted {
		for n, c := range chosen {
			s.have[n] = c.has[trait]
		}
		slices.Sort(s.have)
		for n, x := range s.have {
			sum += math.Abs(x - wanted[n])
		}
	}
	return sum
}

// among asks for a thing with the choices that a question of it has, where these are things that the drill asks for.
func (a asking) among(q *drills.Question, on *drills.Instrument) asking {
	var ids []string
	targets := a.drill.Targets(on)
	for _, c := range q.Choices {
		if !slices.ContainsFunc(targets, func(t drills.Target) bool { return t.ID == c.ID }) {
			return a
		}
		ids = append(ids, c.ID)
	}
	if len(ids) > 0 {
		a.inPlay = ids
	}
	return a
}

// differing counts the choices that one question has and the other has not; where they are called otherwise in each, by how many.
func differing(a, b *drills.Question) int {
	shared := 0
	for _, c := range a.Choices {
		if slices.ContainsFunc(b.Choices, func(o drills.Choice) bool { return o.ID == c.ID }) {
			shared++
		}
	}
	if shared == 0 || a.Form != b.Form {
		return max(len(a.Choices), len(b.Choices)) - min(len(a.Choices), len(b.Choices))
	}
	return max(len(a.Choices), len(b.Choices)) - shared
}

// Shared counts the questions that two papers have in common.
func Shared(a, b []*drills.Question) (n int) {
	for _, q := range a {
		if slices.ContainsFunc(b, func(o *drills.Question) bool { return o.Text() == q.Text() }) {
			n++
		}
	}
	return n
}

// traits is what makes a question harder or easier beside what it asks for. Each is measured so that one more of it is about as much as
// one more of another (from judgement).
type traits [traitCount]float64

// The traits.
const (
	traitChoices   = iota // how many choices there are
	traitSigns            // sharps and flats in what is asked and answered, a half each
	traitAnySign          // 1 where there are any
	traitManySigns        // 1 where there are more than two
	traitEffort           // what the shapes ask of a hand, on average, in thirds
	traitWorst            // what the hardest asks, in the same
	traitPosition         // the lowest fret that is stopped, in thirds
	traitHighest          // the highest, in halves
	traitStrings          // how many sound
	traitDoubled          // notes that are doubled, a half each
	traitLow              // the lowest note, in steps of a third of an octave
	traitEachLow          // the lowest of each sound, on average, in the same
	traitTogether         // sounds that are struck at once, as a share
	traitSpread           // from the first pluck to the last, in halves of a second
	traitLength           // of what is heard, in seconds
	traitSounds           // how many are heard in turn
	traitStrange          // 1 in a voice that is not the instrument's own
	traitAlso             // how much else is right, a third each, up to two
	traitTurns            // where notes that are plucked go down and up: changes of direction, a third each
	traitCount
)

// traitsOf finds the traits of a question.
func traitsOf(q *drills.Question, on *drills.Instrument) (t traits) {
	t[traitChoices] = float64(len(q.Choices))
	t[traitAlso] = float64(min(len(q.Accepts), 6)) / 3
	t.addSounds(q, on)
	signs := t.addShapes(q) + float64(signsIn(q.Expected().Typed))
	t[traitSigns], t[traitAnySign] = signs/2, min(1, signs)
	if signs > 2 {
		t[traitManySigns] = 1
	}
	return t
}

// addSounds adds the traits of what is heard.
func (t *traits) addSounds(q *drills.Question, on *drills.Instrument) {
	if len(q.Sounds) == 0 {
		return
	}
	share, deepest := 1/float64(len(q.Sounds)), math.Inf(1)
	for _, s := range q.Sounds {
		plucks, low := s.Score.InTime(), math.Inf(1)
		turns, up := 0, 0
		for n, p := range plucks {
			low = min(low, float64(p.Pitch.MIDI())/4)
			if n == 0 {
				continue
			}
			way := cmp.Compare(p.Pitch.MIDI(), plucks[n-1].Pitch.MIDI())
			if way*up < 0 {
				turns++
			}
			up = way
		}
		spread := plucks[len(plucks)-1].At - plucks[0].At
		if spread == 0 && len(plucks) > 1 {
			t[traitTogether] += share
		}
		deepest = min(deepest, low)
		t[traitEachLow] += share * low
		t[traitSpread] += spread.Seconds() * 2
		t[traitLength] += s.Score.Length.Seconds()
		t[traitTurns] += float64(turns) / 3
	}
	t[traitSounds], t[traitLow] = float64(len(q.Sounds)), deepest
	if q.Voice != on.Voices[0] {
		t[traitStrange] = 1
	}
}

// addShapes adds the traits of the shapes that a question is about, that which is seen or those which are heard, and returns how many
// sharps and flats are in them.
func (t *traits) addShapes(q *drills.Question) (signs float64) {
	shapes := q.Solution().AskedShapes()
	share := 1 / float64(len(shapes))
	for _, r := range shapes {
		_, _, effort, _ := fret.Finger(r.Voicing.Shape)
		t[traitEffort] += share * effort / 3
		t[traitWorst] = max(t[traitWorst], effort/3)
		lowest := 0
		for _, s := range r.Voicing.Strings {
			if s.Fret == fret.Muted {
				continue
			}
			t[traitStrings] += share
			signs += math.Abs(float64(s.Pitch.Note.Alter))
			if s.Fret > 0 && (lowest == 0 || s.Fret < lowest) {
				lowest = s.Fret
			}
			t[traitHighest] = max(t[traitHighest], float64(s.Fret)/2)
		}
		t[traitPosition] += share * float64(lowest) / 3
		t[traitDoubled] += share * float64(len(r.Voicing.Doubled())) / 2
	}
	return signs
}

// signsIn counts the sharps and flats of an answer as it is typed.
func signsIn(typed string) (n int) {
	for i := 1; i < len(typed); i++ {
		if typed[i] == '#' || typed[i] == 'b' {
			n++
		}
	}
	return n
}

// from is how far traits are from others.
func (t traits) from(o traits) float64 {
	sum := 0.0
	for n := range t {
		sum += (t[n] - o[n]) * (t[n] - o[n])
	}
	return math.Sqrt(sum)
}
