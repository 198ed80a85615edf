package practice

import (
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"sparetone/drills"
	"sparetone/progress"
	"sparetone/progress/plan"
	"sparetone/theory/say"
)

// lines prints sentences one below another.
func lines(texts []say.Text) string {
	var out []string
	for _, t := range texts {
		out = append(out, t.Screen())
	}
	return strings.Join(out, "\n")
}

// What the day holds is said as it is: what needs practice, what is weak of it, whether there is time for it, and how much is new.
func TestOutlookSaysWhatTheDayHolds(t *testing.T) {
	const narrow = 56 // columns of text on a screen of 60
	of := func(day plan.Today, first bool) string { return lines(holds(day, 10, first)) }
	for _, row := range []struct {
		day   plan.Today
		first bool
		want  string
	}{
		{plan.Today{Due: 1}, false, "1 thing needs practice."},
		{plan.Today{Due: 3, Weak: 1}, false, "3 things need practice; 1 is weak."},
		{plan.Today{Due: 3, Weak: 2, New: 1}, false, "3 things need practice; 2 are weak.\nSomething new may come too."},
		{plan.Today{Due: 30}, false, "30 things need practice."},
		{plan.Today{Due: 31, New: 1}, false, "31 things need practice.\nMore than a day has room for; new things may come too."},
		{plan.Today{Due: 31}, false, "31 things need practice.\nMore than a day has room for: what helps most is first."},
		{plan.Today{New: 1}, true, "1 thing is new."},
		{plan.Today{New: 1}, false, "Nothing needs practice again yet. 1 thing is new."},
		{plan.Today{New: 12}, false, "Nothing needs practice again yet. 12 things are new."},
		{plan.Today{New: 13}, true, "There is more to learn than one day has room for."},
		{plan.Today{New: 13}, false, "Nothing needs practice again yet. There is more to learn than one day has room for."},
		{plan.Today{}, false, "Nothing needs practice again yet. What has faded most is kept fresh."},
	} {
		if got := of(row.day, row.first); got != row.want {
			t.Errorf("%+v: %q, want %q", row.day, got, row.want)
		}
		for _, l := range holds(row.day, 10, row.first) {
			if text := l.Screen(); row.day.Due > 0 && utf8.RuneCountInString(text) > narrow {
				t.Errorf("%q takes more than a line of a narrow screen: then not all of today's page shows on a low one", text)
			}
		}
	}
}

// How a drill went counts what was right, and what was partly right only where anything was.
func TestResultsAreCounted(t *testing.T) {
	for want, d := range map[string]DrillSummary{
		"2 of 3":           {Right: 2, Results: []progress.Result{progress.Right, progress.Right, progress.Wrong}},
		"1 of 3, 1 partly": {Right: 1, Results: []progress.Result{progress.Right, progress.Partly, progress.Wrong}},
		"0 of 2, 2 partly": {Results: []progress.Result{progress.Partly, progress.Partly}},
	} {
		if got := d.Counted().Screen(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What is weak, mistaken or what something is mistaken for stands among what is mixed up, and nothing else: not what was
// asked and always right.
func TestMixedUpListsNoMore(t *testing.T) {
	p, now := appOf(t)
	if mixed, err := MixedUp(p); err != nil || len(mixed) != 0 {
		t.Errorf("before anything was asked: %v, %v", mixed, err)
	}
	const drill = "shape-name"
	for target, takenFor := range map[string]string{"major": "", "minor": "dominant"} {
		a := progress.Answer{Item: drill + "/" + target + "/ukulele", Drill: drill, At: *now, Result: progress.Right, Choices: 4}
		if takenFor != "" {
			a.Result, a.TakenFor = progress.Wrong, drill+"/"+takenFor+"/ukulele"
		}
		if err := p.File().Record(a); err != nil {
			t.Fatal(err)
		}
	}
	mixed, err := MixedUp(p)
	if err != nil || len(mixed) != 1 {
		t.Fatal(mixed, err)
	}
	times := map[string]int{}
	for i, item := range mixed[0].Items {
		times[item.ID] = 0
		for j := range mixed[0].Items {
			times[item.ID] += mixed[0].Times(i, j)
		}
	}
	if len(times) != 2 || times[drill+"/minor/ukulele"] != 1 || times[drill+"/dominant/ukulele"] != 0 {
		t.Errorf("mixed up are %v", times)
	}
}

// Firm is what was right nine times in ten or more, of eight times at least.
func TestWhatIsFirm(t *testing.T) {
	for _, row := range []struct {
		right, asked int
		want         string
	}{
		{8, 8, "right 10 times in 10"}, {9, 10, "right 9 times in 10"}, {19, 20, "right 9 times in 10"},
		{7, 7, ""}, {8, 9, ""}, {7, 8, ""},
	} {
		p, now := appOf(t)
		const item = "shape-name/major/ukulele"
		for n := range row.asked {
			a := progress.Answer{Item: item, Drill: "shape-name", At: *now, Result: progress.Right, Choices: 4}
			if n < row.asked-row.right {
				a.Result = progress.Wrong
			}
			if err := p.File().Record(a); err != nil {
				t.Fatal(err)
			}
			*now = now.Add(time.Minute)
		}
		p.answered = map[string]bool{item: true}
		s := Summary{Asked: row.asked}
		s.look(p)
		if got := lines(s.firm); row.want == "" && got != "" || !strings.HasSuffix(got, row.want) {
			t.Errorf("%d of %d: %q, want %q", row.right, row.asked, got, row.want)
		}
	}
}

// What is not kept is counted, and said why; where nothing is at risk there is nothing to say.
func TestWhatIsNotKeptIsSaid(t *testing.T) {
	p, now := appOf(t)
	if got := p.Unkept(); got != "" {
		t.Errorf("before anything was answered: %q", got)
	}
	for n, want := range []string{
		"1 answer is not kept in any file: practice is in memory only.", "2 answers are not kept in any file: practice is in memory only.",
	} {
		if err := p.File().Record(progress.Answer{Item: "spell/major/ukulele", Drill: "spell", At: now.Add(time.Duration(n) * time.Minute), Result: progress.Right}); err != nil {
			t.Fatal(err)
		}
		if got := p.Unkept(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// When something needs practice again is counted in days that begin, and the form it is asked in then is said where it is another.
func TestWhenPracticeIsNeededAgain(t *testing.T) {
	for _, c := range []struct {
		in   time.Duration
		as   say.Text
		want string
	}{
		{0, say.Of("in any voicing"), ""},
		{-time.Hour, say.Text{}, "It needs practice today."},
		{time.Hour, say.Text{}, "It needs practice tomorrow."},
		{24 * time.Hour, say.Of("in any voicing"), "It needs practice tomorrow, in any voicing."},
		{25 * time.Hour, say.Text{}, "It needs practice in 2 days."},
	} {
		if got := NeededAgain(drills.Verdict{BackIn: c.in, BackAs: c.as}).Screen(); got != c.want {
			t.Errorf("%v: %q, want %q", c.in, got, c.want)
		}
	}
}
