package class

import (
	"slices"

	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/theory/say"
)

// Verdict is what the numbers show of a student as a whole.
type Verdict string

// The verdicts. Each but the last two is said only where luck is excluded as an explanation.
const (
	Silent    Verdict = "silent"      // nothing came for a week or more
	OneAnswer Verdict = "one-answer"  // the same is answered to whatever is asked, in a drill
	Guesses   Verdict = "at-chance"   // right as often as guessing
	EyeNotEar Verdict = "eye-not-ear" // right by eye and not by ear
	EarNotEye Verdict = "ear-not-eye" // right by ear and not by eye
	EarAlone  Verdict = "ear-alone"   // known, and nothing was asked by eye
	EyeAlone  Verdict = "eye-alone"   // known, and nothing was asked by ear
	Strong    Verdict = "strong"      // most of what is asked is known
	Learns    Verdict = "learns"      // above chance, and none of the others
	TooFew    Verdict = "too-few"     // too few answers to tell
)

// What the verdicts rest on; the numbers are from judgement but where it says otherwise.
const (
	silentDays = 7       // without an answer: from one lesson to the next
	window     = 8 * 7   // days that count, as of memory.FirstRecentWeek
	fewest     = 40      // answers below which only that somebody is silent is said
	enough     = 20      // answers by ear, or by eye, below which the two are not compared
	half       = 0.5     // of what is asked: more is known by one sense, less by the other
	most       = 0.6     // of what is asked, known at the least by whoever is strong
	little     = 1.0 / 3 // of what is asked, known at the most by whoever is at chance
	others     = 8       // questions about something else, below which nobody answers always the same
	often      = 1.0 / 2 // of the misses of something else, answered with the same at the least: it is not always among the choices
	third      = 1.0 / 3 // of the questions about something else, the same
	doubtful   = 0.5     // chance that luck alone makes something the answer to everything, below which nobody is said to guess: it may be either
	unlikely   = 0.02    // the same where it is known what there was to choose from: who answers always the same is then far below it
	kindsTaken = 2       // things at the least that are taken for it; one alone is a mistake between two things
)

// Finding is a verdict with what it rests on.
type Finding struct {
	Verdict Verdict
	Drill   string  // of OneAnswer
	Answer  string  // what is always answered, of OneAnswer
	Times   int     // it was answered, of OneAnswer
	Of      int     // questions about something else, of OneAnswer
	Offered bool    // of OneAnswer: it stood among the choices of each of these
	Never   bool    // of Silent: nothing was ever practised
	Luck    float64 // chance that luck alone gives as much; 0 where it does not come into it
}

// doubtful is the chance that luck alone gives as much, below which nobody is said to guess.
func (f Finding) doubtful() float64 {
	if f.Offered {
		return unlikely
	}
	return doubtful
}

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
	gone         bool // nothing came for a week or more, or ever
	senses       senses
	ear, eye     between // how much is known
	all          float64 // of everything, at the least
	above        bool    // guessing is excluded
	both         bool    // enough was asked by ear and by eye to compare the two
	onlyEar      bool    // nothing was asked by eye
	onlyEye      bool
	always       Finding // what is always answered, if luck does not explain it
	isAtChance   bool
	atChanceLuck float64
}

// between is where what is known truly lies, 0 to 1.
type between struct{ low, high float64 }

// rule is what has to hold for a verdict, and how it is said.
type rule struct {
	verdict Verdict
	holds   func(j *judged) bool
	says    say.Text // zero where more than the verdict is said
}

// verdicts are the rules of all verdicts, in the order in which they are tried; of the last there is always one.
var verdicts = []rule{
	{Silent, func(j *judged) bool { return j.gone }, say.Of("Nothing was practised for a week or more.")},
	{TooFew, func(j *judged) bool { return j.senses.All.Asked < fewest }, say.Of("Too few answers to tell.")},
	{OneAnswer, func(j *judged) bool { return j.always.Luck < hardlyEver }, say.Text{}},
	{EyeNotEar, func(j *judged) bool { return j.both && j.eye.low > half && j.ear.high < half }, say.Of("Right by eye and not by ear.")},
	{EarNotEye, func(j *judged) bool { return j.both && j.ear.low > half && j.eye.high < half }, say.Of("Right by ear and not by eye.")},
	{Guesses, func(j *judged) bool { return j.isAtChance && j.always.Luck >= j.always.doubtful() }, say.Of("Right as often as by guessing.")},
	{EarAlone, func(j *judged) bool { return j.above && j.onlyEar && j.all >= half },
		say.Of("Practises by ear alone, and most is known; by eye nothing was asked.")},
	{EyeAlone, func(j *judged) bool { return j.above && j.onlyEye && j.all >= half },
		say.Of("Practises by eye alone, and most is known; by ear nothing was asked.")},
	{Strong, func(j *judged) bool {
		return j.above && j.both && j.ear.low >= half && j.eye.low >= half && j.all >= most
	},
		say.Of("Most of what is asked is known, by ear and by eye.")},
	{Learns, func(j *judged) bool { return j.above }, say.Of("Learns: right more often than by guessing.")},
	{TooFew, func(*judged) bool { return true }, say.Of("Too few answers to tell.")},
}

// find finds the verdict on a student, who was last seen on a day and was ever seen at all.
func find(p *practised, counts []answer, seen bool, last, today progress.Day) Finding {
	j := judge(p, counts)
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
func judge(p *practised, counts []answer) *judged {
	j := &judged{senses: sensesOf(p, counts)}
	_, j.ear.low, j.ear.high = known(j.senses.Ear, sure)
	_, j.eye.low, j.eye.high = known(j.senses.Eye, sure)
	_, j.all, _ = known(j.senses.All, sure)
	j.above = j.all > 0 && atLeastByLuck(j.senses.All) < hardlyEver
	j.both = j.senses.Ear.Asked >= enough && j.senses.Eye.Asked >= enough
	j.onlyEar, j.onlyEye = j.senses.Eye.Asked == 0, j.senses.Ear.Asked == 0
	j.always = oneAnswer(p, counts)
	j.isAtChance, j.atChanceLuck = atChance(p, counts)
	return j
}

// atChance reports whether guessing explains how many answers among choices were right, while there are so many that more than a
// little of it cannot be known; and the chance of as many by luck. Answers that are given freely are not guessed.
func atChance(p *practised, counts []answer) (is bool, luck float64) {
	var t memory.Tally
	for _, a := range counts {
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
