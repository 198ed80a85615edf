package plan

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/given"
	"sparetone/progress/memory"

	"pgregory.net/rapid"
)

func planner(known *memory.Derived, course ...Candidate) *Planner {
	return newPlanner(known, course, 10*time.Minute, time.UTC)
}

// noon, answered and takenFor are what tests of memory use as well.
var noon, answered, takenFor = given.Noon, given.Answer, given.TakenFor

// history makes what is derived from answers.
func history(answers ...progress.Answer) *memory.Derived {
	return given.To(memory.NewDerived(memory.DefaultWeights), answers...)
}

const today progress.Day = 20_000

func TestNewItemsWaitForWhatTheyRestOn(t *testing.T) {
	course := []Candidate{{Item: "minor", Drill: "d", After: []string{"major"}}, {Item: "major", Drill: "d"}}
	p := planner(history(), course...)
	if pick, _ := p.Next(noon(today)); pick.Item != "major" || pick.Why.Reason != New {
		t.Errorf("first %+v, want major", pick)
	}
	p.Answered(answered("major", today, progress.Wrong))
	// It need not hold, only have been met.
	if pick, _ := p.Next(noon(today)); pick.Item != "minor" {
		t.Errorf("then %+v, want minor", pick)
	}
	// What rests on something that is not in the course now, such as one for the ear without sound, is
	// not held up by it.
	p = planner(history(), Candidate{Item: "minor", Drill: "d", After: []string{"major"}})
	if pick, _ := p.Next(noon(today)); pick.Item != "minor" {
		t.Errorf("alone %+v, want minor", pick)
	}
}

func TestWhatIsDueAndWhatIsNewBothCome(t *testing.T) {
	p := planner(history(answered("old", today-30, progress.Right)), Candidate{Item: "fresh", Drill: "d"}, Candidate{Item: "old", Drill: "d"})
	if got, want := p.Today(noon(today)), (Today{Due: 1, New: 1}); got != want {
		t.Errorf("today %+v, want %+v", got, want)
	}
	var picks []Chosen
	for range 2 {
		pick, _ := p.Next(noon(today))
		picks = append(picks, pick)
		p.Answered(answered(pick.Item, today, progress.Right))
	}
	if want := (Chosen{Item: "old", Drill: "d", Why: Why{Reason: Due, Days: 30}}); !slices.Contains(picks, want) {
		t.Errorf("asked %+v, want %+v among them", picks, want)
	}
}

func TestThereIsRoomForNewThingsWhileMostAnswersAreRight(t *testing.T) {
	var course []Candidate
	for i := range 40 {
		course = append(course, Candidate{Item: fmt.Sprint(i), Drill: "d"})
	}
	begun := func(r progress.Result) (n int) {
		p := planner(history(), course...)
		for range 20 {
			pick, _ := p.Next(noon(today))
			if pick.Why.Reason == New {
				n++
			}
			p.Answered(answered(pick.Item, today, r))
		}
		return n
	}
	if n := begun(progress.Right); n != 20 {
		t.Errorf("all right: %d of 20 new", n)
	}
	// Where all is wrong, most is asked twice before another comes.
	if n := begun(progress.Wrong); n < 8 || n > 12 {
		t.Errorf("all wrong: %d of 20 new", n)
	}
}

func TestWhyAWeakItemComes(t *testing.T) {
	known := history(takenFor("add9", "sus2", today-9), takenFor("add9", "sus2", today-8), takenFor("add9", "minor", today-7), takenFor("add9", "sus2", today-6), answered("sus2", today-1, progress.Right))
	for range memory.Enough - 4 {
		known.Add(answered("add9", today-6, progress.Wrong), today-6)
	}
	p := planner(known, Candidate{Item: "add9", Drill: "d"}, Candidate{Item: "sus2", Drill: "d"})
	pick, _ := p.Next(noon(today))
	for range 2 {
		if pick.Item != "add9" {
			p.Answered(answered(pick.Item, today, progress.Right))
			pick, _ = p.Next(noon(today))
		}
	}
	if want := (Why{Reason: Weak, TakenFor: "sus2", Times: 3, Days: 6}); pick.Why != want || pick.Against != "sus2" {
		t.Errorf("%+v, want %+v", pick, want)
	}
	if got := p.Today(noon(today)).Weak; got != 1 {
		t.Errorf("%d weak, want 1", got)
	}
}

func TestASessionEndsOnSomethingKnownAndOnTime(t *testing.T) {
	var answers []progress.Answer
	var course []Candidate
	for i := range 30 {
		item := fmt.Sprint(i)
		course = append(course, Candidate{Item: item, Drill: "d"})
		for day := today - 40; day < today-10; day += 6 {
			answers = append(answers, answered(item, day, []progress.Result{progress.Right, progress.Wrong}[i%2]))
		}
	}
	p := planner(history(answers...), course...)
	at := noon(today)
	end := at.Add(10 * time.Minute)
	var last Chosen
	for {
		pick, ok := p.Next(at)
		if !ok {
			break
		}
		last = pick
		at = at.Add(13 * time.Second)
		a := answered(pick.Item, today, progress.Right)
		a.At, a.Session = at, "s"
		p.Answered(a)
	}
	if last.Why.Reason != Closing {
		t.Errorf("it ends on %+v", last)
	}
	if off := at.Sub(end).Abs(); off > 13*time.Second/2 {
		t.Errorf("it ends %v away from its end", off)
	}
}

