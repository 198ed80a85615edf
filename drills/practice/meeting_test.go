package practice

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

// Nothing is asked or offered in a session that was not met before: asked on an earlier day, or shown.
func TestAllIsMetBeforeItIsAsked(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 5})
	met := map[string]bool{}
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
			if met[m.Drill+" "+m.Target] {
				t.Errorf("%s %s was shown again", m.Drill, m.Target)
			}
			met[m.Drill+" "+m.Target] = true
			if m.Beside != nil {
				met[m.Drill+" "+m.Beside.Target] = true
			}
			*now = now.Add(20 * time.Second)
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
	if shown < 5 || asked < 10 {
		t.Errorf("%d things were shown and %d asked", shown, asked)
	}
}

// The time that a meeting takes is not the time that an answer takes.
func TestMeetingIsNotThinking(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 5})
	q, err := s.Next()
	if err != nil {
		t.Fatal(err)
	}
	for s.Meet() != nil {
		*now = now.Add(time.Minute)
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

// What was asked on another day is not shown again.
func TestMetOnAnotherDay(t *testing.T) {
	s, now := sitting(t, Setup{Seed: 5, Drills: []string{"doubled"}})
	asked := map[string]bool{}
	for range 4 {
		q, err := s.Next()
		if err != nil || q == nil {
			t.Fatal(q, err)
		}
		for s.Meet() != nil {
		}
		asked[q.Target] = true
		*now = now.Add(5 * time.Second)
		if _, err := s.Answer(q.Expected().Typed); err != nil {
			t.Fatal(err)
		}
	}
	*now = now.Add(24 * time.Hour)
	again, err := NewSession(s.set)
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
	}
}
