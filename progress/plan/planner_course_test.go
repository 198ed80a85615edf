package plan

import (
	"slices"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/store"
)

// Where the course changes in the middle of a session nothing outside it is asked, what was asked is not
// asked as if it had not been, and what was missed before comes once more when it can.
func TestACourseThatChangesInTheMiddle(t *testing.T) {
	f := inMemory(t)
	ear := []Candidate{{Item: "ear/a/u", Drill: "ear"}, {Item: "ear/b/u", Drill: "ear"}, {Item: "ear/c/u", Drill: "ear"}}
	eye := []Candidate{{Item: "eye/a/u", Drill: "eye"}, {Item: "eye/b/u", Drill: "eye"}, {Item: "eye/c/u", Drill: "eye"}, {Item: "eye/d/u", Drill: "eye"}}
	p, err := plannerFor(f, append(ear, eye...), time.Hour)
	if err != nil {
		t.Fatal(err)
	}
	at := evening
	ask := func(times int, missed string) (asked []Chosen) {
		for range times {
			pick, ok := p.Next(at)
			if !ok {
				t.Fatal("nothing to ask")
			}
			at = at.Add(10 * time.Second)
			a := progress.Answer{Item: pick.Item, Drill: pick.Drill, At: at, Result: progress.Right}
			if pick.Item == missed {
				a.Result = progress.Wrong
			}
			if err := f.Record(a); err != nil {
				t.Fatal(err)
			}
			p.Answered(a)
			asked = append(asked, pick)
		}
		return asked
	}
	if got := ask(1, "ear/a/u"); got[0].Item != "ear/a/u" {
		t.Fatal(got)
	}
	p.Follow(eye)
	times := map[string]int{}
	for _, pick := range ask(12, "") {
		times[pick.Item]++
		if pick.Drill != "eye" {
			t.Errorf("%s was asked by eye", pick.Item)
		}
	}
	if len(times) != len(eye) {
		t.Errorf("asked were %v", times)
	}
	p.Follow(append(ear, eye...))
	if !slices.ContainsFunc(ask(24, ""), func(p Chosen) bool { return p.Item == "ear/a/u" && p.Why.Reason == OnceMore }) {
		t.Error("what was missed before the sound went does not come once more")
	}
}

// What was asked last is known though the course has it no more: no other drill has to wait in its place.
func TestWhatLeftTheCourseWasAsked(t *testing.T) {
	f := inMemory(t)
	var course []Candidate
	for _, drill := range []string{"a", "b", "gone"} {
		c := Candidate{Item: drill + "/1/u", Drill: drill}
		course = append(course, c)
		if err := f.Record(progress.Answer{Item: c.Item, Drill: drill, At: evening, Result: progress.Right}); err != nil {
			t.Fatal(err)
		}
	}
	later := evening.AddDate(0, 0, 30)
	p, err := plannerFor(f, course[2:], time.Hour)
	if err != nil {
		t.Fatal(err)
	}
	if pick, _ := p.Next(later); pick.Drill != "gone" {
		t.Fatal(pick)
	}
	p.Follow(course[:2])
	if pick, _ := p.Next(later); pick.Item != "a/1/u" || pick.Why.Reason != Due {
		t.Errorf("%v is asked, want the first of two that are alike", pick)
	}
}

// plannerFor plans a session with what a file holds.
func plannerFor(f *store.File, course []Candidate, length time.Duration) (*Planner, error) {
	known, is, err := f.Known()
	if err != nil {
		return nil, err
	}
	return NewPlanner(known, is, course, length), nil
}

// evening is a Wednesday at half past six, somewhere west of Greenwich.
var evening = time.Date(2026, 3, 4, 18, 30, 0, 0, time.FixedZone("UTC-5", -5*60*60))

// inMemory is practice in memory on that evening.
func inMemory(t testing.TB) *store.File {
	t.Helper()
	f, err := store.InMemory(func() time.Time { return evening })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}
