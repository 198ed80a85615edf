package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/teaching"
	"sparetone/drills/lesson"
	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/store"
)

// lessonDay is the day on which the classes of these tests are looked at.
var lessonDay = time.Date(2026, time.March, 11, 17, 0, 0, 0, time.UTC)

// handIn writes what somebody hands in who was right so many times of so many questions, by ear and by eye in turn, some days before the
// lesson.
func handIn(t *testing.T, folder, file, name string, right, asked, daysBefore int) {
	t.Helper()
	now := lessonDay.AddDate(0, 0, -daysBefore)
	f, err := store.InMemory(func() time.Time { return now })
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := f.SetName(name); err != nil {
		t.Fatal(err)
	}
	if err := f.Begin(progress.Session{ID: progress.NewID(), Began: now, Minutes: 10 * time.Minute}); err != nil {
		t.Fatal(err)
	}
	for i := range asked {
		a := progress.Answer{Session: "s" + name, Item: "chord-ear/dominant/ukulele", Drill: "chord-ear", At: now, Given: "dominant", Expected: "dominant", Result: progress.Right, Choices: 4, Took: 3 * time.Second, Voice: "nylon", Played: i%10 == 9}
		if i%2 == 1 {
			a.Item, a.Drill, a.Voice = "shape-name/minor/ukulele", "shape-name", ""
			a.Offered, a.Chosen = "Am|C7|F|G", 1
		}
		if i >= right {
			a.Result, a.Chosen = progress.Wrong, min(a.Chosen, 1)*2
		}
		if err := f.Record(a); err != nil {
			t.Fatal(err)
		}
		now = now.Add(6 * time.Second)
	}
	if name == "Ann" { // takes back twice what was heard, and once an answer that had counted
		wrong := f.Record(progress.Answer{Session: "sAnn", Item: "shape-name/minor/ukulele", Drill: "shape-name", At: now, Result: progress.Wrong, Played: true})
		if err := errors.Join(wrong, f.TakeBack(), f.CountHeard("sAnn"), f.CountHeard("sAnn")); err != nil {
			t.Fatal(err)
		}
	}
	out, err := os.Create(filepath.Join(folder, file))
	if err != nil {
		t.Fatal(err)
	}
	defer out.Close()
	of := exchange.HandedIn{Tuning: "ukulele", Lessons: []exchange.HandedLesson{{ID: "loop", Name: "The loop", Taken: "2026-03-04", Things: 20, Done: 5}}}
	if err := f.HandIn(of, out); err != nil {
		t.Fatal(err)
	}
}

// monday is a folder of a class: one who is strong, one of whom there are few answers, one who is away, and what is no export.
func monday(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	handIn(t, folder, "ann.jsonl", "Ann", 60, 60, 1)
	handIn(t, folder, "bo.jsonl", "Bo", 5, 6, 2)
	handIn(t, folder, "cy.jsonl", "Cy", 30, 60, 20)
	return folder
}

func on(args ...string) []string { return append([]string{"class", "--on", "2026-03-11"}, args...) }

// The class page's text has a line a student, the silent one first, what the lesson came to, and no verdict where there are too few
// answers.
func TestClassCommand(t *testing.T) {
	out, errs, ended := called(t, "", on(monday(t))...)
	if ended != command.Done || errs != "" {
		t.Fatal(ended, errs)
	}
	for _, want := range []string{"3 students on 11 March 2026, 1 of them silent.", "5 of 20", "Played on an instrument or sung: 6 of 60 answers.", "  Taken back: 2 answers that were heard, 1 answer that had counted.\n", "Too few answers to tell.", "Most of what is asked is known, by ear and by eye.", " were known by then (", "): from before, or from being shown."} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	cy, ann, bo := strings.Index(out, "\nCy "), strings.Index(out, "\nAnn "), strings.Index(out, "\nBo ")
	if !(cy >= 0 && cy < ann && ann < bo) {
		t.Errorf("not the silent one first and then by name:\n%s", out)
	}
}

