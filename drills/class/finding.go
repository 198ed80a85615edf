package class

// Verdict is what the numbers show of a student as a whole.
type Verdict string

// The verdicts. Each but Silent, Guesses and TooFew is said only where luck is excluded as an explanation. They are tried in the order of
// the variable verdicts.
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
