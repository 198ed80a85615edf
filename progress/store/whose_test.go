package store

import (
	"errors"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/progress"
	"sparetone/progress/exchange"
	"sparetone/progress/tables"

	"github.com/google/go-cmp/cmp"
)

// whose returns whose a file is.
func whose(t *testing.T, f *File) progress.Whose {
	t.Helper()
	w, err := f.Whose()
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// named returns a file with practice in it, under a name.
func named(t *testing.T, name string, from int, seed uint64) *File {
	t.Helper()
	f := inMemory(t, later)
	practised(t, f, from, 2, 6, seed)
	if err := f.SetName(name); err != nil {
		t.Fatal(err)
	}
	return f
}

// unasked takes in what is the student's own alone.
var unasked = exchange.Taking{From: "export", Means: anything.Means}

// Every line of an export says whose it is, as JSON and as CSV; a file has its id from the first, and keeps it.
func TestEveryLineSaysWhoseItIs(t *testing.T) {
	f := named(t, "=Ann; Lee", 0, 1)
	w := whose(t, f)
	if len(w.ID) != 26 || w.Name != "=Ann; Lee" || w.ID == whose(t, inMemory(t, later)).ID {
		t.Errorf("%+v", w)
	}
	asJSON, asCSV := bothExports(t, f)
	for line := range strings.Lines(asJSON) {
		if !strings.Contains(line, `,"file":"`+w.ID+`","whose":"=Ann; Lee",`) {
			t.Error(line)
		}
	}
	for line := range strings.Lines(asCSV) {
		if !strings.HasSuffix(line, ","+w.ID+",'=Ann; Lee,false\n") && !strings.HasSuffix(line, ",file,whose,doubted\n") {
			t.Error(line)
		}
	}
	if err := f.SetName(""); err != nil || whose(t, f) != (progress.Whose{ID: w.ID}) {
		t.Errorf("%+v, %v", whose(t, f), err)
	}
	for _, name := range []string{"a\x1b[2J", strings.Repeat("x", tables.LongestName+1)} {
		if err := f.SetName(name); err != ErrName {
			t.Errorf("%q: %v", name, err)
		}
	}
	path := filepath.Join(t.TempDir(), "progress.db")
	g := openAt(t, path, later)
	id := whose(t, g).ID
	g.Close()
	if again := whose(t, openAt(t, path, later)).ID; again != id {
		t.Errorf("%s became %s", id, again)
	}
}

// A file that is empty goes on from the one whose export it takes in, so either may take in the other's later, unasked.
func TestAnEmptyFileGoesOnFromAnother(t *testing.T) {
	desk, lap := named(t, "Ann", 0, 1), inMemory(t, later)
	was := contents(t, lap)
	export, _ := bothExports(t, desk)
	got, err := lap.Import(strings.NewReader(export), unasked)
	if err != nil || !got.Goes || len(got.Joined) > 0 || !cmp.Equal(got.Of, []progress.Whose{whose(t, desk)}) || whose(t, lap) != whose(t, desk) {
		t.Fatalf("%+v, %v", got, err)
	}
	practised(t, lap, 3, 1, 5, 2)
	practised(t, desk, 3, 1, 5, 3)
	fromLap, _ := bothExports(t, lap)
	_, fromDesk := bothExports(t, desk)
	for f, other := range map[*File]string{desk: fromLap, lap: fromDesk} {
		if got, err := f.Import(strings.NewReader(other), unasked); err != nil || got.Added != 5 || got.Goes {
			t.Errorf("%+v, %v", got, err)
		}
	}
	takeBack(t, lap)
	practisedHere := contents(t, lap)
	takeBack(t, lap) // the first import: whose it is goes back, though it has been practised in
	if w := whose(t, lap); w.Name != "" || w.ID == whose(t, desk).ID {
		t.Errorf("%+v", w)
	}
	if len(practisedHere) <= len(contents(t, lap)) || len(was) == 0 {
		t.Error("nothing was taken back")
	}
	// A name that was given since stays.
	other := inMemory(t, later)
	takeIn(t, other, "export", export)
	if err := other.SetName("Anna"); err != nil {
		t.Fatal(err)
	}
	if takeBack(t, other); whose(t, other).Name != "Anna" {
		t.Errorf("%+v", whose(t, other))
	}
	// One without a name leaves the file its own.
	nameless := named(t, "", 0, 4)
	export, _ = bothExports(t, nameless)
	empty := inMemory(t, later)
	if err := empty.SetName("Ben"); err != nil {
		t.Fatal(err)
	}
	if takeIn(t, empty, "export", export); whose(t, empty) != (progress.Whose{ID: whose(t, nameless).ID, Name: "Ben"}) {
		t.Errorf("%+v", whose(t, empty))
	}
}

// Another's practice is refused where there is some already, unless it is to be the student's own; then it is from now on, until
// that is taken back.
func TestAnothersPracticeIsNotTakenInUnasked(t *testing.T) {
	ann, ben := named(t, "Ann", 0, 1), named(t, "Ben", 0, 2)
	before := contents(t, ann)
	asJSON, asCSV := bothExports(t, ben)
	for _, export := range []string{asJSON, asCSV} {
		_, err := ann.Import(strings.NewReader(export), unasked)
		another := (*exchange.AnothersError)(nil)
		if !errors.As(err, &another) || another.Whose != whose(t, ben) || another.Answers != 12 || err.Error() != "this is the practice of Ben and not yours, 12 answers that are new here; nothing was imported" {
			t.Errorf("%v", err)
		}
		if diff := cmp.Diff(before, contents(t, ann)); diff != "" {
			t.Error(diff)
		}
	}
	got, err := ann.Import(strings.NewReader(asCSV), anything)
	if err != nil || got.Goes || !cmp.Equal(got.Joined, []progress.Whose{whose(t, ben)}) || whose(t, ann).Name != "Ann" {
		t.Fatalf("%+v, %v", got, err)
	}
	practised(t, ben, 5, 1, 3, 5)
	more, _ := bothExports(t, ben)
	if got, err := ann.Import(strings.NewReader(more), unasked); err != nil || got.Added != 3 || len(got.Joined) > 0 {
		t.Errorf("%+v, %v", got, err)
	}
	takeBack(t, ann)
	takeBack(t, ann)
	if diff := cmp.Diff(before, contents(t, ann)); diff != "" {
		t.Error(diff)
	}
	if _, err := ann.Import(strings.NewReader(more), unasked); err == nil {
		t.Error("what was taken back is still the student's own")
	}
	// What is there already may come from anybody: it changes nothing.
	cher := inMemory(t, later)
	takeIn(t, cher, "export", asJSON)
	takeIn(t, cher, "export", exportOf(t, 5, 1, 9))
	if got, err := cher.Import(strings.NewReader(strings.ReplaceAll(asJSON, whose(t, ben).ID, "SOMEBODYELSE")), unasked); err != nil || got.Added != 0 || got.ID != "" {
		t.Errorf("%+v, %v", got, err)
	}
}

// Of a file that is put together from several, each has to be the student's own.
func TestAnExportOfSeveral(t *testing.T) {
	ann, ben := named(t, "Ann", 0, 1), named(t, "Ben", 0, 2)
	annJSON, _ := bothExports(t, ann)
	benJSON, _ := bothExports(t, ben)
	for _, f := range []*File{ann, inMemory(t, later)} {
		_, err := f.Import(strings.NewReader(annJSON+benJSON), unasked)
		if another := (*exchange.AnothersError)(nil); !errors.As(err, &another) || another.Whose.Name != "Ben" {
			t.Errorf("%v", err)
		}
	}
	f := inMemory(t, later)
	if got := takeIn(t, f, "both", annJSON+benJSON); !got.Goes || len(got.Joined) != 1 || got.Joined[0].Name != "Ben" || whose(t, f) != whose(t, ann) {
		t.Errorf("%+v", got)
	}
}

// ofEarlier returns an export as earlier versions wrote it, which did not say whose it is.
func ofEarlier(t *testing.T, export string) string {
	t.Helper()
	lines := strings.SplitAfter(export, "\n")
	for i, line := range lines {
		before, rest, there := strings.Cut(line, `,"file":"`)
		if _, after, _ := strings.Cut(rest, `"`); there {
			lines[i] = before + after
		}
	}
	return strings.Join(lines, "")
}

// A file from before there were ids has the id that follows from its first answer, and an export from then is known by it.
func TestFilesAndExportsWithoutAnID(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, later)
	practised(t, f, 0, 1, 6, 1)
	if _, err := f.db.Exec(backTo(3) + "; DELETE FROM settings; UPDATE answers SET seal = NULL"); err != nil {
		t.Fatal(err)
	}
	f.Close()
	toRead, err := OpenToRead(path, clockAt(later))
	if err != nil {
		t.Fatal(err)
	}
	id := whose(t, toRead).ID
	toRead.Close()
	f = openAt(t, path, later)
	if w := whose(t, f); len(w.ID) != 26 || w.ID != id {
		t.Errorf("%+v, and %s when it was read", w, id)
	}
	asJSON, _ := bothExports(t, f)
	earlier := ofEarlier(t, asJSON)
	if strings.Contains(earlier, id) {
		t.Fatal(earlier)
	}
	practised(t, f, 1, 1, 6, 2)
	if _, err := f.db.Exec("DELETE FROM answers WHERE n = 3; DELETE FROM memory; DELETE FROM weeks; DELETE FROM mistakes"); err != nil {
		t.Fatal(err)
	}
	if got, err := f.Import(strings.NewReader(earlier), unasked); err != nil || got.Added != 1 || got.Of[0].ID != id {
		t.Errorf("%+v, %v", got, err)
	}
	other := ofEarlier(t, exportOf(t, 3, 1, 9))
	if _, err := f.Import(strings.NewReader(other), unasked); err == nil || err.Error() != "this is the practice of another progress file than yours, 12 answers that are new here; nothing was imported" {
		t.Errorf("%v", err)
	}
}

