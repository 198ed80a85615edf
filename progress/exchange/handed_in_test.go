package exchange

import (
	"bytes"
	"database/sql"
	"errors"
	"strings"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// handedIn writes what is handed in of a file.
func handedIn(t *testing.T, db *sql.DB, of HandedIn) string {
	t.Helper()
	var b bytes.Buffer
	if err := WriteHandedIn(db, now, of, &b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// What is handed in is an export with one line before it, which says what it holds and what became of the lesson.
func TestWhatIsHandedIn(t *testing.T) {
	db := fresh(t)
	other := map[string]string{"id": `"10112233445566778899aabbccddeeff"`, "at": `"2026-03-05T18:31:00Z"`, "day": `"2026-03-05"`, "lesson": ``, "step": ``, "doubted": `true`}
	if _, err := taken(db, ofSession+answerWith(nil)+answerWith(other), Taking{Means: mine.Means}); err != nil {
		t.Fatal(err)
	}
	lesson := HandedLesson{ID: "9f86d081884c7d65", Name: "Loop", From: "Ida", Due: "2026-03-11", Taken: "2026-03-04", Things: 20, Done: 5}
	got := handedIn(t, db, HandedIn{Tuning: "ukulele", Lessons: []HandedLesson{lesson}})
	line, export, _ := strings.Cut(got, "\n")
	if diff := cmp.Diff(`{"kind":"handed-in","format":1,"file":"FILE","whose":"Ada","at":"2026-04-04T18:30:00Z","tuning":"ukulele",`+
		`"since":"2026-03-04","days":2,"minutes":6,"answers":2,"lessons":[{"id":"9f86d081884c7d65","name":"Loop","from":"Ida","due":"2026-03-11",`+
		`"taken":"2026-03-04","things":20,"done":5,"days":1,"minutes":3,"answers":1}]}`, line); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(written(t, db), export); diff != "" {
		t.Error(diff)
	}
	of, is, err := ReadHandedIn([]byte(line))
	if err != nil || !is || of.Whose != "Ada" || of.Answers != 2 || len(of.Lessons) != 1 || of.Lessons[0].Done != 5 {
		t.Error(of, is, err)
	}
	if _, is, err := ReadHandedIn([]byte(strings.SplitN(export, "\n", 2)[0])); is || err != nil {
		t.Error("an export is taken for what was handed in", err)
	}
}

// A file that was handed in is taken in like the export that it is, into a file that then goes on from it.
func TestWhatWasHandedInIsTakenIn(t *testing.T) {
	from, to := fresh(t), fresh(t)
	if _, err := taken(from, ofSession+answerWith(nil), Taking{Means: mine.Means}); err != nil {
		t.Fatal(err)
	}
	done, err := taken(to, handedIn(t, from, HandedIn{Tuning: "ukulele"}), Taking{Means: mine.Means})
	if err != nil || done.Added != 1 || !done.Goes {
		t.Error(done, err)
	}
	if diff := cmp.Diff(written(t, from), written(t, to)); diff != "" {
		t.Error(diff)
	}
	if whose, err := tables.WhoseIs(to); err != nil || whose.Name != "Ada" {
		t.Error(whose, err)
	}
}

// A pause of more than three minutes was none of practice; of a file that holds nothing the line says so.
func TestPausesAreNotHandedIn(t *testing.T) {
	db := fresh(t)
	if line := handedIn(t, db, HandedIn{Tuning: "guitar"}); !strings.Contains(line, `"since":"","days":0,"minutes":0,"answers":0,"lessons":[]}`) {
		t.Error(line)
	}
	at := func(id string, after time.Duration) string {
		return answerWith(map[string]string{"id": `"` + id + `0112233445566778899aabbccddeeff"`, "at": `"` + evening.Add(after).Format(time.RFC3339) + `"`})
	}
	if _, err := taken(db, ofSession+at("2", time.Minute)+at("3", 3*time.Minute)+at("4", 13*time.Minute), Taking{Means: mine.Means}); err != nil {
		t.Fatal(err)
	}
	if of, err := Counted(db, now, HandedIn{}); err != nil || of.Minutes != 6 {
		t.Error(of.Minutes, err)
	}
}

func TestALineThatIsNotHandedInRightly(t *testing.T) {
	for line, says := range map[string]string{
		`{"kind":"handed-in","format":2}`:          "a newer sparetone wrote it (format 2, this one knows up to 1)",
		`{"kind":"handed-in","days":"two"}`:        "days is not written as a file that is handed in has it",
		`{"kind":"handed-in","at":"this morning"}`: "at is not a time such as 2026-03-04T18:30:00Z",
	} {
		if _, is, err := ReadHandedIn([]byte(line)); !is || err == nil || err.Error() != says {
			t.Errorf("%s: %v, %v", line, is, err)
		}
	}
}

// What was taken back is said in the line; less than nothing is read as nothing.
func TestWhatWasTakenBackIsHandedIn(t *testing.T) {
	db := fresh(t)
	tx, err := db.Begin()
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(tables.AddTakenBack(tx, "one", progress.TakenBack{Heard: 2}), tables.AddTakenBack(tx, "two", progress.TakenBack{Heard: 1, Counted: 4}), tx.Commit()); err != nil {
		t.Fatal(err)
	}
	line, _, _ := strings.Cut(handedIn(t, db, HandedIn{TakenBack: progress.TakenBack{Heard: 9}}), "\n")
	if !strings.HasSuffix(line, `"lessons":[],"taken_back":{"heard":3,"counted":4}}`) {
		t.Error(line)
	}
	for says, want := range map[string]progress.TakenBack{line: {Heard: 3, Counted: 4}, `{"kind":"handed-in","taken_back":{"heard":-1,"counted":4}}`: {}, `{"kind":"handed-in"}`: {}} {
		if of, is, err := ReadHandedIn([]byte(says)); err != nil || !is || of.TakenBack != want {
			t.Errorf("%s: %+v, %v, %v", says, of.TakenBack, is, err)
		}
	}
}