// The page says as the text does how many answers there are and how many of them were played.
func TestClassPageSaysWhatWasPlayed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "class.html")
	if _, errs, ended := called(t, "", on(monday(t), "--html", path)...); ended != command.Done {
		t.Fatal(ended, errs)
	}
	page, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{">60 answers, 6 played, 1 more taken back after they counted<", ">60 answers, 6 played<", ">6 answers<", ": from before, or from being shown.<"} {
		if !strings.Contains(string(page), want) {
			t.Errorf("no %q", want)
		}
	}
}

// Where nothing can be told the page does not say that nothing is weak.
func TestClassPageIsNoSurerThanItsFigures(t *testing.T) {
	folder, path := t.TempDir(), filepath.Join(t.TempDir(), "class.html")
	handIn(t, folder, "bo.jsonl", "Bo", 3, 6, 2)
	if _, errs, ended := called(t, "", on(folder, "--html", path)...); ended != command.Done {
		t.Fatal(ended, errs)
	}
	page, err := os.ReadFile(path)
	if err != nil || !strings.Contains(string(page), ">Nothing is surely weak: play what comes next.<") {
		t.Errorf("%v, or it is surer than that", err)
	}
}

// JSON has an object a line, CSV a row a student with the same figures.
func TestClassForScripts(t *testing.T) {
	folder := monday(t)
	out, _, ended := called(t, "", on(folder, "--json")...)
	students, lines := 0, strings.SplitAfter(out, "\n")
	of := slices.DeleteFunc(lines, func(l string) bool { return !strings.HasPrefix(l, `{"kind":"student"`) })
	for _, r := range objects[teaching.StudentRow](t, strings.Join(of, "")) {
		students++
		if r.Name == "Ann" && (r.Answers != 60 || r.Played != 6 || r.Back.Heard != 2 || r.Back.Counted != 1 || r.Days != 1 || r.Ear.Asked != 30 || r.Ear.Known != 100 || r.Verdict != "strong" || r.Lesson.Done != 5 || r.Last != "2026-03-10" || r.Minutes < 5.9 || r.Minutes > 6.1) {
			t.Errorf("%+v", r)
		}
	}
	rows, _, ended2 := called(t, "", on(folder, "--csv")...)
	if ended != command.Done || ended2 != command.Done || students != 3 || !strings.Contains(rows, "\nAnn,") || !strings.Contains(rows, ",60,6,The loop,5,20,strong,30,30,100,30,30,100,,2,1\n") || !strings.HasSuffix(strings.SplitN(rows, "\n", 2)[0], ",weak,taken_back_heard,taken_back_counted") {
		t.Errorf("%d and %d, %d students\n%s", ended, ended2, students, rows)
	}
}

// The table of answers says of each answer whether it was played, and what there was to choose from.
func TestClassTablesSayWhatWasPlayed(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "tables")
	if _, errs, ended := called(t, "", on(monday(t), "--tables", dir)...); ended != command.Done {
		t.Fatal(ended, errs)
	}
	table, err := os.ReadFile(filepath.Join(dir, "answers.csv"))
	if err != nil {
		t.Fatal(err)
	}
	head, rows, _ := strings.Cut(string(table), "\n")
	if !strings.HasSuffix(head, ",lesson,played,offered,chosen,doubted") {
		t.Error(head)
	}
	for end, want := range map[string]int{",true,Am|C7|F|G,1,false\n": 9, ",true,Am|C7|F|G,2,false\n": 3, ",false,Am|C7|F|G,1,false\n": 38, ",false,,0,false\n": 63} {
		if got := strings.Count(rows, end); got != want {
			t.Errorf("%d rows, not %d, end in %q", got, want, end)
		}
	}
	if n := strings.Count(rows, "\n"); n != 126 {
		t.Errorf("%d rows", n)
	}
}

