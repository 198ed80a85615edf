package class_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"sparetone/drills/class"
)

// answered is an export of answers at so many seconds past noon, the ids of which are these.
func answered(student string, seconds ...int) *fstest.MapFile {
	var b strings.Builder
	for _, s := range seconds {
		fmt.Fprintf(&b, `{"kind":"answer","id":"%032x","session":"1","item":"chord-ear/major/ukulele","drill":"chord-ear","seed":"1","at":"2026-03-10T12:00:%02d.000Z","day":"2026-03-10","question":"Which?","given":"major","expected":"major","taken_for":"","result":"right","took_ms":1000,"replays":0,"hints":0,"voice":"nylon","choices":2,"rung":1,"file":"%s","whose":"%s","doubted":false}`+"\n", s, s, student, student)
	}
	return &fstest.MapFile{Data: []byte(b.String())}
}

// Files of one student count once, each answer once and in the order of time, whichever file comes first.
func TestFilesOfOneStudentCountOnce(t *testing.T) {
	r, err := class.Read(t.Context(), fstest.MapFS{"a.jsonl": answered("ANN", 30, 40), "b.jsonl": answered("ANN", 10, 20, 30)}, today)
	if err != nil || len(r.Students) != 1 || len(r.Problems) > 0 {
		t.Fatal(r, err)
	}
	// A second for the first answer, and ten between each two of four.
	if s := r.Students[0]; s.Answers != 4 || s.Days != 1 || fmt.Sprintf("%.3f", s.Minutes) != fmt.Sprintf("%.3f", 31.0/60) || len(s.Files) != 2 {
		t.Errorf("%d answers on %d days, %.3f minutes, of %q", s.Answers, s.Days, s.Minutes, s.Files)
	}
}

// What does not count is told in the order of the files' names.
func TestProblemsAreInOrder(t *testing.T) {
	bad := &fstest.MapFile{Data: []byte("no export\n")}
	r, err := class.Read(t.Context(), fstest.MapFS{"c.txt": bad, "a.txt": bad, "d/x": bad, "b.jsonl": answered("ANN", 1), "e.jsonl": answered("BOB", 1)}, class.Options{Today: today.Today, Roster: []string{"Bob"}})
	if err != nil {
		t.Fatal(err)
	}
	var files []string
	for _, p := range r.Problems {
		files = append(files, p.File)
	}
	if got := strings.Join(files, " "); got != "a.txt b.jsonl c.txt d" {
		t.Errorf("%s: %+v", got, r.Problems)
	}
}

// A fault in a roster is told with its line, lines that are passed over counted too.
func TestFaultsOfARoster(t *testing.T) {
	for text, want := range map[string]string{
		"Ann\n\n# the others\nBob\n ann ":  "line 5: ann is there twice; call them apart, as their files do",
		"Ann\n" + strings.Repeat("x", 101): "line 2: a name of more than 100 characters; a roster has a name a line",
		"# nobody\n":                       "there is no name in it; a roster has a name a line",
	} {
		if names, err := class.ReadRoster(strings.NewReader(text)); err == nil || err.Error() != want {
			t.Errorf("%q: %q, %v, want %s", text, names, err, want)
		}
	}
	if names, err := class.ReadRoster(strings.NewReader("\ufeffAnn\nBob")); err != nil || strings.Join(names, ",") != "Ann,Bob" {
		t.Error(names, err)
	}
}

// The tables hold a row for each answer, student and thing, and end with the error of the reading, if there is one.
func TestTablesOfAFolder(t *testing.T) {
	folder := fstest.MapFS{"a.jsonl": answered("ANN", 30, 40), "b.jsonl": answered("BOB", 10)}
	dir := t.TempDir()
	r, err := class.WriteTables(dir, today, func(o class.Options) (*class.Report, error) { return class.Read(t.Context(), folder, o) })
	if err != nil || len(r.Students) != 2 {
		t.Fatal(r, err)
	}
	for name, rows := range map[string]int{"answers": 3, "students": 2, "items": 1, "sessions": 2, "class": 1} {
		text, err := os.ReadFile(filepath.Join(dir, name+".csv"))
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Count(string(text), "\n") - 1; got != rows {
			t.Errorf("%s has %d rows, want %d:\n%s", name, got, rows, text)
		}
	}
	unread := errors.New("unread")
	if _, err := class.WriteTables(t.TempDir(), today, func(class.Options) (*class.Report, error) { return nil, unread }); !errors.Is(err, unread) {
		t.Error(err)
	}
}