// Whatever is answered, no item comes twice running, every pick is of the course, what it is set
// against has been met, and the same seed makes the same session.
func TestAnySession(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		items := rapid.IntRange(2, 12).Draw(t, "items")
		var course []Candidate
		name := func(i int) string { return fmt.Sprintf("d/%d/u", i) }
		for i := range items {
			c := Candidate{Item: name(i), Drill: fmt.Sprint(i % 3), Near: []string{name((i + 1) % items)}}
			if i > 2 {
				c.After = []string{name(i - 3)}
			}
			course = append(course, c)
		}
		results := rapid.SliceOfN(rapid.IntRange(1, 3), 30, 30).Draw(t, "results")
		session := func() (picks []Chosen) {
			known := memory.NewDerived(memory.DefaultWeights)
			for i := range items / 2 {
				known.Add(answered(name(i), today-progress.Day(i), progress.Result(1+i%3)), today-progress.Day(i))
			}
			p := newPlanner(known, course, 10*time.Minute, time.UTC)
			at := noon(today)
			for _, r := range results {
				met := func(item string) bool { _, ok := known.Memory[item]; return ok }
				pick, ok := p.Next(at)
				if !ok {
					break
				}
				if !slices.ContainsFunc(course, func(c Candidate) bool { return c.Item == pick.Item && c.Drill == pick.Drill }) {
					t.Fatalf("%+v is not of the course", pick)
				}
				if n := len(picks); n > 0 && picks[n-1].Item == pick.Item && slices.ContainsFunc(course, func(c Candidate) bool {
					return c.Item != pick.Item && (met(c.Item) || p.ready(c))
				}) {
					t.Fatalf("%s comes twice running", pick.Item)
				}
				if pick.Against != "" && (!met(pick.Against) || pick.Against == pick.Item) {
					t.Fatalf("%s is set against %s", pick.Item, pick.Against)
				}
				if pick.Why.Reason.String() == "" || (pick.Why.Reason == New) == met(pick.Item) {
					t.Fatalf("%+v", pick.Why)
				}
				picks = append(picks, pick)
				at = at.Add(12 * time.Second)
				a := progress.Answer{Item: pick.Item, Drill: pick.Drill, At: at, Result: progress.Result(r), Took: 5 * time.Second}
				if a.Result != progress.Right {
					a.TakenFor = course[0].Near[0]
				}
				p.Answered(a)
			}
			return picks
		}
		if a, b := session(), session(); !slices.Equal(a, b) {
			t.Fatalf("one seed, two sessions: %v and %v", a, b)
		}
	})
}

func TestAnEmptyCourseHasNoQuestions(t *testing.T) {
	p := planner(history())
	if pick, ok := p.Next(noon(today)); ok {
		t.Errorf("%+v", pick)
	}
}

func TestASingleItemIsAskedAgain(t *testing.T) {
	p := planner(history(), Candidate{Item: "only", Drill: "d"})
	for range 3 {
		if pick, ok := p.Next(noon(today)); !ok || pick.Item != "only" {
			t.Errorf("%+v, %v", pick, ok)
		}
		p.Answered(answered("only", today, progress.Right))
	}
}

func TestNeighboursTakeTurns(t *testing.T) {
	c := Candidate{Item: "major", Drill: "d", Near: []string{"minor", "sus4"}}
	known := history(answered("minor", today-9, progress.Right), answered("sus4", today-9, progress.Right))
	p := planner(known, c, Candidate{Item: "minor", Drill: "d"}, Candidate{Item: "sus4", Drill: "d"})
	met := map[string]int{}
	for range 4 {
		known.Add(answered("major", today-1, progress.Right), today-1)
		met[p.company(c, today)]++
	}
	if met["minor"] != 2 || met["sus4"] != 2 {
		t.Errorf("set against %v, want each twice", met)
	}
}

func TestNewThingsComeFromDrillsInTurn(t *testing.T) {
	var course []Candidate
	for i := range 12 {
		course = append(course, Candidate{Item: fmt.Sprint(i), Drill: fmt.Sprint("d", i/4)})
	}
	p := planner(history(), course...)
	last := ""
	for n := range 8 {
		pick, _ := p.Next(noon(today))
		if pick.Why.Reason != New || pick.Drill == last {
			t.Errorf("question %d: %+v, after one of %s", n+1, pick, last)
		}
		last = pick.Drill
		a := answered(pick.Item, today, progress.Right)
		a.Drill = pick.Drill
		p.Answered(a)
	}
}

