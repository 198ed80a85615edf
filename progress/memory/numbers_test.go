package memory

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"slices"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/given"
)

func TestNothingRestsLongerThanAYearOrShorterThanADay(t *testing.T) {
	w := DefaultWeights
	for stability, want := range map[float64]progress.Day{30_000: 365, 0.01: 1} {
		m := Memory{Trace: Trace{Stability: stability, Difficulty: 5}, Day: today}
		g := Firm
		if stability < 1 {
			g = Missed
		}
		if got := m.after(&w, g, progress.Right, 0, today, true).Due - today; got != want {
			t.Errorf("stable for %v days it rests for %d", stability, got)
		}
	}
}

func TestAskedTomorrowIsNoFaultOfTheClock(t *testing.T) {
	for day, want := range map[progress.Day]bool{today: false, today + 1: false, today + 2: true} {
		if got := (Memory{Day: day, Due: today + 9}).IsDue(today); got != want {
			t.Errorf("asked %d days from now: due %v", day-today, got)
		}
	}
}

// What a question gains is what it adds to the chance of knowing it later: a week, or fewer days.
func TestWhatAQuestionGains(t *testing.T) {
	w := DefaultWeights
	m := Memory{Trace: Trace{Stability: 5, Difficulty: 6}, Day: today - 7, Guess: 0.25}
	known := w.Retrievability(m.Trace, 7)
	p := rightWith(known, 0.25)
	right, wrong := w.learn(m.Trace, 7, known, Firm, 0.25), w.learn(m.Trace, 7, known, Missed, 0.25)
	want := p*w.Retrievability(right, 7) + (1-p)*w.Retrievability(wrong, 7) - w.Retrievability(m.Trace, 14)
	if got := m.Gain(&w, today, 7); math.Abs(got-want) > 1e-12 {
		t.Errorf("%v, want %v", got, want)
	}
	want = p*w.Retrievability(right, 2) + (1-p)*w.Retrievability(wrong, 2) - w.Retrievability(m.Trace, 9)
	if got := m.Gain(&w, today, 2); math.Abs(got-want) > 1e-12 {
		t.Errorf("two days later %v, want %v", got, want)
	}
	// Of something new, four of five parts of what a miss leaves: one in five knows it already.
	if got, want := FirstGain(&w), 0.8*w.Retrievability(w.First(Missed), 7); math.Abs(got-want) > 1e-12 {
		t.Errorf("something new gains %v, want %v", got, want)
	}
	if math.Abs(FirstChance-0.4) > 1e-12 {
		t.Errorf("it is right with %v", FirstChance)
	}
}

// Binomial sums that lie just below or above a bound; each is written beside it.
func TestHowRareIsNoLuck(t *testing.T) {
	for _, c := range []struct {
		held, asked, choices int
		weak, guessed        bool
	}{
		{5, 10, 0, true, false},   // with 0.85: 0.99 %
		{31, 44, 0, false, false}, // with 0.85: 1.04 %
		{5, 18, 2, true, false},   // with 1/2, as few: 4.81 %
		{17, 46, 2, true, true},   // 5.19 %
		{1, 17, 4, true, true},    // with 1/4, as few: 5.01 %
		{5, 9, 4, false, false},   // with 1/4, as many: 4.89 %
		{5, 11, 5, true, true},    // with 1/5, as many: 5.04 %
		{29, 46, 2, true, true},   // with 1/2, as many: 5.19 %
	} {
		tally := tallyOf(c.held, c.asked, c.choices)
		if tally.weak() != c.weak || tally.AsGuessing() != c.guessed {
			t.Errorf("%d of %d among %d choices: weak %v, as guessing %v", c.held, c.asked, c.choices, tally.weak(), tally.AsGuessing())
		}
	}
	for guess, want := range map[float64]bool{1.0 / 20: false, 1.0 / 21: true} {
		m := Memory{}.after(&DefaultWeights, Firm, progress.Right, guess, today, false)
		if m.luckExcluded() != want {
			t.Errorf("one right answer that guessing gives with %.4f is no luck: %v", guess, m.luckExcluded())
		}
	}
}

