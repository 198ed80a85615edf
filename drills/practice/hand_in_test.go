package practice

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/progress/exchange"
)

// What is handed in has the name, the lesson and how much of it is done, the days, minutes and answers; what is said of it is what is in
// it; and it never takes the place of another file.
func TestHandingIn(t *testing.T) {
	t.Setenv("HOME", t.TempDir())
	p := newPupil(t)
	l := p.takes(t, ninths)
	asked := p.practises(t, true)
	p.now = p.now.AddDate(0, 0, 1)
	asked = append(asked, p.practises(t, false)...)
	if !p.AsksName() {
		t.Error("no name is asked for")
	}
	if err := p.KeepName(" Ann O’Hara "); err != nil || p.AsksName() {
		t.Error("it is asked for again", err)
	}
	says, path, err := p.HandsIn()
	if err != nil || filepath.Base(path) != "ann-ohara-2026-05-05.jsonl" {
		t.Fatal(path, err)
	}
	if _, err := p.HandInAt("", path); err != nil {
		t.Fatal(err)
	}
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	first, rest, _ := strings.Cut(string(text), "\n")
	of, is, err := exchange.ReadHandedIn([]byte(first))
	if err != nil || !is || of.Whose != "Ann O’Hara" || of.Days != 2 || of.Answers != len(asked) || len(of.Lessons) != 1 {
		t.Fatalf("%+v, %v", of, err)
	}
	one := of.Lessons[0]
	if one.ID != l.ID || one.From != "Ida" || one.Due != "2026-05-08" || one.Taken != "2026-05-04" || one.Things != 4 || one.Done != 4 || one.Days != 2 || one.Answers == 0 {
		t.Errorf("%+v", one)
	}
	if n := strings.Count(rest, `"kind":"answer"`); n != len(asked) || strings.Count(rest, `"lesson":"`+l.ID+`"`) != one.Answers || strings.Contains(rest, "volume") {
		t.Errorf("%d answers of %d", n, len(asked))
	}
	if all := lines(says); !strings.Contains(all, "The name in it is Ann O’Hara.") || !strings.Contains(all, "Lesson Ninths: 4 of 4 things done") || !strings.Contains(all, "on 2 days, ") || !strings.Contains(all, "All practice since 4 May 2026") {
		t.Error(all)
	}
	if _, err := p.HandInAt(path, ""); !errors.Is(err, fs.ErrExist) {
		t.Error("another file is written over", err)
	}
	if _, next, _ := p.HandsIn(); filepath.Base(next) != "ann-ohara-2026-05-05-2.jsonl" {
		t.Error(next)
	}
}

// Whoever says no name is not asked again, and hands in without one.
func TestHandingInWithoutAName(t *testing.T) {
	t.Setenv("HOME", t.TempDir())
	p := newPupil(t)
	if err := p.Begin(p.Called); err != nil {
		t.Fatal(err)
	}
	if err := p.KeepName(" "); err != nil || p.AsksName() {
		t.Error(err)
	}
	says, path, err := p.HandsIn()
	if all := lines(says); err != nil || !strings.Contains(all, "No name is in it.") || !strings.Contains(all, "There is no answer yet.") || !strings.HasPrefix(filepath.Base(path), "practice-") {
		t.Error(all, path, err)
	}
}