// What was asked in the place of what was picked counts as asked; what was picked waits for its turn.
func TestAnotherIsAskedInItsPlace(t *testing.T) {
	known := history(answered("a", today-9, progress.Right), answered("b", today-1, progress.Right))
	course := []Candidate{{Item: "a", Drill: "d"}, {Item: "b", Drill: "d"}, {Item: "c", Drill: "d"}}
	p := planner(known, course[:2]...)
	pick, _ := p.Next(noon(today))
	if pick.Item != "a" || pick.Why.Reason != Due {
		t.Fatal(pick)
	}
	if why := p.AskedInstead("b", noon(today)); why != (Why{Reason: Beside, Days: 1}) {
		t.Errorf("%+v", why)
	}
	if want := (Chosen{Item: "b", Drill: "d", Why: Why{Reason: Beside, Days: 1}, Against: "a"}); p.last() != want {
		t.Errorf("asked was %+v, want %+v", p.last(), want)
	}
	p.Answered(answered("b", today, progress.Right))
	if pick, _ := p.Next(noon(today)); pick.Item != "a" {
		t.Errorf("%+v comes, and not what was picked before", pick)
	}
	p.Follow(course)
	if why := p.AskedInstead("c", noon(today)); why != (Why{Reason: New}) {
		t.Errorf("%+v", why)
	}
	p.Follow(append(course, Candidate{Item: "x", Drill: "e"}))
	if p.AskedInstead("x", noon(today)); p.last().Drill != "e" {
		t.Errorf("%+v was asked, which is of drill e", p.last())
	}
}

func TestWhatIsWorthAsking(t *testing.T) {
	known := history(answered("due", today-30, progress.Right), answered("held", today, progress.Right), answered("missed", today, progress.Wrong))
	p := planner(known, Candidate{Item: "due", Drill: "d", Shown: true}, Candidate{Item: "held", Drill: "d", Shown: true}, Candidate{Item: "missed", Drill: "d"},
		Candidate{Item: "new", Drill: "d"}, Candidate{Item: "later", Drill: "d", After: []string{"missed"}}, Candidate{Item: "beyond", Drill: "d", After: []string{"new"}})
	for item, want := range map[string]bool{"due": true, "held": false, "missed": true, "new": true, "later": true, "beyond": false, "nowhere": false} {
		if got := p.Wanted(item, noon(today)); got != want {
			t.Errorf("%s: %v", item, got)
		}
	}
}

// A drill that is passed over is left out until the next answer, as long as there is another.
func TestADrillIsPassedOver(t *testing.T) {
	known := history(answered("a", today-9, progress.Right), answered("b", today-1, progress.Right))
	other := answered("x", today-9, progress.Right)
	other.Drill = "e"
	known.Add(other, today-9)
	p := planner(known, Candidate{Item: "a", Drill: "d"}, Candidate{Item: "b", Drill: "d"}, Candidate{Item: "new", Drill: "d"}, Candidate{Item: "x", Drill: "e"})
	first, _ := p.Next(noon(today))
	if first.Drill != "d" {
		t.Fatal(first)
	}
	if !p.PassOver() || p.tries[first.Item] != 0 || len(p.asked) != 0 {
		t.Errorf("%s counts as asked", first.Item)
	}
	pick, _ := p.Next(noon(today))
	if pick.Item != "x" {
		t.Errorf("%s comes, of the drill that was passed over", pick.Item)
	}
	if p.PassOver() || p.last().Item != "x" {
		t.Error("the last drill is passed over")
	}
	p.Answered(answered("x", today, progress.Right))
	if pick, _ := p.Next(noon(today)); pick.Item != first.Item {
		t.Errorf("%s comes after the next answer", pick.Item)
	}
}

// What was just taken for something is not asked at once; it has its turns as company.
func TestAMistakenPairIsNotSetAgainstEachOtherAtOnce(t *testing.T) {
	known := history(answered("sus2", today-10, progress.Right), answered("sus4", today-1, progress.Right), answered("major", today-8, progress.Right))
	p := planner(known, Candidate{Item: "sus2", Drill: "d", Near: []string{"sus4"}}, Candidate{Item: "sus4", Drill: "d", Near: []string{"sus2"}}, Candidate{Item: "major", Drill: "d"})
	first, _ := p.Next(noon(today))
	for first.Item != "sus2" {
		p.Answered(answered(first.Item, today, progress.Right))
		first, _ = p.Next(noon(today))
	}
	if first.Against != "sus4" {
		t.Errorf("%+v, want sus2 against sus4", first)
	}
	p.Answered(takenFor("sus2", "sus4", today))
	if more := p.reasonFor("sus2", p.known.Memory["sus2"], today); more != OnceMore {
		t.Errorf("what was missed is asked again: %v", more)
	}
	p.Answered(answered("sus2", today, progress.Right))
	if more := p.reasonFor("sus2", p.known.Memory["sus2"], today); more != Ahead {
		t.Errorf("what was right in the meantime is asked again: %v", more)
	}
}