// Eight weeks are looked back on, the present one among them, and one mistake alone is none that is made.
func TestWhatIsLongAgoIsForgiven(t *testing.T) {
	thursday := progress.Day(7 * (int(today) / 7)) // a week begins
	for back, want := range map[progress.Day]int{0: 8, 7 * 7: 8, 7*7 + 1: 0} {
		d := history()
		for range 8 {
			d.Add(takenFor("a", "b", thursday-back), thursday-back)
		}
		day := thursday
		if got := d.latest("a", day).Asked; got != want {
			t.Errorf("%d days ago: %d answers count", back, got)
		}
		if d.IsWeak("a", day) != (want > 0) {
			t.Errorf("%d days ago: weak %v", back, d.IsWeak("a", day))
		}
		if _, times := d.MostTakenFor("a", day); times != want {
			t.Errorf("%d days ago: taken for another %d times", back, times)
		}
	}
	if got := progress.Day(6).Week(); got != 0 {
		t.Errorf("the first week ends before day 6, in week %d", got)
	}
	if got := progress.Day(7).Week(); got != 1 {
		t.Errorf("day 7 is of week %d", got)
	}
	d := history(takenFor("a", "b", today))
	if other, times := d.MostTakenFor("a", today); other != "" || times != 0 {
		t.Errorf("after one mistake it is taken for %s %d times", other, times)
	}
	d.Add(takenFor("a", "b", today), today)
	if other, times := d.MostTakenFor("a", today); other != "b" || times != 2 {
		t.Errorf("after two it is taken for %s %d times", other, times)
	}
}

func TestAPaceIsKnownFromEightTimesOfFifty(t *testing.T) {
	d := NewDerived(DefaultWeights)
	at := noon(today)
	add := func(took, cycle time.Duration) {
		at = at.Add(cycle)
		d.Add(progress.Answer{Session: "s", Item: "a", Drill: "d", At: at, Result: progress.Right, Took: took}, today)
	}
	for n := range 7 {
		add(time.Duration(n+1)*time.Second, 10*time.Second)
	}
	if p := d.Pace["d"]; p.usualTook() != 0 || p.UsualCycle() != 0 {
		t.Errorf("seven times: %v, %v", p.usualTook(), p.UsualCycle())
	}
	add(8*time.Second, 10*time.Second)
	if got := d.Pace["d"].usualTook(); got != 5*time.Second {
		t.Errorf("of 1 to 8 seconds the median is %v", got)
	}
	add(9*time.Second, 10*time.Second)
	if p := d.Pace["d"]; p.usualTook() != 5*time.Second || p.UsualCycle() != 10*time.Second {
		t.Errorf("of 1 to 9 seconds the median is %v; from answer to answer %v", p.usualTook(), p.UsualCycle())
	}
	// Who takes three minutes was called away.
	before := len(d.Pace["d"].Took)
	add(179999*time.Millisecond, 179999*time.Millisecond)
	if p := d.Pace["d"]; len(p.Took) != before+1 || len(p.Cycle) != before {
		t.Errorf("%d times and %d from answer to answer are kept", len(p.Took), len(p.Cycle))
	}
	add(3*time.Minute, 3*time.Minute)
	if p := d.Pace["d"]; len(p.Took) != before+1 || len(p.Cycle) != before {
		t.Errorf("three minutes count: %d times, %d from answer to answer", len(p.Took), len(p.Cycle))
	}
	for n := range 60 {
		add(time.Duration(n)*time.Second, time.Minute)
	}
	if p := d.Pace["d"]; len(p.Took) != 50 || len(p.Cycle) != 50 || p.Took[0] != 10_000 || p.Took[49] != 59_000 {
		t.Errorf("%d and %d times are kept, from %d to %d ms", len(p.Took), len(p.Cycle), p.Took[0], p.Took[len(p.Took)-1])
	}
}

func TestTheBoundsOfMemory(t *testing.T) {
	w := DefaultWeights
	w[0], w[4], w[5] = 0.05, 6, 0
	if got := w.First(Missed).Stability; got != 0.1 {
		t.Errorf("the first answer leaves %v days", got)
	}
	if got := w.sameDay(0.001, Missed); got != 0.001 {
		t.Errorf("a miss leaves %v days of a thousandth", got)
	}
	if got := w.Next(Trace{Stability: 36_400, Difficulty: 1}, 36_500, Fluent).Stability; got != 36_500 {
		t.Errorf("a hundred years become %v days", got)
	}
	for d, g := range map[float64]Grade{1: Fluent, 10: Missed} {
		if got := DefaultWeights.nextDifficulty(d, g); got < 1 || got > 10 || d == 1 && got != 1 {
			t.Errorf("from difficulty %v to %v", d, got)
		}
	}
	w[4] = 12
	if got := w.First(Missed).Difficulty; got != 10 {
		t.Errorf("the most difficult is %v", got)
	}
	w[4] = -3
	if got := w.First(Missed).Difficulty; got != 1 {
		t.Errorf("the least difficult is %v", got)
	}
	// What is right again on the same day is never less known for it.
	if got := DefaultWeights.sameDay(20, Shaky); got != 20 {
		t.Errorf("20 days become %v", got)
	}
}

