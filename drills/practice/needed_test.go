package practice

import (
	"math/rand/v2"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/course"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/drills/trial"
	"sparetone/progress"
	"sparetone/progress/memory"
	"sparetone/progress/store"
	"sparetone/synth/playback"
	"sparetone/theory/say"
)

// forgetful is a simulated beginner: right three times of four when something is new, later the seldomer the longer ago it was asked and
// the fewer times.
type forgetful struct {
	rng   *rand.Rand
	last  map[string]int // by item, the day it was last asked
	times map[string]int // by item, how often it was asked
}

// answers is what is typed on a day to a question.
func (b *forgetful) answers(item, right string, day int) string {
	chance := 0.75
	if last, met := b.last[item]; met {
		gap, held := float64(day-last), float64(b.times[item]*b.times[item])
		chance = 1 - 0.5*gap/(gap+held)
	}
	b.last[item] = day
	b.times[item]++
	if b.rng.Float64() > chance {
		return drills.Unknown
	}
	return right
}

// said is one thing that was said after an answer.
type said struct {
	day, needed int // the day of it, and the day from which practice is needed
	right       bool
}

// kept counts what became of what was said.
type kept struct {
	said, looked, broken            int            // that something needs practice again on a day; how often it was looked whether it does; it did not as was said
	tomorrows, otherwise            int            // how much was said to need practice tomorrow; that day it was otherwise
	fits, fittedBroken, fittedOther int            // days before which the memory was fitted to the student anew; what was otherwise on these
	maybeNew, newDays               int            // days of which something new was said to come too; it did
	until                           map[string]int // when it was next asked, beside the day that was said
	asked, held                     [2]int         // questions on other days: before the day that was said and from then on, and how many of each were right
}

// What is said after an answer is kept: from the day that it names, and not before, the thing counts among those that need practice, until
// it is asked again; and what the end of a practice says of tomorrow the next day's page says of today. Only where the memory was fitted
// to the student anew in between, once a week or so, some days move. When a thing is asked is not said, for the planner weighs that on the
// day: how soon it was is logged, which is why "it comes back tomorrow" was no honest sentence.
//
//	SPARETONE_STUDY=1 go test -run WhatIsSaidIsKept -v ./drills/practice
func TestWhatIsSaidIsKept(t *testing.T) {
	k := kept{until: map[string]int{}}
	days := trial.StudyOf(5, 28)
	for student := range uint64(trial.StudyOf(2, 8)) {
		k.follow(t, student, days)
	}
	t.Logf("of %d things that were said to need practice again, looked at %d times, %d did otherwise, and %d on %d days before which the memory was fitted", k.said, k.looked, k.broken, k.fittedBroken, k.fits)
	t.Logf("said %d times how much needs practice tomorrow, %d times it was otherwise, and %d times after a fit", k.tomorrows, k.otherwise, k.fittedOther)
	t.Logf("said on %d days that something new may come too, and it did on %d", k.maybeNew, k.newDays)
	for when, n := range k.until {
		t.Logf("asked next %-22s %4.1f %%", when, 100*share(n, k.said))
	}
	for from, when := range []string{"before", "from"} {
		t.Logf("%-6s the day that was said: %d asked on another day, right %.2f", when, k.asked[from], share(k.held[from], k.asked[from]))
	}
	if k.said < 200 || k.looked < 200 || k.tomorrows < 8 || k.maybeNew < 2 {
		t.Errorf("said %d, looked %d, said %d and %d times: too little to tell", k.said, k.looked, k.tomorrows, k.maybeNew)
	}
	if k.broken > 0 || k.otherwise > 0 {
		t.Errorf("not kept: %d of %d, tomorrow %d of %d", k.broken, k.looked, k.otherwise, k.tomorrows)
	}
	if 10*k.newDays < 9*k.maybeNew {
		t.Errorf("something new came on %d of the %d days of which it was said", k.newDays, k.maybeNew)
	}
	if before, from := share(k.held[0], k.asked[0]), share(k.held[1], k.asked[1]); trial.Whole() && before < from+0.1 {
		t.Errorf("what was asked before its day was right %.2f, from then on %.2f: practice was not needed", before, from)
	}
}

