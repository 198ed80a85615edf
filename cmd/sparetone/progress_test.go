package main

import (
	"errors"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/records"
	"sparetone/progress"
	"sparetone/progress/store"
)

// inOneDay waits where the day ends within a minute, so that what a test writes and what it is told later speak of one day.
func inOneDay() {
	for now := time.Now(); progress.DayOf(now) != progress.DayOf(now.Add(time.Minute)); now = time.Now() {
		time.Sleep(time.Second)
	}
}

// practisedFile returns a progress file in which dominant was taken for major eight times of nine, among five choices.
func practisedFile(t *testing.T) string {
	t.Helper()
	inOneDay()
	path := filepath.Join(t.TempDir(), "progress.db")
	f, err := store.Open(path, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	at := time.Now().Add(-time.Minute)
	if err := f.Begin(progress.Session{ID: "s", Began: at, Minutes: 10 * time.Minute}); err != nil {
		t.Fatal(err)
	}
	for i := range 12 {
		a := progress.Answer{Session: "s", Item: "chord-ear/major/ukulele", Drill: "chord-ear", At: at, Given: "major", Expected: "major", Result: progress.Right, Choices: 5, Took: 3 * time.Second}
		if i < 9 {
			a.Item = "chord-ear/dominant/ukulele"
		}
		if i < 8 {
			a.Result, a.TakenFor = progress.Wrong, "chord-ear/major/ukulele"
		}
		if err := f.Record(a); err != nil {
			t.Fatal(err)
		}
		at = at.Add(5 * time.Second)
	}
	return path
}

func TestProgressCommand(t *testing.T) {
	path := practisedFile(t)
	out, errs, ended := called(t, "", "progress", "--progress", path)
	for _, want := range []string{"1 session since ", "0 things need practice now, 1 weak.", "chord-ear              2", "4 of 12 (14 to 61 %)", "by tuning"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in %s", want, out)
		}
	}
	if ended != command.Done || errs != "" {
		t.Error(ended, errs)
	}
	for _, line := range strings.Split(out, "\n") {
		if len([]rune(line)) > 72 {
			t.Errorf("%d wide: %s", len([]rune(line)), line)
		}
	}
	out, _, _ = called(t, "", "progress", "--json", "--progress", path)
	var names []string
	for _, row := range objects[records.ProgressRow](t, withPart(t, out, false)) {
		names = append(names, row.Part+" "+row.Name)
	}
	if got, want := strings.Join(names, ", "), "all all, drill chord-ear, target chord-ear/dominant, target chord-ear/major, tuning ukulele"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// What was taken back is told, also where nothing else was practised, and is a row of its own for scripts; where nothing was there is none.
func TestProgressSaysWhatWasTakenBack(t *testing.T) {
	path := practisedFile(t)
	const said, row = "Taken back: 1 answer that was heard, 1 answer that had counted.\n", `{"part":"taken back","heard":1,"counted":1}`
	for _, back := range []bool{false, true} {
		out, _, _ := called(t, "", "progress", "--progress", path)
		rows, _, _ := called(t, "", "progress", "--json", "--progress", path)
		if strings.Contains(out, said) != back || strings.Contains(rows, row+"\n") != back || strings.Contains(rows, "taken back") != back {
			t.Errorf("taken back %v:\n%s\n%s", back, out, rows)
		}
		f, err := store.Open(path, time.Now)
		if err != nil {
			t.Fatal(err)
		}
		wrong := f.Record(progress.Answer{Session: "s", Item: "chord-ear/major/ukulele", Drill: "chord-ear", At: time.Now(), Result: progress.Wrong, Played: true})
		if err := errors.Join(wrong, f.TakeBack(), f.CountHeard("s"), f.Close()); err != nil {
			t.Fatal(err)
		}
	}
	empty := filepath.Join(t.TempDir(), "progress.db")
	f, err := store.Open(empty, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(f.CountHeard("s"), f.Close()); err != nil {
		t.Fatal(err)
	}
	if out, _, _ := called(t, "", "progress", "--progress", empty); out != "Taken back: 1 answer that was heard.\n" {
		t.Errorf("of what was only heard it says\n%s", out)
	}
}

// What was missed the last time is not known, however lately that was.
func TestKnownIsWhatWasRightTheLastTime(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	f, err := store.Open(path, time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	right, partly, wrong := progress.Right, progress.Partly, progress.Wrong
	for target, results := range map[string][]progress.Result{"major": {wrong, right}, "minor": {right, wrong}, "ninth": {right, partly}, "sixth": {wrong}} {
		for _, r := range results {
			if err := f.Record(progress.Answer{Item: "spell/" + target + "/ukulele", Drill: "spell", At: time.Now(), Result: r}); err != nil {
				t.Fatal(err)
			}
		}
	}
	out, _, _ := called(t, "", "progress", "--json", "--progress", path)
	for _, row := range objects[records.ProgressRow](t, withPart(t, out, false)) {
		known := row.Part != "target" || row.Name == "spell/major"
		if (row.Known > 0) != known || row.Known > 1 {
			t.Errorf("%s %s: %.2f of %d known", row.Part, row.Name, row.Known, row.Items)
		}
	}
}

func TestWeakCommand(t *testing.T) {
	path := practisedFile(t)
	out, _, ended := called(t, "", "progress", "weak", "--progress", path)
	want := "chord-ear, dominant (ukulele)\n  right 1 of 9 (2 to 43 %), as guessing would be\n  taken for major 8 times: 57 to 98 % of its answers\n"
	if out != want || ended != command.Done {
		t.Errorf("%q, want %q", out, want)
	}
	out, _, _ = called(t, "", "progress", "weak", "--json", "--progress", path)
	rows := objects[records.WeakRow](t, out)
	if len(rows) != 1 || rows[0].Target != "dominant" || len(rows[0].TakenFor) != 1 || rows[0].TakenFor[0].Times != 8 || math.Abs(rows[0].Guessing-0.2) > 1e-12 {
		t.Errorf("%+v", rows)
	}
}

func TestExportedAnswersCanBeImported(t *testing.T) {
	path := practisedFile(t)
	for _, flags := range [][]string{{}, {"--csv"}} {
		export := filepath.Join(t.TempDir(), "export")
		other := filepath.Join(t.TempDir(), "other.db")
		if _, errs, ended := called(t, "", append([]string{"progress", "export", export, "--progress", path}, flags...)...); ended != command.Done {
			t.Fatal(errs)
		}
		if _, errs, ended := called(t, "", "progress", "export", export, "--progress", path); ended != command.Faulty {
			t.Errorf("an export wrote over a file: %s", errs)
		}
		out, _, _ := called(t, "", "progress", "import", "--json", export, export, "--progress", other)
		rows := objects[records.ImportRow](t, out)
		if len(rows) != 2 || rows[0].Added != 12 || rows[1].Known != 12 {
			t.Errorf("%v: %+v", flags, rows)
		}
		if out, errs, ended := called(t, "", "progress", "check", "--progress", other); ended != command.Done || !strings.HasPrefix(out, "Sound: 12 answers of 2 items") {
			t.Error(out, errs)
		}
	}
	export := filepath.Join(t.TempDir(), "export")
	if _, errs, ended := called(t, "", "progress", "export", export, "--progress", path); ended != command.Done {
		t.Fatal(errs)
	}
	text, err := os.ReadFile(export)
	if err != nil {
		t.Fatal(err)
	}
	newer := strings.ReplaceAll(string(text), "chord-ear/major/", "chord-ear/majr/")
	said, _, _ := called(t, newer, "progress", "import", "-", "--progress", filepath.Join(t.TempDir(), "other.db"))
	if want := "12 answers added, 0 were there already.\nAmong these: 3 answers to what this version does not know, such as chord-ear/majr/ukulele; kept, but not asked.\n"; said != want {
		t.Errorf("%q, want %q", said, want)
	}
	out, _, ended := called(t, "{\"kind\":\"x\x1b[2J\"}\n", "progress", "import", "-", "--progress", path)
	if ended != command.InputWrong || strings.Contains(out, "\x1b") {
		t.Errorf("a hostile import ended %d with %q", ended, out)
	}
}

func TestBackupCommand(t *testing.T) {
	path := practisedFile(t)
	out, errs, ended := called(t, "", "progress", "backup", "--progress", path)
	if ended != command.Done {
		t.Fatal(errs)
	}
	if out, errs, ended := called(t, "", "progress", "check", "--progress", strings.TrimSpace(out)); ended != command.Done || !strings.HasPrefix(out, "Sound: 12 answers") {
		t.Error(out, errs)
	}
	if _, errs, ended := called(t, "", "progress", "backup", path, "--progress", path); ended != command.Faulty {
		t.Errorf("a backup wrote over the file itself: %s", errs)
	}
}

func TestProgressOfAFileThatIsNoneOfOurs(t *testing.T) {
	path := filepath.Join(t.TempDir(), "progress.db")
	if err := os.WriteFile(path, []byte("a letter to my teacher"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, line := range [][]string{{"progress"}, {"progress", "weak"}, {"progress", "check"}, {"progress", "export"}, {"progress", "backup"}} {
		if _, _, ended := called(t, "", append(line, "--progress", path)...); ended != command.Faulty {
			t.Errorf("%v ended %d", line, ended)
		}
	}
	if kept, _ := os.ReadFile(path); string(kept) != "a letter to my teacher" {
		t.Errorf("now it holds %q", kept)
	}
	if out, _, ended := called(t, "", "progress", "--progress", path+".none"); ended != command.Done || out != "Nothing has been practised yet.\n" {
		t.Error(out, ended)
	}
	if _, err := os.Stat(path + ".none"); err == nil {
		t.Error("looking made a file")
	}
}

// Whatever looks after the file answers a script as well.
func TestProgressKeptInJSON(t *testing.T) {
	path := practisedFile(t)
	out, _, ended := called(t, "", "progress", "check", "--json", "--progress", path)
	if rows := objects[records.CheckRow](t, out); ended != command.Done || len(rows) != 1 || rows[0] != (records.CheckRow{Answers: 12, Items: 2, Sessions: 1}) {
		t.Errorf("ended %d with %s", ended, out)
	}
	out, _, ended = called(t, "", "progress", "backup", "--json", "--progress", path)
	rows := objects[records.BackupRow](t, out)
	if ended != command.Done || len(rows) != 1 {
		t.Fatalf("ended %d with %s", ended, out)
	}
	plain, _, _ := called(t, "", "progress", "export", "--progress", path)
	if out, _, ended := called(t, "", "progress", "export", "--json", "--progress", rows[0].Path); ended != command.Done || out != plain || strings.Count(out, "\n") != 13 {
		t.Errorf("ended %d with %s, not %s", ended, out, plain)
	}
	if _, _, ended := called(t, "", "progress", "export", "--json", "--csv", "--progress", path); ended != command.WrongCall {
		t.Errorf("JSON and CSV at once ended %d", ended)
	}
}

// What is read from a damaged file is not passed off as sound.
func TestProgressOfADamagedFile(t *testing.T) {
	path := practisedFile(t)
	bytes, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	const page = 4096
	last := bytes[len(bytes)-page:] // its header comes first; how the damage is said depends on what reads that page
	for i := range 12 {
		last[i] ^= 0x5a
	}
	if err := os.WriteFile(path, bytes, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, line := range [][]string{{}, {"weak", "--json"}, {"check"}, {"export"}, {"backup"}} {
		out, err := exec.Command(binaryPath(t), append(append([]string{"progress"}, line...), "--progress", path)...).Output()
		ended := (*exec.ExitError)(nil)
		if !errors.As(err, &ended) || command.Status(ended.ExitCode()) != command.Faulty || len(out) > 0 {
			t.Fatalf("%v said %q and ended with %v", line, out, err)
		}
		said := string(ended.Stderr)
		if !strings.HasPrefix(said, "sparetone: progress file "+path+": the file is damaged") || !strings.Contains(said, "sparetone progress restore") || !strings.Contains(said, "sparetone progress rescue") || strings.Count(said, "\n") != 1 {
			t.Errorf("%v said %q", line, said)
		}
	}
}
