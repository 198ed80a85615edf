package session

import (
	"bytes"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/drills"
	"sparetone/drills/catalogue"
	"sparetone/drills/course"
	"sparetone/drills/meet"
	"sparetone/drills/trial"
)

// shownNow says that a meeting was shown.
func shownNow(t *testing.T, s *Session, m *meet.Meeting) {
	t.Helper()
	if err := s.Met(m); err != nil {
		t.Fatal(err)
	}
}

// Nothing is asked or offered in a session that was not met before: asked on an earlier day, or shown.
func TestAllIsMetBeforeItIsAsked(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 5})
	met, looked := map[string]bool{}, map[string]bool{}
	likeSaid, unsaid := map[drills.Topic]bool{}, 0
	shown, asked := 0, 0
	for {
		q, err := s.Next()
		if err != nil {
			t.Fatal(err)
		}
		if q == nil {
			break
		}
		asked++
		for m := s.Meet(); m != nil; m = s.Meet() {
			shown++
			if met[m.Drill+" "+m.Target] && q.Instead == nil {
				t.Errorf("%s %s was shown again", m.Drill, m.Target)
			}
			both := met[m.Drill+" "+m.Target] && (m.Beside == nil || met[m.Drill+" "+m.Beside.Target])
			if q.Instead != nil && both && !m.Known {
				t.Errorf("%s %s is called new, and was shown", m.Drill, m.Target)
			}
			if m.Known && !met[m.Drill+" "+m.Target] {
				t.Errorf("%s %s is called known, and is new", m.Drill, m.Target)
			}
			d, _ := catalogue.ByID(m.Drill)
			targets := d.Targets(s.On())
			topic := targets[slices.IndexFunc(targets, func(t drills.Target) bool { return t.ID == m.Target })].Topic
			if likeSaid[topic] != m.Like.IsZero() {
				t.Errorf("%s %s: that what it is like was said is %v, and now it is %q", m.Drill, m.Target, likeSaid[topic], m.Like.Screen())
			}
			if likeSaid[topic] {
				unsaid++
			}
			likeSaid[topic] = true
			isNew := func(l meet.Look) bool {
				return l.Shape == nil || !looked[m.Drill+" "+m.Target+" "+l.Shape.Shape.String()]
			}
			if q.Instead != nil && !slices.ContainsFunc(m.Looks(), isNew) {
				t.Errorf("%s %s was shown again in the same shapes", m.Drill, m.Target)
			}
			for _, l := range m.Looks() {
				if l.Shape != nil {
					looked[m.Drill+" "+m.Target+" "+l.Shape.Shape.String()] = true
				}
			}
			met[m.Drill+" "+m.Target] = true
			if m.Beside != nil && !m.Beside.Answer {
				met[m.Drill+" "+m.Beside.Target] = true
			}
			*now = now.Add(20 * time.Second)
			shownNow(t, s, m)
		}
		if !met[q.Drill+" "+q.Target] {
			t.Errorf("%s asks %s, which was not met", q.Drill, q.Target)
		}
		for _, c := range q.Choices {
			if v, err := q.Mark(c.Typed); err == nil && v.TakenFor != "" && !met[q.Drill+" "+v.TakenFor] {
				t.Errorf("%s offers %s, which was not met", q.Drill, v.TakenFor)
			}
		}
		*now = now.Add(6 * time.Second)
		if _, err := s.Answer(q.Expected().Typed); err != nil {
			t.Fatal(err)
		}
	}
	if shown < 5 || asked < 10 || unsaid == 0 {
		t.Errorf("%d things were shown and %d asked, %d without what they are like", shown, asked, unsaid)
	}
}