func share(n, of int) float64 { return float64(n) / float64(max(1, of)) }

// follow lets a student practise on some days in a row and counts.
func (k *kept) follow(t *testing.T, student uint64, days int) {
	now := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
	clock := func() time.Time { return now }
	file, err := store.InMemory(clock)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	b := &forgetful{rand.New(rand.NewPCG(student, 5)), map[string]int{}, map[string]int{}}
	latest := map[string]said{}
	var tomorrow say.Text
	var weights memory.Weights
	for day := range days {
		p := &App{Setup: session.Setup{File: file, Course: course.BuiltIn(), Length: 10 * time.Minute, Seed: student*100 + uint64(day), Now: clock},
			Speaker: playback.None(playback.StartVolume), Settings: setting.Read(file)}
		if err := p.Plan(false); err != nil {
			t.Fatal(err)
		}
		today := p.Session.Today()
		known, is, err := file.Known()
		if err != nil {
			t.Fatal(err)
		}
		if day > 0 {
			k.looksAt(known, is.Today(), latest, day, !tomorrow.Equal(sayTomorrow(today, false)), known.Weights != weights)
		}
		weights = known.Weights
		begun := false
		for {
			q, err := p.Next()
			if err != nil {
				t.Fatal(err)
			}
			if q == nil {
				break
			}
			for m := p.Session.Meet(); m != nil; m = p.Session.Meet() {
				now = now.Add(15 * time.Second)
				if err := p.Session.Met(m); err != nil {
					t.Fatal(err)
				}
			}
			now = now.Add(8 * time.Second)
			before, met := latest[q.Item]
			begun = begun || !met
			v, err := p.Answer(q, b.answers(q.Item, q.Expected().Typed, day))
			if err != nil {
				t.Fatal(err)
			}
			right := v.Result == progress.Right
			if met {
				k.askedAgain(before, day, right)
			}
			latest[q.Item] = said{day, day + daysUntil(v.BackIn), right}
			now = now.Add(7 * time.Second)
		}
		if today.Due > 0 && today.New > 0 {
			k.maybeNew++
			if begun {
				k.newDays++
			}
		}
		if err := p.Session.End(); err != nil {
			t.Fatal(err)
		}
		tomorrow = SumUp(p).Ahead
		now = now.Truncate(24 * time.Hour).Add(42 * time.Hour)
	}
	k.until["not in this time"] += len(latest)
	k.said += len(latest)
}

// looksAt compares what a day holds with all that was said before it.
func (k *kept) looksAt(known *memory.Derived, today progress.Day, latest map[string]said, day int, other, fitted bool) {
	broken := 0
	for item, s := range latest {
		k.looked++
		m := known.Memory[item]
		if m.IsDue(today) != (s.needed <= day) {
			broken++
		}
		if fitted { // from now on it is held to what its day is now
			s.needed = day + int(m.Due-today)
			latest[item] = s
		}
	}
	k.tomorrows++
	switch {
	case fitted:
		k.fits++
		k.fittedBroken += broken
		if other {
			k.fittedOther++
		}
	default:
		k.broken += broken
		if other {
			k.otherwise++
		}
	}
}

// askedAgain counts how long after the day that was said something was asked.
func (k *kept) askedAgain(s said, day int, right bool) {
	k.said++
	from := 0
	switch late := day - s.needed; {
	case day == s.day:
		k.until["in the same practice"]++
		return
	case late < 0:
		k.until["on an earlier day"]++
	case late == 0:
		k.until["on that day"]++
	case late <= 7:
		k.until["in the week after it"]++
	default:
		k.until["later still"]++
	}
	if day >= s.needed {
		from = 1
	}
	k.asked[from]++
	if right {
		k.held[from]++
	}
}