// What a line says of whose it is has to be a short line.
func TestWhoseIsAShortLine(t *testing.T) {
	for _, c := range []struct{ fields, says string }{
		{`"file":"` + strings.Repeat("x", tables.LongestName+1) + `"`, "file is a line of 100 bytes at most"},
		{`"file":"a\u0007"`, "file is a line of 100 bytes at most"},
		{`"file":"x","whose":"` + strings.Repeat("x", tables.LongestName+1) + `"`, "whose is a line of 100 bytes at most"},
		{`"file":5`, "file is a text in double quotes"},
	} {
		for _, line := range []string{session(`"minutes":10,` + c.fields), strings.Replace(changed(nil).object, `"kind"`, c.fields+`,"kind"`, 1)} {
			if _, err := inMemory(t, later).Import(strings.NewReader(line), anything); err == nil || !strings.HasPrefix(err.Error(), "line 1: "+c.says) {
				t.Errorf("%s: %v, want %s", line, err, c.says)
			}
		}
	}
}

// A copy, a rescued file and one that went back to a copy are the same student's.
func TestCopiesAreTheSameStudents(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f := openAt(t, path, later)
	practised(t, f, 0, 1, 6, 1)
	if err := f.SetName("Ann"); err != nil {
		t.Fatal(err)
	}
	w := whose(t, f)
	copied, err := f.Backup()
	if err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Rescue(path, path+".new", clockAt(later)); err != nil {
		t.Fatal(err)
	}
	if _, err := Restore(path, "", clockAt(later)); err != nil {
		t.Fatal(err)
	}
	for _, at := range []string{copied, path + ".new", path} {
		if is := whose(t, openAt(t, at, later)); is != w {
			t.Errorf("%s: %+v, want %+v", at, is, w)
		}
	}
	// A file that was begun anew meanwhile does not change whose the copy is.
	begun := openAt(t, path+".begun", later)
	practised(t, begun, 9, 1, 2, 8)
	begun.Close()
	if _, err := Restore(path+".begun", copied, clockAt(later)); err != nil {
		t.Fatal(err)
	}
	if is := whose(t, openAt(t, path+".begun", later)); is != w {
		t.Errorf("%+v, want %+v", is, w)
	}
}