// What is seen is asked for the first time of a shape that was shown before in the session, and offers only what was shown there, on whatever
// instrument and day: so whoever has looked can tell. Whichever is asked, the same was shown.
func TestFirstQuestionsByEyeAreOfWhatWasMet(t *testing.T) {
	first := map[string]int{}
	for n, name := range []string{"ukulele", "guitar", "banjo", "mandolin"} {
		s, now := sittingOn(t, name, Setup{Seed: uint64(n), Silent: true})
		asked := map[string]bool{}
		for range trial.StudyOf(6, 20) {
			var shown []meet.Look // in this session
			within := map[string]bool{"": true}
			for q, err := s.Next(); q != nil; q, err = s.Next() {
				if err != nil {
					t.Fatal(err)
				}
				for m := s.Meet(); m != nil; m = s.Meet() {
					shown = append(shown, m.Looks()...)
					within[m.Within.Screen()] = true
					*now = now.Add(20 * time.Second)
					shownNow(t, s, m)
				}
				if !asked[q.Item] {
					first[q.Drill]++
					seen := slices.ContainsFunc(shown, func(l meet.Look) bool {
						return l.Shape != nil && (q.Shown == nil || slices.Equal(l.Shape.Shape, q.Shown.Shape)) && (q.Answer.Kind == nil || l.Shape.Chord.String() == q.Answer.String())
					})
					if swaps := q.Form == drills.Frets && q.Shown != nil; swaps { // from one shape to another
						seen = slices.ContainsFunc(shown, func(l meet.Look) bool { return slices.Equal(l.Shape.Shape, q.Shown.Shape) }) &&
							slices.ContainsFunc(shown, func(l meet.Look) bool { return l.Shape.Chord.String() == q.Answer.String() })
					}
					if !seen || !within[q.Within.Screen()] {
						t.Errorf("%s: %s asks %q, which was not shown", name, q.Item, q.Text())
					}
					for _, c := range q.Choices {
						if q.Within.IsZero() && !slices.ContainsFunc(shown, func(l meet.Look) bool { return example{names: []string{l.Name.Screen()}}.called(c.Said.Screen()) }) {
							t.Errorf("%s: %s asks %q and offers %s, which was not shown", name, q.Item, q.Text(), c.Said)
						}
					}
				}
				asked[q.Item] = true
				*now = now.Add(6 * time.Second)
				if _, err := s.Answer(q.Expected().Typed); err != nil {
					t.Fatal(err)
				}
			}
			*now = now.Add(23 * time.Hour)
			next, err := New(s.set)
			if err != nil {
				t.Fatal(err)
			}
			s = next
		}
	}
	for _, id := range []string{"shape-name", "shape-tones", "doubled", "spell", "build", "swap", "key-add"} {
		if first[id] < 8 {
			t.Errorf("%s: only %d first questions were looked at", id, first[id])
		}
	}
}

// The time that a meeting takes is not the time that an answer takes.
func TestMeetingIsNotThinking(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 5})
	q, err := s.Next()
	if err != nil {
		t.Fatal(err)
	}
	for m := s.Meet(); m != nil; m = s.Meet() {
		*now = now.Add(time.Minute)
		shownNow(t, s, m)
	}
	*now = now.Add(3 * time.Second)
	if _, err := s.Answer(q.Expected().Typed); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := s.set.File.ExportCSV(&out); err != nil {
		t.Fatal(err)
	}
	if rows := strings.Split(out.String(), "\n"); len(rows) < 2 || !strings.Contains(rows[1], ",3000,") {
		t.Errorf("it is recorded that it took another time than 3000 ms:\n%s", out.String())
	}
}

// Where a chord goes is told from another answer, not from another chord: each chord has a meeting of its own before it is asked.
func TestAnotherAnswerIsNoMeeting(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 5, Drills: []string{"resolve"}, ByName: true})
	met := map[string]bool{}
	asked := map[string]bool{}
	for range 20 {
		q, err := s.Next()
		if err != nil || q == nil {
			t.Fatal(q, err)
		}
		for m := s.Meet(); m != nil; m = s.Meet() {
			met[m.Target] = true
			shownNow(t, s, m)
		}
		if asked[q.Target] = true; !met[q.Target] {
			t.Errorf("%s was not met", q.Target)
		}
		*now = now.Add(5 * time.Second)
		if _, err := s.Answer(q.Expected().Typed); err != nil {
			t.Fatal(err)
		}
	}
	if len(asked) < 4 {
		t.Errorf("only %v were asked", asked)
	}
}

