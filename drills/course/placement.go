package course

import (
	"math/rand/v2"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/progress"
)

// Placement finds out, in two minutes at the most, from where in a course somebody should begin: the steps
// that are known by ear, and those that are known by eye.
//
// It keeps a belief over the two levels. Each question is of the step whose answer tells most about them, among
// steps within reach: the first few, and then several times as far as what was answered right. So a beginner is asked
// nothing hard, and somebody who knows much is soon far up. An answer moves the belief by Bayes' rule, with the
// chance of a lucky guess among the choices and of a slip. It ends when the levels are known well enough, when the
// time is up, or when nothing is left that is worth asking. Of the time that somebody takes over one question no more than
// a dozenth of it counts, so that whoever is slow, or looks away, is asked a dozen as well. This is adaptive testing with a logistic model of a known
// guessing rate, as in F. M. Lord, Applications of Item Response Theory to Practical Testing Problems (1980), told
// from memory.
//
// Every answer is one key. A step whose questions are typed, or set on a neck, is not asked about and counts as
// what lies next to it; but nothing counts as known beyond the hardest step that was answered right, and such steps
// right after it.
// A step is asked about once, since whoever slipped over one of its things is likelier to do so again.
//
// Nothing is recorded. There are no explanations here to learn from, "I don't know" is no answer that the
// memory model knows of, and what was asked from far ahead would come back as missed long before its turn.
//
// The loop is: Next, then Answer until it returns no error, or Unknown, then Next again, until it returns
// nil; then Found. A Placement is used from one goroutine.
type Placement struct {
	now    func() time.Time
	silent bool // nothing can be heard
	steps  []placed
	belief belief
	asked  *placed
	since  time.Time     // when asked was put
	spent  time.Duration // on the questions before it, no more than oneAnswer on each
	count  int
}

// placed is a step in a placement.
type placed struct {
	Step
	byEar    bool
	number   int              // its number among the steps by ear, or by eye, from 0
	question *drills.Question // nil if it cannot be asked in one key
	done     bool             // it was asked
	answered bool
	right    bool
}

// Placement's limits.
const (
	placementTime = 2 * time.Minute
	oneAnswer     = 10 * time.Second // that a question is given at the least, and takes at the most
	firstReach    = 5                // steps of the course among which it begins
	furtherAsked  = 1                // so many more with every answer
	furtherRight  = 3                // and so many times as far as the hardest that was right
	littleTold    = 0.02             // bits: a question that tells less is not asked any more
	closeEnough   = 2                // steps
	sureEnough    = 0.8              // chance of being that close
)

// NewPlacement makes a placement of a course on an instrument; silent says that nothing can be heard. The same seed, clock
// and answers make the same placement. Its error is drills.ErrNothing if nothing can be asked.
func NewPlacement(c Course, on *neck.Instrument, silent bool, seed uint64, now func() time.Time) (*Placement, error) {
	p := &Placement{now: now, silent: silent}
	rng := rand.New(rand.NewPCG(seed, 0x706c6163))
	count := map[bool]int{}
	inPlay := map[string][]string{}
	for _, s := range c {
		d, ok := catalogue.ByID(s.Drill)
		if !ok {
			continue
		}
		inPlay[s.Drill] = append(inPlay[s.Drill], s.Asks...)
		step := placed{Step: s, byEar: s.byEar(on)}
		step.number = count[step.byEar]
		count[step.byEar]++
		target := s.Asks[rng.IntN(len(s.Asks))]
		form := formOf(d, target, on, step.byEar)
		q, err := d.Ask(drills.Request{Target: target, On: on, InPlay: inPlay[s.Drill], Clarity: form.Clarity, Reach: form.Reach,
			Rand: drills.QuestionRand(s.Drill, target, rng.Uint64())})
		// A step that this neck has no question for is one that is not asked.
		if err == nil && q.Form == drills.Choose {
			step.question = q
		}
		p.steps = append(p.steps, step)
	}
	p.belief = newBelief(count[true], count[false])
	if p.best() == nil {
		return nil, drills.ErrNothing
	}
	return p, nil
}

// formOf is the form in which a placement asks for something: what is seen as if it were new, and what is heard on its second rung,
// in the student's own voice; its first would play beside it what it is told from.
func formOf(d drills.Drill, target string, on *neck.Instrument, byEar bool) drills.Rung {
	if rungs := drills.RungsOn(on, d.Rungs(target)); byEar && len(rungs) > 1 {
		return rungs[1]
	}
	return drills.Rung{}
}

