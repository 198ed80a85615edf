package plan

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/memory"

	"pgregory.net/rapid"
)

// drillsOf lays out a course of drills a, b and so on with so many things each, one after another.
func drillsOf(byName bool, things ...int) (course []Candidate) {
	for d, n := range things {
		for i := range n {
			name := string(rune('a' + d))
			course = append(course, Candidate{Item: fmt.Sprint(name, i), Drill: name, ByName: byName})
		}
	}
	return course
}

// session asks so many questions, each right or not as a student has it, and returns the drills that were asked.
func session(p *Planner, questions int, right func(drill string) bool) (asked []string) {
	at := noon(today)
	for range questions {
		pick, ok := p.Next(at)
		if !ok {
			break
		}
		asked = append(asked, pick.Drill)
		at = at.Add(time.Second)
		a := progress.Answer{Item: pick.Item, Drill: pick.Drill, Session: fmt.Sprint(len(asked)), At: at, Result: progress.Wrong}
		if right(pick.Drill) {
			a.Result = progress.Right
		}
		p.Answered(a)
	}
	return asked
}

// longestWait is the number of questions running in which a drill was not asked.
func longestWait(asked []string, drill string) (most int) {
	wait := 0
	for _, d := range asked {
		if wait++; d == drill {
			wait = 0
		}
		most = max(most, wait)
	}
	return most
}

// Whatever drills are asked for together, however many things each has, however long its questions take and whoever is asked: of k
// drills each comes in any 2k questions running.
func TestNoDrillIsStarved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		things := rapid.SliceOfN(rapid.IntRange(1, 12), 2, 6).Draw(t, "things")
		weakIn := string(rune('a' + rapid.IntRange(0, len(things)-1).Draw(t, "weak in")))
		luck := rapid.SliceOfN(rapid.Bool(), 50, 50).Draw(t, "luck")
		n := 0
		students := map[string]func(string) bool{
			"misses all":           func(string) bool { return false },
			"knows all":            func(string) bool { return true },
			"is weak in " + weakIn: func(drill string) bool { return drill != weakIn },
			"knows only " + weakIn: func(drill string) bool { return drill == weakIn },
			"is lucky":             func(string) bool { n++; return luck[n%len(luck)] },
		}
		student := rapid.SampledFrom(slices.Sorted(maps.Keys(students))).Draw(t, "student")
		known := memory.NewDerived(memory.StartWeights)
		course := drillsOf(true, things...)
		for i, c := range course { // some were met before
			if days := rapid.IntRange(-20, 40).Draw(t, "days ago"); days > 0 {
				a := answered(c.Item, today-progress.Day(days), progress.Result(1+i%3))
				a.Drill = c.Drill
				known.Add(a, today-progress.Day(days))
			}
			course[i].Ear = c.Drill == "a"
			if i > 0 && rapid.Bool().Draw(t, "rests") {
				course[i].After = []string{course[i-1].Item}
			}
		}
		p := newPlanner(known, course, 10*time.Hour, time.UTC)
		for d := range things {
			p.known.Pace[string(rune('a'+d))] = memory.Pace{Cycle: slices.Repeat([]int64{int64(rapid.IntRange(3, 40).Draw(t, "takes")) * 1000}, 8)}
		}
		asked := session(p, 60, students[student])
		for d := range things {
			drill := string(rune('a' + d))
			if most := longestWait(asked, drill); most > 2*len(things)-1 {
				t.Fatalf("who %s is not asked %s in %d questions: %v", student, drill, most, asked)
			}
		}
	})
}

// remembered is a planner of two drills of so many things each, all of which have come back; questions of them take so many seconds.
func remembered(things int, a, b time.Duration) *Planner {
	all := map[string]memory.Memory{}
	for i := range things {
		all[fmt.Sprintf("a%02d", i)], all[fmt.Sprintf("b%02d", i)] = dueAt(0.8), dueAt(0.8)
	}
	p := remembering(all)
	for i := range p.course {
		p.course[i].ByName = true
	}
	p.length = 10 * time.Hour
	for drill, takes := range map[string]time.Duration{"a": a, "b": b} {
		p.known.Pace[drill] = memory.Pace{Cycle: slices.Repeat([]int64{takes.Milliseconds()}, 8)}
	}
	return p
}