// What was asked on another day is not shown again.
func TestMetOnAnotherDay(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 5, Drills: []string{"doubled"}})
	asked := map[string]bool{}
	for range 4 {
		q, err := s.Next()
		if err != nil || q == nil {
			t.Fatal(q, err)
		}
		for m := s.Meet(); m != nil; m = s.Meet() {
			shownNow(t, s, m)
		}
		asked[q.Target] = true
		*now = now.Add(5 * time.Second)
		if _, err := s.Answer(q.Expected().Typed); err != nil {
			t.Fatal(err)
		}
	}
	*now = now.Add(24 * time.Hour)
	again, err := New(s.set)
	if err != nil {
		t.Fatal(err)
	}
	q, err := again.Next()
	if err != nil {
		t.Fatal(err)
	}
	for m := again.Meet(); m != nil; m = again.Meet() {
		if asked[m.Target] {
			t.Errorf("%s, asked of %s, was shown again", m.Target, q.Target)
		}
		shownNow(t, again, m)
	}
}

// What was shown is not shown again at the next start, though its question was never answered; what was left before it was gone on
// from is.
func TestMetThoughNotAsked(t *testing.T) {
	s, _ := sitting(t, Setup{Seed: 5, Drills: []string{"chord-ear"}})
	meets := func(s *Session) *meet.Meeting {
		t.Helper()
		if q, err := s.Next(); err != nil || q == nil {
			t.Fatal(q, err)
		}
		return s.Meet()
	}
	again := func() *Session {
		t.Helper()
		s, err := New(s.set)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	m := meets(s)
	if m == nil {
		t.Fatal("nothing is met at first")
	}
	s = again()
	if left := meets(s); left == nil || left.Target != m.Target {
		t.Fatalf("what was left was not shown again but %v", left)
	}
	shownNow(t, s, m)
	if left := meets(again()); left != nil {
		t.Errorf("%s is shown again", left.Target)
	}
}

// Whoever wants to be asked at once is shown nothing more before the question, nor at the next start.
func TestMeetNone(t *testing.T) {
	s, _ := sitting(t, Setup{Seed: 5, Drills: []string{"doubled"}})
	for range 2 {
		if q, err := s.Next(); err != nil || q == nil {
			t.Fatal(q, err)
		}
		if err := s.MeetNone(); err != nil || s.Meet() != nil {
			t.Errorf("%v, and %v is left", err, s.Meet())
		}
		again, err := New(s.set)
		if err != nil {
			t.Fatal(err)
		}
		if s = again; s.toMeet != nil {
			t.Error("a session begins with something to show")
		}
	}
}

// Which thing is shown first does not tell which is asked.
func TestMeetingTellsNoAnswer(t *testing.T) {
	first := map[bool]int{}
	for seed := range uint64(40) {
		s, _ := sitting(t, Setup{Seed: seed, Drills: []string{"doubled"}})
		q, err := s.Next()
		if err != nil || q == nil {
			t.Fatal(q, err)
		}
		if len(q.Choices) > 1 && len(s.toMeet) == len(q.Choices) {
			first[s.Meet().Target == q.Target]++
		}
	}
	if n := first[true] + first[false]; n < 20 || first[true]*2 > n {
		t.Errorf("of %d first things shown %d are asked", n, first[true])
	}
}

// Whoever begins far on meets few things in a row: two that were never asked or shown stand among the choices of a question at the most.
func TestFewAreMetInARow(t *testing.T) {
	at := course.Level{Ear: "added-heard", Eye: "added-heard"}
	for _, name := range []string{"guitar", "ukulele"} {
		for seed := range uint64(3) {
			s, now := sittingOn(t, name, Setup{Course: course.BuiltIn().From(at, trial.Played(t, name)), Seed: seed})
			for q, err := s.Next(); q != nil; q, err = s.Next() {
				if err != nil {
					t.Fatal(err)
				}
				met := 0
				for m := s.Meet(); m != nil; m = s.Meet() {
					met++
					shownNow(t, s, m)
				}
				if met > 2 {
					t.Errorf("%s, seed %d, question %d (%s): %d things are met in a row", name, seed, q.Number, q.Item, met)
				}
				*now = now.Add(20 * time.Second)
				if _, err := s.Answer(q.Expected().Typed); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}
