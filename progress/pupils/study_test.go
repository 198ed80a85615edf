package pupils

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"sparetone/progress"
)

// watched is a teacher that asks the items in turn until the session is over, and notes when.
type watched struct {
	items, questions int
	days             []progress.Day
	lengths          []time.Duration
	answers          []progress.Answer
	end              time.Time
	n                int
}

func (w *watched) session(day progress.Day, at time.Time, length time.Duration) {
	w.days, w.lengths, w.end, w.n = append(w.days, day), append(w.lengths, length), at.Add(length), 0
}

func (w *watched) next(at time.Time) (item, against int, ok bool) {
	w.n++
	return (w.n - 1) % w.items, -1, at.Before(w.end) && (w.questions == 0 || w.n <= w.questions)
}

func (w *watched) answered(_ int, a progress.Answer) { w.answers = append(w.answers, a) }

func (w *watched) foretold(item int, _ progress.Day) (float64, bool) { return 0.75, item != 1 }

// fading is a mind that knows things from the first question on, the first few firmly until some days later.
type fading struct {
	stubborn
	met [7]bool
}

func (f *fading) known(i int, day float64) float64 {
	switch {
	case !f.met[i]:
		return 0.1
	case i < 2 && day < float64(firstDay)+20:
		return 0.8
	}
	return 0.5
}

func (f *fading) learn(i int, _ []pairing, _ float64, _ bool) { f.met[i] = true }

func TestStudyCountsWhatPracticeAdds(t *testing.T) {
	f := &fading{stubborn: stubborn{chance: 1}}
	p := newPupil(chords(), f, f, dice())
	p.slow = 1
	w := &watched{items: 5, questions: 25}
	o := Study(p, w, 8, Away{From: 3, Until: 5}, dice())
	if len(w.days) != 6 || w.days[3] != firstDay+5 || w.lengths[0] != 10*time.Minute || len(o.Sessions) != 6 || o.Sessions[3].Day != 5 {
		t.Errorf("practised on %v for %v", w.days, w.lengths)
	}
	for _, s := range o.Sessions {
		if s.Right != 25 || s.Of != 25 {
			t.Errorf("%+v", s)
		}
	}
	isNear(t, "known a week after day 7", o.Known[0][0], 2*0.7+3*0.4)
	isNear(t, "a month after", o.Known[0][1], 5*0.4)
	if o.Firm[0] != [len(Later)]float64{2, 0} || o.Met != 5 || o.Wasted != 100 {
		t.Errorf("firmly %v, met %d, sure %d", o.Firm[0], o.Met, o.Wasted)
	}
	seconds := 0.0
	for _, a := range w.answers[:5*25] {
		seconds += a.Took.Seconds()
	}
	if minutes := o.Minutes[0]; minutes < seconds/60+5*25*2/60.0 || minutes > seconds/60+5*25*3.2/60 {
		t.Errorf("%.1f minutes by day 7, where answers alone took %.1f", minutes, seconds/60)
	}
	if w.answers[0].Voice == "" || w.answers[3].Voice != "" || w.answers[0].Choices != 2 || w.answers[0].Session == w.answers[25].Session || w.answers[0].Drill != "ear" {
		t.Errorf("%+v", w.answers[0])
	}
	if h := w.answers[0].At.Sub(firstDay.Begins(time.UTC)); h < 15*time.Hour || h > 15*time.Hour+time.Minute {
		t.Errorf("it is practised at %v", h)
	}
	// Foretold is counted from the hundred and first answer on, of what was met: by eye of items 3 and 4, by ear of 0 and 2.
	for ear, want := range []float64{20, 20} {
		if b := o.Foretold[ear][7]; b.n != want || b.right != want || math.Abs(b.foretold-0.75*want) > 1e-9 {
			t.Errorf("foretold %+v, want %v of 0.75", b, want)
		}
		isNear(t, "off", Off([]Outcome{o, o}, ear), 0.25)
	}
	isNear(t, "off, where nothing was foretold", Off([]Outcome{{}}, 0), 0)
	if Firmly != 0.8 || Measured != [...]int{7, 30, 60, 120} || Later != [...]float64{7, 30} {
		t.Error("something else is measured")
	}
}

// A question that is right with less than nineteen in twenty is not sure, and only the first hundred count.
func TestSureQuestions(t *testing.T) {
	for chance, want := range map[float64]int{0.94: 0, 0.95: 100} {
		p, _ := sitter(chance)
		if o := Study(p, &watched{items: 7, questions: 60}, 3, Away{}, dice()); o.Wasted != want {
			t.Errorf("right with %v: %d are sure", chance, o.Wasted)
		}
	}
}

// Life leaves out a day in five and ten days in a row, practises three to fifteen minutes, gives up where under two fifths of twelve or
// more were right, and after three bad sessions stays away for some days.
func TestLife(t *testing.T) {
	days, sessions, longest, gone := 0, 0.0, 0, 0
	least, most, sum, n := time.Hour, time.Duration(0), 0.0, 0.0
	for student := range uint64(60) {
		p, _ := sitter(1)
		p.life = true
		p.rng = rand.New(rand.NewPCG(9, student))
		w := &watched{items: 7, questions: 1}
		Study(p, w, 100, Away{}, rand.New(rand.NewPCG(5, student)))
		for i, day := range w.days {
			if i > 0 {
				longest = max(longest, int(day-w.days[i-1])-1)
				if day-w.days[i-1] > 10 {
					gone++
					if from := w.days[i-1] - firstDay + 1; from < 14 || from > 79 {
						t.Errorf("a holiday from day %d on", from)
					}
				}
			}
			least, most = min(least, w.lengths[i]), max(most, w.lengths[i])
			sum, n = sum+w.lengths[i].Minutes(), n+1
		}
		days, sessions = days+90, sessions+float64(len(w.days))
	}
	if share := sessions / float64(days); math.Abs(share-0.8*0.97) > 0.03 { // now and then three slips in a row
		t.Errorf("practised on %.3f of the days", share)
	}
	if gone != 60 || longest < 10 {
		t.Errorf("%d of 60 have a holiday, the longest of %d days", gone, longest)
	}
	if mean := sum / n; math.Abs(mean-9) > 0.15 || least < 3*time.Minute || least > 4*time.Minute || most > 15*time.Minute || most < 14*time.Minute {
		t.Errorf("%v to %v, %.2f minutes on the average", least, most, mean)
	}
	asked := func(chance float64, stays bool) (of, sessions float64) {
		for student := range uint64(40) {
			p, _ := sitter(chance)
			p.life = true
			if stays {
				p.Stay()
			}
			p.rng = rand.New(rand.NewPCG(9, student))
			for _, s := range Study(p, &watched{items: 7, questions: 40}, 20, Away{}, rand.New(rand.NewPCG(5, student))).Sessions {
				if of++; s.Of == 12 {
					sessions++
				}
			}
		}
		return of / 40, sessions / of
	}
	if came, gaveUp := asked(0, false); came < 5 || came > 9 || gaveUp < 0.7 {
		t.Errorf("who knows nothing came %.1f times and gave up at the twelfth question in %.2f", came, gaveUp)
	}
	if came, gaveUp := asked(1, false); came < 13 || gaveUp > 0.05 {
		t.Errorf("who knows all came %.1f times and gave up at the twelfth question in %.2f", came, gaveUp)
	}
	if came, gaveUp := asked(0, true); came < 13 || gaveUp > 0.05 {
		t.Errorf("who stays came %.1f times and gave up at the twelfth question in %.2f", came, gaveUp)
	}
}