// What the folder of a class may be wrong with is told in one line each, and the rest is counted.
func TestClassBadInput(t *testing.T) {
	folder, empty := monday(t), t.TempDir()
	ann, err := os.ReadFile(filepath.Join(folder, "ann.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	bo, err := os.ReadFile(filepath.Join(folder, "bo.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	cy, err := os.ReadFile(filepath.Join(folder, "cy.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	file := func(name string, text string) {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	handIn(t, folder, "other.jsonl", "Ann", 3, 6, 1)
	file("again.jsonl", string(ann))
	file("torn.jsonl", string(bo[:len(bo)-100]))
	file("holiday.jpg", "\xff\xd8\xff\xe0"+strings.Repeat("x", 1<<17))
	file(".hidden", "nothing")
	file("empty.jsonl", "")
	file("cy-too.jsonl", strings.ReplaceAll(string(cy), `"Cy"`, `"Cyrus"`))
	if err := os.Mkdir(filepath.Join(folder, "old"), 0o755); err != nil {
		t.Fatal(err)
	}
	out, errs, ended := called(t, "", on(folder)...)
	lines := strings.Split(strings.TrimSpace(errs), "\n")
	want := []string{
		"sparetone: 2 students are called Ann (again.jsonl, other.jsonl): they count apart, each with its file beside the name",
		"sparetone: cy.jsonl: it is called Cy, and is of the student of cy-too.jsonl, who is called Cyrus there: they count as one",
		"sparetone: empty.jsonl: there is nothing in it; it does not count",
		"sparetone: holiday.jpg: this is no export of answers: one begins with a JSON object, or with the names of columns such as id,session,item; it does not count",
		"sparetone: old: this is a folder, and is not looked into; it does not count",
		"sparetone: torn.jsonl: line 8: this is not a whole JSON object; it does not count",
	}
	if fmt.Sprint(lines) != fmt.Sprint(want) || ended != command.InputWrong {
		t.Errorf("%d\n%s\nwant\n%s", ended, errs, strings.Join(want, "\n"))
	}
	if !strings.Contains(out, "4 students on") || !strings.Contains(out, "Ann (again.jsonl)") {
		t.Error(out)
	}
	for _, c := range []struct {
		args []string
		want string
		ends command.Status
	}{
		{[]string{"class"}, "sparetone class takes one folder, with the files that students handed in", command.WrongCall},
		{on(empty), "there is no file in it; put in what your students hand in, or what sparetone progress export writes", command.InputWrong},
		{on(filepath.Join(empty, "none")), "there is no such folder; name the one", command.Faulty},
		{on(filepath.Join(folder, "ann.jsonl")), "is a file; name the folder that it lies in", command.WrongCall},
		{on(folder, "--since", "yesterday"), `--since: "yesterday" is no day; one is written 2026-03-04`, command.WrongCall},
		{on(folder, "--since", "2026-04-04"), "--since: 2026-04-04 is after the day that the class is looked at, 2026-03-11", command.WrongCall},
		{on(folder, "--html", filepath.Join(folder, "ann.jsonl")), "ann.jsonl is there already; name another, or replace it with --force", command.WrongCall},
		{on(folder, "--write-lessons", folder), "is there already; name another", command.WrongCall},
		{on(folder, "--roster", filepath.Join(folder, "empty.jsonl")), "there is no name in it; a roster has a name a line", command.InputWrong},
		{on(folder, "--roster", filepath.Join(folder, "none")), "no such file or directory", command.Faulty},
	} {
		_, errs, ended := called(t, "", c.args...)
		if ended != c.ends || !strings.Contains(errs, c.want) || strings.Count(errs, "\n") != 1 {
			t.Errorf("%v ended %d with %s, want %s", c.args, ended, errs, c.want)
		}
	}
}

// A roster names who has handed in nothing, and who is not on it.
func TestClassRoster(t *testing.T) {
	roster := filepath.Join(t.TempDir(), "names.txt")
	if err := os.WriteFile(roster, []byte("# Monday\nann\nBo\n\nDee\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	out, errs, ended := called(t, "", on(monday(t), "--roster", roster)...)
	if ended != command.Done || errs != "sparetone: cy.jsonl: Cy is not on the roster; counted all the same\n" || !strings.Contains(out, "4 students on 11 March 2026, 2 of them silent.") || !strings.Contains(out, "\nDee      never") {
		t.Error(ended, errs, out)
	}
}

// What was written is said, and a folder without a lesson in it is not made.
func TestClassSaysWhatItWrites(t *testing.T) {
	dir := t.TempDir()
	page, next := filepath.Join(dir, "page.html"), filepath.Join(dir, "next")
	out, _, ended := called(t, "", on(monday(t), "--html", page, "--write-lessons", next)...)
	if ended != command.Done || !strings.Contains(out, page+": the class as a page.\n") || !strings.Contains(out, next+": the proposed lessons, ") {
		t.Errorf("%d, %s", ended, out)
	}
	one := filepath.Join(dir, "one")
	if err := os.Mkdir(one, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"progress", "name", "None"}, {"lesson", "hand-in", filepath.Join(one, "none.jsonl")}} {
		if _, errs, ended := called(t, "", append(args, "--progress", filepath.Join(dir, "none.db"))...); ended != command.Done {
			t.Fatal(errs)
		}
	}
	none := filepath.Join(dir, "none")
	out, errs, ended := called(t, "", on(one, "--write-lessons", none)...)
	if _, err := os.Stat(none); ended != command.Done || !strings.Contains(out, "No lesson is proposed to anybody: "+none+" was not written.\n") || err == nil {
		t.Errorf("%d, %s, %s, %v", ended, out, errs, err)
	}
}

// The lessons that are written can be practised.
func TestClassWritesLessons(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "next")
	if _, errs, ended := called(t, "", on(monday(t), "--write-lessons", folder)...); ended != command.Done {
		t.Fatal(ended, errs)
	}
	files, err := filepath.Glob(filepath.Join(folder, "*.toml"))
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, path := range files {
		f, err := os.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		l, err := lesson.Read(path, f, nil)
		f.Close()
		if err != nil || len(l.Steps) == 0 || l.Name == "" || l.Name == strings.TrimSuffix(filepath.Base(path), ".toml") || l.Tuning.Name != "ukulele" || teaching.DayOf(l.Due) != "2026-03-18" {
			t.Errorf("%s: %d steps, %q, on %s, due %s, %v", path, len(l.Steps), l.Name, l.Tuning.Name, teaching.DayOf(l.Due), err)
		}
	}
}

// Names stand in the order of the alphabet whatever signs their letters have; the lesson that all have is named once; the page may be replaced
// by force alone.
func TestClassOfManyNames(t *testing.T) {
	folder, page := t.TempDir(), filepath.Join(t.TempDir(), "class.html")
	for n, name := range []string{"Zoë", "Łucja", "émile", "Mia", "Fay"} {
		handIn(t, folder, fmt.Sprintf("%d.jsonl", n), name, 60, 60, 1)
	}
	out, errs, ended := called(t, "", on(folder, "--html", page)...)
	last := -1
	for _, name := range []string{"émile", "Fay", "Łucja", "Mia", "Zoë"} {
		at := strings.Index(out, "\n"+name)
		if at <= last {
			t.Errorf("%s is not where the alphabet has it: %d, %s\n%s", name, ended, errs, out)
		}
		last = at
	}
	written, err := os.ReadFile(page)
	if err != nil || strings.Count(string(written), "The loop") != 1 {
		t.Errorf("the lesson is named %d times, %v", strings.Count(string(written), "The loop"), err)
	}
	if err := os.WriteFile(page, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, errs, ended := called(t, "", on(folder, "--html", page)...); ended != command.WrongCall {
		t.Errorf("replaced unasked: %d, %s", ended, errs)
	}
	if _, errs, ended := called(t, "", on(folder, "--html", page, "--force")...); ended != command.Done {
		t.Errorf("%d, %s", ended, errs)
	}
	if again, _ := os.ReadFile(page); string(again) != string(written) {
		t.Error("the page is not what it was before")
	}
}
