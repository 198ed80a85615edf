package main

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
	"sparetone/progress/whole"
)

// holding makes a folder of files.
func holding(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// names lists what a folder holds.
func names(t *testing.T, dir string) string {
	t.Helper()
	files, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, f := range files {
		out = append(out, f.Name())
	}
	return strings.Join(out, " ")
}

func reads(t *testing.T, path, want string) {
	t.Helper()
	if is, err := os.ReadFile(path); err != nil || string(is) != want {
		t.Errorf("%s holds %q, %v, want %q", filepath.Base(path), is, err, want)
	}
}

// A folder that holds anything is not written to, and nothing in it changes.
func TestPaperLeavesAFolderThatHoldsSomething(t *testing.T) {
	for _, there := range []string{"questions.md", "answers.md", "001.wav", "letter", ".hidden", "questions.jsonl"} {
		dir := holding(t, map[string]string{there: "mine"})
		err := run("paper", "--drill", "chord-ear", "--count", "1", "--seed", "1", "--out", dir)
		if command.StatusOf(err) != command.WrongCall || !strings.Contains(err.Error(), "already; name another folder") || !strings.Contains(err.Error(), "--force") {
			t.Errorf("%s: %v", there, err)
		}
		reads(t, filepath.Join(dir, there), "mine")
		if got := names(t, dir); got != there {
			t.Errorf("now it holds %s", got)
		}
	}
	for _, dir := range []string{t.TempDir(), filepath.Join(t.TempDir(), "new", "folder") + "/"} {
		if err := run("paper", "--drill", "chord-ear", "--count", "1", "--seed", "1", "--out", dir); err != nil {
			t.Error(err)
		}
		if got := names(t, dir); got != "001.wav answers.md questions.jsonl questions.md" {
			t.Errorf("an empty folder then holds %s", got)
		}
		if got := names(t, filepath.Dir(filepath.Clean(dir))); strings.Contains(got, whole.Unfinished) {
			t.Errorf("beside it lies %s", got)
		}
	}
}

// With --force a smaller paper takes the place of a larger one whole, and of nothing else; links are replaced, not
// followed.
func TestPaperReplacesAPaper(t *testing.T) {
	dir := written(t, "chord-ear", 3, 1)
	letter := filepath.Join(t.TempDir(), "letter")
	for path, text := range map[string]string{letter: "mine", filepath.Join(dir, "notes.txt"): "mine", filepath.Join(dir, "0001.wav"): "mine", filepath.Join(dir, "777.wav"): "stale"} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range []string{"002.wav", answerKey} {
		if err := errors.Join(os.Remove(filepath.Join(dir, name)), os.Symlink(letter, filepath.Join(dir, name))); err != nil {
			t.Skip(err)
		}
	}
	if err := run("paper", "--drill", "chord-ear", "--count", "2", "--seed", "5", "--out", dir, "--force"); err != nil {
		t.Fatal(err)
	}
	if got := names(t, dir); got != "0001.wav 001.wav 002.wav answers.md notes.txt questions.jsonl questions.md" {
		t.Errorf("the folder holds %s", got)
	}
	for _, path := range []string{letter, filepath.Join(dir, "notes.txt"), filepath.Join(dir, "0001.wav")} {
		reads(t, path, "mine")
	}
	again := written(t, "chord-ear", 2, 5)
	for _, name := range strings.Fields(names(t, again)) {
		want, err := os.ReadFile(filepath.Join(again, name))
		if err != nil {
			t.Fatal(err)
		}
		reads(t, filepath.Join(dir, name), string(want))
	}
	if err := errors.Join(os.Remove(filepath.Join(dir, "002.wav")), os.Mkdir(filepath.Join(dir, "002.wav"), 0o700)); err != nil {
		t.Fatal(err)
	}
	if err := run("paper", "--drill", "chord-ear", "--count", "2", "--seed", "6", "--out", dir, "--force"); command.StatusOf(err) != command.Faulty || !strings.Contains(err.Error(), "this is not a file") {
		t.Errorf("over a folder: %v", err)
	}
	if rows := rowsOf(t, dir); len(rows) != 2 {
		t.Error("the paper that was there has changed")
	}
}

func TestPaperToALinkThatLeadsNowhere(t *testing.T) {
	link := filepath.Join(t.TempDir(), "link")
	if err := os.Symlink(link+"2", link); err != nil {
		t.Skip(err)
	}
	if err := run("paper", "--drill", "spell", "--count", "1", "--out", link, "--force"); command.StatusOf(err) != command.WrongCall || !strings.Contains(err.Error(), "leads nowhere") {
		t.Error(err)
	}
}

// play writes in the place of nothing unless it is forced to, and then not where a link leads.
func TestPlayLeavesAFileThatIsThere(t *testing.T) {
	dir := holding(t, map[string]string{"c.wav": "mine", "letter": "mine"})
	path, letter := filepath.Join(dir, "c.wav"), filepath.Join(dir, "letter")
	if err := run("play", "C", "--out", path); command.StatusOf(err) != command.WrongCall || err.Error() != "--out: "+path+" is there already: name another file, or replace it with --force" {
		t.Error(err)
	}
	reads(t, path, "mine")
	if err := errors.Join(os.Symlink(letter, path+".part"), os.Symlink(letter, filepath.Join(dir, "link.wav"))); err != nil {
		t.Skip(err)
	}
	for _, out := range []string{path, filepath.Join(dir, "link.wav")} {
		if err := run("play", "C", "--out", out, "--force"); err != nil {
			t.Error(err)
		}
		samplesOf(t, out)
	}
	reads(t, letter, "mine")
	if got := names(t, dir); got != "c.wav c.wav.part letter link.wav" {
		t.Errorf("the folder holds %s", got)
	}
	if err := run("play", "C", "--out", os.DevNull, "--force"); command.StatusOf(err) != command.Faulty || !strings.Contains(err.Error(), "this is not a file") {
		t.Errorf("%s: %v", os.DevNull, err)
	}
	if err := run("play", "C", "--out", dir, "--force"); command.StatusOf(err) != command.WrongCall || !strings.Contains(err.Error(), dir+" is a folder; name a file") {
		t.Errorf("%s: %v", dir, err)
	}
}

// What is played in turn has the silence between that sounds have in practice.
func TestPlayInTurn(t *testing.T) {
	length := func(inputs ...string) int {
		path := filepath.Join(t.TempDir(), "c.wav")
		if err := run(append([]string{"play", "--out", path}, inputs...)...); err != nil {
			t.Fatal(err)
		}
		return len(samplesOf(t, path))
	}
	if gap := length("C", "C") - 2*length("C"); gap != recordedRate*350/1000 {
		t.Errorf("the silence lasts %d samples, want 350 ms", gap)
	}
}

// A file is written of all that was asked for or not at all.
func TestPlayWritesNothingWhereAnInputIsWrong(t *testing.T) {
	path := filepath.Join(t.TempDir(), "c.wav")
	if err := run("play", "C", "Hm?", "G", "--out", path); command.StatusOf(err) != command.InputWrong {
		t.Error(err)
	}
	if _, err := os.Stat(path); err == nil {
		t.Error("there is a file all the same")
	}
}

// A disk that is full, played by a shell that lets no file grow, leaves nothing behind, and what was there as it was.
func TestFilesOnAFullDisk(t *testing.T) {
	if _, err := exec.LookPath("sh"); err != nil {
		t.Skip(err)
	}
	for _, c := range []struct{ args, left string }{
		{"play C --out DIR/c.wav", "old.wav"},
		{"play C --out DIR/old.wav --force", "old.wav"},
		{"paper --drill chord-ear --count 2 --out DIR/paper", "old.wav"},
		{"paper --drill chord-ear --count 2 --out DIR --force", "old.wav"},
	} {
		dir := holding(t, map[string]string{"old.wav": "old"})
		cmd := exec.Command("sh", append([]string{"-c", `ulimit -f 128 && exec "$0" "$@"`, binaryPath(t)}, strings.Fields(strings.ReplaceAll(c.args, "DIR", dir))...)...)
		var out strings.Builder
		cmd.Stderr = &out
		_ = cmd.Run() // that it ends with a status is looked at below
		if code := cmd.ProcessState.ExitCode(); code != int(command.Faulty) || strings.Count(out.String(), "\n") != 1 || !strings.Contains(out.String(), "too large") || strings.Contains(out.String(), whole.Unfinished) {
			t.Errorf("%s ended with %d and said %q", c.args, code, out.String())
		}
		reads(t, filepath.Join(dir, "old.wav"), "old")
		if got := names(t, dir); got != c.left {
			t.Errorf("%s left %s", c.args, got)
		}
	}
}