// A quarter of the questions is each of two drills' own. Beyond that worth decides: of what takes three times as long no more is asked.
func TestBeyondTheirTurnsWorthDecides(t *testing.T) {
	for takes, want := range map[time.Duration]string{30 * time.Second: "bbbabbbabbba", 3 * time.Second: "aaabaaabaaab"} {
		p := remembered(40, takes, 10*time.Second)
		if got := strings.Join(session(p, 12, func(string) bool { return true }), ""); got != want {
			t.Errorf("where a takes %v and b 10 s: %s, want %s", takes, got, want)
		}
	}
}

// What comes because its drill has waited says so, unless it has come back or is weak.
func TestWhyItIsADrillsTurn(t *testing.T) {
	p := remembered(40, 30*time.Second, 10*time.Second)
	for item, m := range p.known.Memory {
		m.Due = today + 30
		p.known.Memory[item] = m
	}
	for n, want := range []Reason{Ahead, Ahead, Ahead, Turn, Ahead} {
		if pick, _ := p.Next(noon(today)); pick.Why.Reason != want || (pick.Drill == "a") != (want == Turn) {
			t.Errorf("question %d: %+v, want %v", n+1, pick, want)
		}
	}
	p = remembered(40, 30*time.Second, 10*time.Second)
	for range 3 {
		p.Next(noon(today))
	}
	if pick, _ := p.Next(noon(today)); pick.Drill != "a" || pick.Why.Reason != Due {
		t.Errorf("%+v, which has come back", pick)
	}
}

// A drill has turns if it was asked for by name, and then whatever it rests on.
func TestWhichDrillsHaveTurns(t *testing.T) {
	for byName, want := range map[bool]string{false: "aaaaaaaaaaaa", true: "aaababaaabab"} {
		course := drillsOf(byName, 30, 3)
		course[30].After = []string{"a29"}
		if got := strings.Join(session(newPlanner(history(), course, time.Hour, time.UTC), 12, func(string) bool { return false }), ""); got != want {
			t.Errorf("asked for by name %v: %s, want %s", byName, got, want)
		}
	}
}

// Of several drills that wait none comes too late because another comes before it.
func TestSeveralThatWaitComeInTime(t *testing.T) {
	p := newPlanner(history(), drillsOf(true, 60, 9, 9, 9, 9), time.Hour, time.UTC)
	p.known.Pace["a"] = memory.Pace{Cycle: slices.Repeat([]int64{100}, 8)}
	for i := range 60 {
		p.known.Memory[fmt.Sprint("a", i)] = dueAt(0.8)
	}
	if got := strings.Join(session(p, 15, func(string) bool { return true }), ""); got != "aaaaaabcdeaaaaa" {
		t.Error(got)
	}
}

// A drill that leaves the course waits from the beginning when it is there again.
func TestADrillThatComesBackWaitsAnew(t *testing.T) {
	p := remembered(40, 30*time.Second, 10*time.Second)
	all := p.course
	knows := func(string) bool { return true }
	session(p, 1, knows)
	p.Follow(all[40:])
	session(p, 9, knows)
	p.Follow(all)
	if got := strings.Join(session(p, 5, knows), ""); got != "bbbab" {
		t.Error(got)
	}
}

// A drill of which all was given away lets others go first seven times of two drills, and comes then.
func TestADrillGivesWayForAWhile(t *testing.T) {
	p := remembered(40, 30*time.Second, 10*time.Second)
	got := ""
	for range 16 {
		pick, _ := p.Next(noon(today))
		if pick.Drill == "a" && p.PassOver() {
			pick, _ = p.Next(noon(today))
		}
		got += pick.Drill
		a := answered(pick.Item, today, progress.Right)
		a.Drill, a.Session = pick.Drill, fmt.Sprint(len(got))
		p.Answered(a)
	}
	if got != "bbbbbbbabbbbbbba" {
		t.Error(got)
	}
}
