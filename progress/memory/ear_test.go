package memory

import (
	"math"
	"testing"

	"sparetone/progress"
)

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-9 {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// Where nothing is told apart one of four is right, and the more there are the harder it is; guessing taken out nothing is known.
func TestPickedAmongSeveral(t *testing.T) {
	near(t, "nothing told, of four", Telling{}.picked(4), 0.25)
	near(t, "nothing told, known", Telling{}.known(4), 0)
	near(t, "d' 2 of two", Telling{Kept: 1.5, Added: 0.5}.picked(2), 1/(1+math.Exp(-2.4)))
	near(t, "d' 2 of five", Telling{Kept: 2}.picked(5), 1/(1+4*math.Exp(-2.4)))
	near(t, "guessing taken out", Telling{Kept: 2}.known(5), (1/(1+4*math.Exp(-2.4))-0.2)/0.8)
	near(t, "given freely it counts as one of eight", among(0), 8)
	near(t, "one of four", among(0.25), 4)
}

// A day's contrasts add less the more is told; the night takes half of that, and the rest fades slowly.
func TestWhatADayKeeps(t *testing.T) {
	s := Telling{Kept: 0.6, Unsure: 1}
	s = s.contrasted()
	near(t, "the first contrast adds", s.Added, 0.35*(1-0.6/3.5))
	near(t, "of the same day nothing is lost", s.after(0).distance(), s.distance())
	near(t, "the next day", s.after(1).distance(), (0.6+0.5*s.Added)*math.Pow(1+1.0/30, -0.1))
	near(t, "a month later", s.after(30).distance(), (0.6+0.5*s.Added)*math.Pow(2, -0.1))
	near(t, "and less is sure of it", s.after(30).Unsure, 1.3)
	near(t, "but never less than at first", s.after(300).Unsure, 2)
	near(t, "what is told best grows no more", Telling{Kept: 4}.contrasted().Added, 0)
	near(t, "a gain is what a contrast adds a week later", s.gain(4, 7), s.contrasted().after(7).known(4)-s.after(7).known(4))
}

// It rests until it is known with 0.85 only.
func TestHowLongWhatIsHeardRests(t *testing.T) {
	s := Telling{Kept: 2.9}
	days := s.rests(4)
	if days < 20 || days > 300 {
		t.Fatalf("it rests for %v days", days)
	}
	near(t, "when it is back it is known with", s.after(days).known(4), Aim)
	near(t, "what is not told well comes the next day", Telling{Kept: 1}.rests(4), 0)
}

// Answers move what is believed, first answers most; luck among few choices less than among many.
func TestWhatAnAnswerSaysOfADistance(t *testing.T) {
	first := firstTelling()
	right, wrong := first.seen(4, true), first.seen(4, false)
	if !(right.Kept > first.Kept && wrong.Kept < first.Kept && right.Unsure < first.Unsure) {
		t.Errorf("from %+v to %+v or %+v", first, right, wrong)
	}
	of2 := first.seen(2, true)
	if of2.Kept-first.Kept >= right.Kept-first.Kept {
		t.Errorf("of two choices it moves by %v, of four by %v", of2.Kept-first.Kept, right.Kept-first.Kept)
	}
	sure := first
	for range 40 {
		sure = sure.seen(4, true)
	}
	if before := sure.Kept; sure.seen(4, false).Kept < before-0.6 {
		t.Errorf("one slip moves %v to %v", before, sure.seen(4, false).Kept)
	}
	p := first.picked(4)
	chance, slope := 0.92*p, 0.92*1.2*p*(1-p)
	unsure := 2 / (1 + 2*slope*slope/(chance*(1-chance)))
	near(t, "the step of a right answer", right.Kept, 0.6+unsure*slope/chance)
	near(t, "and what is unsure then", right.Unsure, unsure)
	near(t, "the step of a miss", wrong.Kept, max(0, 0.6-unsure*slope/(1-chance)))
}

// Who forgets what was heard as a name is forgotten is soon believed to; who never loses it is not.
func TestEachAnswerMovesWhichModelIsBelieved(t *testing.T) {
	w := StartWeights
	m := Memory{Ear: true}
	day := today
	m = m.after(&w, Firm, progress.Right, 0.25, day, false)
	near(t, "at first it is told apart with", m.apartChance(), 1/(1+math.Exp(-1)))
	lasting := m
	for range 6 { // weeks apart, and right every time
		day += 40
		lasting = lasting.after(&w, Firm, progress.Right, 0.25, day, true)
	}
	if lasting.Favour <= 0 {
		t.Errorf("right after 40 days six times: %v nats for telling", lasting.Favour)
	}
	fading := lasting
	day += 5
	told := clamp(0.92*fading.Telling.after(5).picked(4), 0.01, 0.99)
	remembered := clamp(rightWith(w.Retrievability(fading.Trace, 5), 0.25), 0.01, 0.99)
	next := fading.after(&w, Missed, progress.Wrong, 0.25, day, true)
	near(t, "a miss moves it by", next.Favour-fading.Favour, math.Log((1-told)/(1-remembered)))
	same := next.after(&w, Firm, progress.Right, 0.25, day, true)
	near(t, "the same day says nothing", same.Favour, next.Favour)
	near(t, "the chance lies between the two", m.chance(&w, today+3), m.apartChance()*0.92*m.Telling.after(3).picked(4)+(1-m.apartChance())*rightWith(w.Retrievability(m.Trace, 3), 0.25))
	near(t, "so does what is known", m.Knows(&w, today+3), m.apartChance()*m.Telling.after(3).known(4)+(1-m.apartChance())*w.Retrievability(m.Trace, 3))
	eye := m
	eye.Ear = false
	near(t, "and the gain", m.Gain(&w, today+3, 7), m.apartChance()*m.Telling.after(3).gain(4, 7)+(1-m.apartChance())*eye.Gain(&w, today+3, 7))
}

// What was asked in silence first and is heard later begins to be told apart then.
func TestHeardAfterAll(t *testing.T) {
	d := NewDerived(StartWeights)
	d.Add(answered("a", today-3, progress.Right), today-3)
	if d.Memory["a"].Ear {
		t.Error("a silent answer is heard")
	}
	a := answered("a", today, progress.Right)
	a.Voice, a.Choices = "soft", 4
	d.Add(a, today)
	if m := d.Memory["a"]; !m.Ear || m.Unsure == 0 || m.Favour != 0 {
		t.Errorf("%+v", m)
	}
	if d.ByEar.Total().Asked != 0 || d.ByEye.Total().Asked != 0 {
		t.Errorf("what was known in silence was foretold of the first time it is heard: %v, %v", d.ByEye, d.ByEar)
	}
	var s Samples
	s.Add(d, a, today)
	if len(s.All) != 0 {
		t.Error("what is heard is fitted to")
	}
}