func TestWhenWeightsAreFittedAndToWhat(t *testing.T) {
	for _, c := range []struct {
		answers, tried int
		due            bool
	}{{299, 0, false}, {300, 0, true}, {449, 300, false}, {450, 300, true}, {1400, 1000, false}} {
		if got := FitDue(c.answers, c.tried); got != c.due {
			t.Errorf("%d answers, tried at %d: %v", c.answers, c.tried, got)
		}
	}
	for _, c := range []struct{ answers, counts, fitted int }{{310, 310, 248}, {4000, 4000, 3200}, {5000, 4000, 3200}} {
		s := Samples{All: make([]sample, c.answers)}
		for n := range s.All {
			s.All[n].item = n
		}
		all, fitted := s.latest()
		if len(all) != c.counts || fitted != c.fitted || all[len(all)-1].item != c.answers-1 {
			t.Errorf("of %d answers %d count, up to number %d, and it is fitted to %d", c.answers, len(all), all[len(all)-1].item+1, fitted)
		}
	}
	// A weight that is off by e to the power of 0.7 is half a nat less likely.
	if got := strangeness([]float64{0.7, 0, -0.7}); math.Abs(got-1) > 1e-12 {
		t.Errorf("two weights that are off: %v nats", got)
	}
}

// How much an answer can surprise is bounded by slips and by one in a thousand.
func TestHowMuchAnAnswerCanSurprise(t *testing.T) {
	sure := DefaultWeights
	sure[3] = 100
	s := Samples{items: map[string]int{"a": 0}}
	known := []sample{{day: 0, grade: Fluent, right: true}}
	for _, day := range []progress.Day{100, 800, 4000} {
		known = append(known, sample{day: day, grade: Fluent, right: true})
	}
	missed := append(slices.Clone(known), sample{day: 4001, grade: Missed})
	traces := make([]Memory, 1)
	if got, want := s.surprise(&sure, traces, missed, len(known)), -math.Log(slips); math.Abs(got-want) > 1e-3 {
		t.Errorf("to miss what is known surely surprises by %v nats, and a slip by %v", got, want)
	}
	soon := DefaultWeights
	soon[0], soon[20] = 0.1, 0.8
	gone := []sample{{day: 0, grade: Missed}, {day: 20_000, grade: Firm, right: true}}
	if got, want := s.surprise(&soon, traces, gone, 0), math.Log(1000); math.Abs(got-want) > 1e-9 {
		t.Errorf("to know what is gone surprises by %v nats", got)
	}
	gone[1].guess = 0.25
	if got, want := s.surprise(&soon, traces, gone, 0), math.Log(4); math.Abs(got-want) > 0.01 {
		t.Errorf("to guess what is gone, of four choices, surprises by %v nats", got)
	}
	// The first answer of all and others of the same day tell nothing of memory.
	if got := s.surprise(&soon, traces, []sample{{day: 0, grade: Missed}, {day: 0, grade: Firm, right: true}}, 0); got != 0 {
		t.Errorf("answers of one day surprise by %v nats", got)
	}
}

// The bounds are of npm ts-fsrs 5.4.2 (MIT); testdata/gen/memory-bounds.mjs says how they were written.
func TestBoundsOfTheWeights(t *testing.T) {
	file, err := os.Open("../../testdata/memory-bounds.tsv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	n := 0
	for lines := bufio.NewScanner(file); lines.Scan(); n++ {
		var least, most float64
		if _, err := fmt.Sscan(lines.Text(), &least, &most); err != nil {
			t.Fatal(err)
		}
		if b := weightBounds[n]; b.least != least || b.most != most {
			t.Errorf("weight %d lies from %v to %v, want %v to %v", n, b.least, b.most, least, most)
		}
		for off, want := range map[float64]bool{-0.01: false, 0: true} {
			for _, at := range []float64{least + off, most - off} {
				w := DefaultWeights
				if w[n] = at; w.Sensible() != want {
					t.Errorf("weight %d may be %v: %v", n, at, w.Sensible())
				}
			}
		}
	}
	if n != 21 {
		t.Errorf("%d bounds", n)
	}
}

// noon, answered and takenFor are what tests of planning use as well.
var noon, answered, takenFor = given.Noon, given.Answer, given.TakenFor

// history makes what is derived from answers.
func history(answers ...progress.Answer) *Derived {
	return given.To(NewDerived(DefaultWeights), answers...)
}

const today progress.Day = 20_000
