package pupils

import (
	"math"
	"math/rand/v2"
	"time"

	"sparetone/progress"
)

// Pupil is a simulated student at work: answers take time, what is not known is guessed, and life goes on beside it.
type Pupil struct {
	*Course
	eye, ear mind
	life     bool
	stays    bool    // practises on however badly it goes
	slow     float64 // own pace, about 1
	met      []bool
	before   []bool    // known before any practice
	likely   []float64 // how likely that was, before it was drawn
	rng      *rand.Rand
}

// Kind is a kind of student.
type Kind struct {
	Name string
	Make func(c *Course, rng *rand.Rand) *Pupil
}

// Kinds are the kinds of students that the planner is judged by. Nobody tunes anything on those that are Apart.
var Kinds = []Kind{
	{"power", func(c *Course, rng *rand.Rand) *Pupil {
		m := newAdding(len(c.Items), rng)
		return newPupil(c, m, m, rng)
	}},
	{"ears", earsOf},
	{"life", func(c *Course, rng *rand.Rand) *Pupil {
		p := earsOf(c, rng)
		p.life = true
		return p
	}},
	{"strong", func(c *Course, rng *rand.Rand) *Pupil {
		p := earsOf(c, rng)
		p.knowBefore(0.6)
		return p
	}},
	{"scales", func(c *Course, rng *rand.Rand) *Pupil {
		return newPupil(c, newScaled(len(c.Items), rng), newTelling(c, rng, halfKept), rng)
	}},
	{"many", func(c *Course, rng *rand.Rand) *Pupil {
		return newPupil(c, newHalving(len(c.Items), rng), newTelling(c, rng, keptOfMany), rng)
	}},
	{Apart, func(c *Course, rng *rand.Rand) *Pupil {
		p := newPupil(c, newHalving(len(c.Items), rng), newScaled(len(c.Items), rng), rng)
		p.knowBefore(0.1)
		return p
	}},
}

// Stay makes a pupil practise on however badly it goes.
func (p *Pupil) Stay() { p.stays = true }

// Apart is the name of the kind of student that nothing is tuned or chosen on.
const Apart = "apart"

func earsOf(c *Course, rng *rand.Rand) *Pupil {
	return newPupil(c, newAdding(len(c.Items), rng), newTelling(c, rng, halfKept), rng)
}

func newPupil(c *Course, eye, ear mind, rng *rand.Rand) *Pupil {
	return &Pupil{Course: c, eye: eye, ear: ear, slow: math.Exp(0.25 * rng.NormFloat64()), met: make([]bool, len(c.Items)), before: make([]bool, len(c.Items)), likely: make([]float64, len(c.Items)), rng: rng}
}

// knowBefore makes a share of all known from elsewhere, rather what comes early in the course.
func (p *Pupil) knowBefore(share float64) {
	for i := range p.Items {
		along := float64(i) / float64(len(p.Items)-1)
		p.likely[i] = share + (0.5-along)*2*min(share, 1-share)*0.8
		if p.rng.Float64() < p.likely[i] {
			p.of(i).begin(i)
			p.before[i] = true
		}
	}
}

func (p *Pupil) of(item int) mind {
	if p.Items[item].Ear {
		return p.ear
	}
	return p.eye
}

// Known is how likely an item is known on a day, guessing taken out.
func (p *Pupil) Known(item int, day float64) float64 { return p.of(item).known(item, day) }

// others are what an item stands among in a question: what it is set against first, and then what the drill has that was met.
func (p *Pupil) others(item, against int) []pairing {
	if p.among[item] == 0 {
		return nil
	}
	var out []pairing
	var near []pairing
	for _, n := range p.near[item] {
		switch {
		case n.other == against:
			out = append(out, n)
		case p.met[n.other]:
			near = append(near, n)
		}
	}
	p.rng.Shuffle(len(near), func(i, j int) { near[i], near[j] = near[j], near[i] })
	met := 0
	for j := range p.Items {
		if j != item && p.drill[j] == p.drill[item] && p.met[j] {
			met++
		}
	}
	size := max(2, min(p.among[item], met+1)) - 1
	if against >= 0 && len(out) == 0 && p.drill[against] == p.drill[item] {
		out = append(out, pairing{against, p.rest[item].kinds, p.rest[item].pair})
	}
	for _, n := range near {
		// Of those near it as many as stand there by chance.
		if len(out) < size && p.rng.IntN(max(1, met)) < size {
			out = append(out, n)
		}
	}
	for len(out) < size {
		out = append(out, p.rest[item])
	}
	return out
}

// asked is a question as it came out.
type asked struct {
	result       progress.Result
	takenFor     int // -1 if nothing
	among        int
	took, looked time.Duration
	sure         float64 // chance of a right answer, slips apart
}

// answer answers a question so many minutes after the session began.
func (p *Pupil) answer(item, against int, day, minutes float64) asked {
	m := p.of(item)
	others := p.others(item, against)
	chance := m.right(item, others, day)
	slips := 0.0
	if p.life {
		slips = 0.06 + 0.01*max(0, minutes-6) // tires
	}
	a := asked{result: progress.Right, takenFor: -1, sure: chance}
	knows := p.rng.Float64() < chance
	if !knows || p.rng.Float64() < slips {
		a.result = progress.Wrong
		a.takenFor = m.mistaken(item, others, day, p.rng)
	}
	if len(others) > 0 {
		a.among = len(others) + 1
	}
	seconds := 7 - 3*chance
	look := 2.5
	if a.result != progress.Right {
		seconds, look = 1.3*seconds, 8
	}
	spread := func(s float64) time.Duration {
		return time.Duration(s * p.slow * math.Exp(0.35*p.rng.NormFloat64()) * float64(time.Second))
	}
	m.learn(item, others, day, knows)
	p.met[item] = true
	a.took, a.looked = spread(seconds), spread(look)
	return a
}