// SetSilent says that sound went away or came back; what is asked from now on follows it.
func (p *Placement) SetSilent(silent bool) { p.silent = silent }

// Next returns the next question, whether or not the last one was answered. It returns nil when there is no more.
func (p *Placement) Next() *drills.Question {
	now := p.now()
	if p.asked != nil {
		p.spent += min(now.Sub(p.since), oneAnswer)
	}
	if p.asked = p.best(); p.asked == nil || p.sure() || p.spent > placementTime-oneAnswer {
		p.asked = nil
		return nil
	}
	p.asked.done, p.since = true, now
	return p.asked.question
}

// best is the step to ask about next, nil if there is none: of those within reach the one that tells most, if it is
// worth a question.
func (p *Placement) best() *placed {
	levels := map[bool][]float64{true: p.belief.levels(true), false: p.belief.levels(false)}
	hardest := 0
	for i, s := range p.steps {
		if s.right {
			hardest = i
		}
	}
	reach := firstReach + furtherAsked*p.count + furtherRight*hardest
	var best *placed
	most := 0.0
	if p.count > 0 {
		most = littleTold
	}
	for i := range p.steps[:min(reach, len(p.steps))] {
		s := &p.steps[i]
		if s.question == nil || s.done || s.byEar && p.silent {
			continue
		}
		if told := tells(levels[s.byEar], s.number, len(s.question.Choices)); told > most {
			best, most = s, told
		}
	}
	return best
}

// sure reports whether both levels are known well enough; without sound that by eye.
func (p *Placement) sure() bool {
	for _, byEar := range []bool{true, false} {
		if _, chance := settled(p.belief.levels(byEar), closeEnough); chance < sureEnough && !(byEar && p.silent) {
			return false
		}
	}
	return true
}

// Answer takes an answer to the present question; that it is not known is one, as for Unknown. Of one that makes no
// sense it returns an error that says what would be understood.
func (p *Placement) Answer(text string) error {
	if drills.SaysUnknown(text) {
		p.Unknown()
		return nil
	}
	q, step := p.asked.question, p.asked.number
	result, err := q.Result(text)
	if err != nil {
		return err
	}
	right := result == progress.Right
	p.asked.right = right
	p.learn(func(level int) float64 {
		r := rightAt(level, step, len(q.Choices))
		if right {
			return r
		}
		return 1 - r
	})
	return nil
}

// Unknown takes "I don't know" for an answer.
func (p *Placement) Unknown() {
	step := p.asked.number
	p.learn(func(level int) float64 { return unknownAt(level, step) })
}

func (p *Placement) learn(likely func(level int) float64) {
	p.belief.learn(p.asked.byEar, likely)
	p.asked.answered = true
	p.count++
}

// Found is what a placement came to.
type Found struct{ Ear, Eye Reached }

// Reached is how far somebody is in the steps by ear, or by eye.
type Reached struct {
	Answered bool   // something about it was answered; else it is the beginning
	Known    []Step // in the order of the course
	From     Step   // the first one that is not taken as known; the last of all if none is left
	Of       int    // steps there are
}

// Answers counts the questions that were answered.
func (p *Placement) Answers() int { return p.count }

// Found says what has been found so far.
func (p *Placement) Found() Found { return Found{Ear: p.reached(true), Eye: p.reached(false)} }

func (p *Placement) reached(byEar bool) Reached {
	var r Reached
	var steps []Step
	shown := 0 // steps up to the hardest that was answered right, and those after it that cannot be asked in one key
	for _, s := range p.steps {
		if s.byEar == byEar {
			steps = append(steps, s.Step)
			r.Answered = r.Answered || s.answered
			if s.right || s.question == nil && shown > 0 && shown == s.number {
				shown = len(steps)
			}
		}
	}
	if len(steps) == 0 {
		return r
	}
	level, _ := settled(p.belief.levels(byEar), 0)
	level = min(level, shown, len(steps)-1)
	r.Known, r.From, r.Of = steps[:level], steps[level], len(steps)
	return r
}

// Level returns the level that was found, from which the course begins.
func (f Found) Level() Level { return Level{Ear: f.Ear.level(), Eye: f.Eye.level()} }

func (r Reached) level() string {
	if len(r.Known) == 0 {
		return ""
	}
	return r.From.ID
}
