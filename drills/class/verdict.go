package class

import (
	"slices"

	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/theory/say"
)

// recent are the answers of the weeks that count on a day.
func recent(answers []answer, day progress.Day) []answer {
	var out []answer
	for _, a := range answers {
		if a.day > day-window && a.day <= day+1 { // somebody east of here may be a day ahead
			out = append(out, a)
		}
	}
	return out
}

// senses are tallies of what was asked by ear and by eye, and of both.
type senses struct{ Ear, Eye, All memory.Tally }

func sensesOf(p *practised, answers []answer) (s senses) {
	for _, a := range answers {
		tally(&s.All, a)
		if p.things[a.thing].Ear {
			tally(&s.Ear, a)
		} else {
			tally(&s.Eye, a)
		}
	}
	return s
}

// judged is a student whose verdict is looked for.
type judged struct {
	gone          bool // nothing came for a week or more, or ever
	senses        senses
	ear, eye      bounds  // how much is known
	leastKnown    float64 // of everything, at the least
	aboveGuessing bool    // guessing is excluded
	both          bool    // enough was asked by ear and by eye to compare the two
	onlyEar       bool    // nothing was asked by eye
	onlyEye       bool
	always        Finding // what is always answered, if luck does not explain it
	isAtChance    bool
	atChanceLuck  float64
}

// bounds is where what is known truly lies, 0 to 1.
type bounds struct{ low, high float64 }

// rule is what has to hold for a verdict, and how it is said.
type rule struct {
	verdict Verdict
	holds   func(j *judged) bool
	says    say.Text // zero where more than the verdict is said
}

// verdicts are the rules of all verdicts, in the order in which they are tried; the last always holds.
var verdicts = []rule{
	{Silent, func(j *judged) bool { return j.gone }, say.Of("Nothing was practised for a week or more.")},
	{TooFew, func(j *judged) bool { return j.senses.All.Asked < fewest }, say.Of("Too few answers to tell.")},
	{OneAnswer, func(j *judged) bool { return j.always.Luck < hardlyEver }, say.Text{}},
	{EyeNotEar, func(j *judged) bool { return j.both && j.eye.low > half && j.ear.high < half }, say.Of("Right by eye and not by ear.")},
	{EarNotEye, func(j *judged) bool { return j.both && j.ear.low > half && j.eye.high < half }, say.Of("Right by ear and not by eye.")},
	{Guesses, func(j *judged) bool { return j.isAtChance && j.always.Luck >= j.always.doubtful() }, say.Of("Right as often as by guessing.")},
	{EarAlone, func(j *judged) bool { return j.aboveGuessing && j.onlyEar && j.leastKnown >= half },
		say.Of("Practises by ear alone, and most is known; by eye nothing was asked.")},
	{EyeAlone, func(j *judged) bool { return j.aboveGuessing && j.onlyEye && j.leastKnown >= half },
		say.Of("Practises by eye alone, and most is known; by ear nothing was asked.")},
	{Strong, func(j *judged) bool {
		return j.aboveGuessing && j.both && j.ear.low >= half && j.eye.low >= half && j.leastKnown >= most
	},
		say.Of("Most of what is asked is known, by ear and by eye.")},
	{Learns, func(j *judged) bool { return j.aboveGuessing }, say.Of("Learns: right more often than by guessing.")},
	{TooFew, func(*judged) bool { return true }, say.Of("Too few answers to tell.")},
}

// find finds the verdict on a student, who was last seen on a day and was ever seen at all.
func find(p *practised, answers []answer, seen bool, last, today progress.Day) Finding {
	j := judge(p, answers)
	j.gone = !seen || today.Since(last) >= silentDays
	first := verdicts[slices.IndexFunc(verdicts, func(v rule) bool { return v.holds(j) })].verdict
	switch first {
	case Silent:
		return Finding{Verdict: first, Never: !seen}
	case OneAnswer:
		return j.always
	case Guesses:
		return Finding{Verdict: first, Luck: j.atChanceLuck}
	}
	return Finding{Verdict: first}
}

// judge collects what verdicts rest on.
func judge(p *practised, answers []answer) *judged {
	j := &judged{senses: sensesOf(p, answers)}
	_, j.ear.low, j.ear.high = known(j.senses.Ear, sure)
	_, j.eye.low, j.eye.high = known(j.senses.Eye, sure)
	_, j.leastKnown, _ = known(j.senses.All, sure)
	j.aboveGuessing = j.leastKnown > 0 && atLeastByLuck(j.senses.All) < hardlyEver
	j.both = j.senses.Ear.Asked >= enough && j.senses.Eye.Asked >= enough
	j.onlyEar, j.onlyEye = j.senses.Eye.Asked == 0, j.senses.Ear.Asked == 0
	j.always = oneAnswer(p, answers)
	j.isAtChance, j.atChanceLuck = atChance(p, answers)
	return j
}

// atChance reports whether a student is right as often as by guessing: of fewest answers among choices or more, luck explains the right
// ones and no more than little of it can be known. luck is the chance of as many right by guessing. Answers that are given freely are
// left out.
func atChance(p *practised, answers []answer) (is bool, luck float64) {
	var t memory.Tally
	for _, a := range answers {
		if a.choices > 0 {
			tally(&t, a)
		}
	}
	luck = atLeastByLuck(t)
	_, _, high := known(t, sure)
	return t.Asked >= fewest && luck >= hardlyEver && high < little, luck
}

// Says is the finding in a sentence.
func (f Finding) Says() say.Text {
	if f.Verdict == OneAnswer && f.Offered {
		return say.Of("Answers “{}” in {} nearly whenever it can be chosen and something else is right: {} of {}.", say.Foreign(f.Answer), say.Foreign(f.Drill),
			say.Number(f.Times), say.Count{N: f.Of, One: "time", Many: "times"})
	}
	if f.Verdict == OneAnswer {
		return say.Of("Answers “{}” to nearly everything in {}: {} of {} about something else.", say.Foreign(f.Answer), say.Foreign(f.Drill), say.Number(f.Times),
			say.Count{N: f.Of, One: "question", Many: "questions"})
	}
	if f.Never {
		return say.Of("Nothing was practised yet.")
	}
	i := slices.IndexFunc(verdicts, func(v rule) bool { return v.verdict == f.Verdict })
	return verdicts[i].says
}
