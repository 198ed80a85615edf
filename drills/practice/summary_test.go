package practice

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/practice/session"
	"sparetone/drills/practice/setting"
	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/memory"
	"sparetone/progress/plan"
	"sparetone/progress/store"
	"sparetone/synth/playback"
	"sparetone/theory/say"
)

// appOf is practice without sound, with a clock that the test moves.
func appOf(t testing.TB) (*App, *time.Time) {
	t.Helper()
	now := time.Date(2026, 5, 4, 18, 0, 0, 0, time.UTC)
	clock := func() time.Time { return now }
	file, err := store.InMemory(clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	p := &App{
		Setup:   session.Setup{File: file, Course: course.BuiltIn(), Length: 10 * time.Minute, Silent: true, Seed: 7, Now: clock},
		Speaker: playback.None(playback.StartVolume), Settings: setting.Read(file),
	}
	if err := p.Plan(false); err != nil {
		t.Fatal(err)
	}
	return p, &now
}

// What needs practice again is said to be as far away at the end as it was after the answer, and to be stronger only where guessing
// hardly gives so many right answers in a row.
func TestDaysAreCountedInOneWay(t *testing.T) {
	p, now := appOf(t)
	if err := p.Begin(Through(say.Of("some"), "spell/major/ukulele", "doubled/spare/ukulele", "doubled/fifth/ukulele", "doubled/root/ukulele", "doubled/third/ukulele", "doubled/where/ukulele", "shape-tones/major/ukulele", "shape-tones/minor/ukulele", "chord-ear/major/ukulele", "chord-ear/minor/ukulele", "shape-name/major/ukulele", "shape-name/minor/ukulele")); err != nil {
		t.Fatal(err)
	}
	said := map[bool]int{} // by whether it was luck
	for range 45 {
		q, err := p.Next()
		if err != nil || q == nil {
			break
		}
		*now = now.Add(5 * time.Second)
		v, err := p.Answer(q, q.Expected().Typed)
		if err != nil {
			t.Fatal(err)
		}
		standings, err := p.File().Standings()
		if err != nil {
			t.Fatal(err)
		}
		days := daysUntil(v.BackIn)
		if days <= 1 {
			continue
		}
		if said := fmt.Sprintf("in %d days", days); !strings.Contains(NeededAgain(v).Screen(), said) {
			t.Errorf("%s is not in %q", said, NeededAgain(v))
		}
		sure := slices.ContainsFunc(standings, func(s memory.Standing) bool { return s.Item == q.Item && s.Sure })
		line := fmt.Sprintf("%s (%s): needs no practice for %d days", p.Session.Name(q.Item), aboutOf(q.Drill).Title, days)
		if s := SumUp(p); slices.ContainsFunc(s.stronger, func(l say.Text) bool { return l.Screen() == line }) != sure {
			t.Errorf("%q is in %q: %v", line, s.stronger, !sure)
		}
		said[!sure]++
	}
	if said[true] == 0 || said[false] == 0 {
		t.Errorf("%d by luck, %d not", said[true], said[false])
	}
}

func aboutOf(id string) drills.About {
	d, _ := catalogue.ByID(id)
	return d.About()
}

// What needs practice tomorrow is of the part of practice that there was, and says so; that there is time for something new is
// said where there is something.
func TestTomorrow(t *testing.T) {
	for _, c := range []struct {
		day  plan.Today
		part bool
		want string
	}{
		{plan.Today{New: 1}, false, "Nothing needs practice tomorrow: there is time for something new."},
		{plan.Today{}, false, "Nothing needs practice tomorrow."},
		{plan.Today{New: 1}, true, "Nothing of this part needs practice tomorrow."},
		{plan.Today{Due: 1}, false, "Tomorrow 1 thing needs practice."},
		{plan.Today{Due: 2}, true, "Of this part 2 things need practice tomorrow."},
	} {
		if got := sayTomorrow(c.day, c.part).Screen(); got != c.want {
			t.Errorf("%+v, %v: %q", c.day, c.part, got)
		}
	}
}

// What was missed is said so that it can be understood a day later: with the chord, or with what was asked where the answer
// alone says little.
func TestMissedInWords(t *testing.T) {
	for _, row := range []struct {
		done session.Done
		want string
	}{
		{session.Done{Expected: say.Of("D"), Given: say.Of("Dm")}, "D; you said Dm"},
		{session.Done{Expected: say.Of("G B D"), Chord: say.Of("G"), Given: say.Of("C D E")}, "G: G B D; you said C D E"},
		{session.Done{Expected: say.Of("the third"), Asked: say.Of("the third is doubled"), Tells: true, Given: say.Of("the root")}, "the third is doubled; you said the root"},
		{session.Done{Expected: say.Of("the first"), Asked: say.Of("which of two chords has the sixth added to a major chord"), NotKnown: true},
			"which of two chords has the sixth added to a major chord: the first"},
	} {
		if got := missedLine(row.done).Screen(); got != row.want {
			t.Errorf("%q, want %q", got, row.want)
		}
	}
	p, _ := appOf(t)
	if err := p.Begin(Through(say.Of("one"), "doubled/root/ukulele")); err != nil {
		t.Fatal(err)
	}
	q, err := p.Next()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := p.Answer(q, drills.Unknown); err != nil {
		t.Fatal(err)
	}
	if asked := p.Session.Done()[0].Asked; !asked.Equal(p.Session.Name(q.Item)) || asked.IsZero() {
		t.Errorf("%q was asked", asked)
	}
}

// What is new is listed with commas, three things at the most.
func TestFewAreNamed(t *testing.T) {
	names := []say.Text{say.Of("which of two notes is higher"), say.Of("minor"), say.Of("major third"), say.Of("octave"), say.Of("major")}
	for n, want := range []string{1: "which of two notes is higher", "which of two notes is higher, minor", "which of two notes is higher, minor, major third",
		"which of two notes is higher, minor, major third and 1 more", "which of two notes is higher, minor, major third and 2 more"} {
		if n == 0 {
			continue
		}
		if got := fewNamed(names[:n]).Screen(); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// What was taken back is said in one sentence, each kind by itself.
func TestTakenBackIsSaid(t *testing.T) {
	for back, want := range map[progress.TakenBack]string{
		{Heard: 1}:             "Taken back: 1 answer that was heard.",
		{Heard: 2}:             "Taken back: 2 answers that were heard.",
		{Counted: 1}:           "Taken back: 1 answer that had counted.",
		{Heard: 1, Counted: 2}: "Taken back: 1 answer that was heard, 2 answers that had counted.",
	} {
		if got := SayTakenBack(back).Screen(); got != want {
			t.Errorf("%+v: %q, want %q", back, got, want)
		}
		lines := SaysHandedIn(exchange.HandedIn{TakenBack: back})
		if !slices.ContainsFunc(lines, func(l say.Text) bool { return l.Screen() == want }) {
			t.Errorf("%+v is not said of what is handed in: %v", back, lines)
		}
	}
	if !SayTakenBack(progress.TakenBack{}).IsZero() || len(SaysHandedIn(exchange.HandedIn{})) != 2 {
		t.Error("it is said that nothing was taken back")
	}
}

// At the end three things of a sort are named; where all answers are listed, what a beginner misses in ten minutes is.
func TestHowMuchIsListed(t *testing.T) {
	of := func(n int) (out []say.Text) {
		for i := range n {
			out = append(out, say.Of("thing {}", say.Number(i+1)))
		}
		return out
	}
	s := Summary{stronger: of(5), Missed: of(20), weak: of(22)}
	if parts := s.Parts(); len(parts) != 1 || lines(parts[0].Lines) != "thing 1\nthing 2\nthing 3\nand 2 more" {
		t.Errorf("at the end: %v", parts)
	}
	rest := s.Rest()
	if len(rest) != 2 || len(rest[0].Lines) != 20 || strings.Contains(lines(rest[0].Lines), "more") || len(rest[1].Lines) != 21 || !strings.HasSuffix(lines(rest[1].Lines), "thing 20\nand 2 more") {
		t.Errorf("of all answers: %v", rest)
	}
}
