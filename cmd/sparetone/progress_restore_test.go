package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/cmd/sparetone/records"
	"sparetone/progress/store"
)

// damagedFile returns a progress file of eight answers in which the letters of one are turned, with a copy from before.
func damagedFile(t *testing.T) (path, copied string) {
	t.Helper()
	path = practisedFile(t)
	out, errs, ended := called(t, "", "progress", "backup", "--progress", path)
	if ended != command.Done {
		t.Fatal(errs)
	}
	bytes, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	at := strings.LastIndex(string(bytes), "majormajor") // given and expected
	if at < 0 {
		t.Fatal("no answer to harm")
	}
	bytes[at] = 'M'
	if err := os.WriteFile(path, bytes, 0o600); err != nil {
		t.Fatal(err)
	}
	return path, strings.TrimSpace(out)
}

func TestRescueCommand(t *testing.T) {
	path, _ := damagedFile(t)
	to := filepath.Join(t.TempDir(), "rescued.db")
	out, _, ended := called(t, "", "progress", "rescue", path, "--out", to)
	if want := "11 answers in 1 session saved in " + to + ".\n"; out != want || ended != command.Faulty {
		t.Errorf("ended %d with %q, want %q", ended, out, want)
	}
	if out, _, ended := called(t, "", "progress", "check", "--progress", to); ended != command.Done || !strings.HasPrefix(out, "Sound: 11 answers") {
		t.Errorf("ended %d with %q", ended, out)
	}
	out, _, ended = called(t, "", "progress", "rescue", "--json", "--out", to+".json", "--progress", path)
	if rows := objects[records.RescueRow](t, out); ended != command.Faulty || len(rows) != 1 || rows[0] != (records.RescueRow{Path: to + ".json", Answers: 11, Sessions: 1, Songs: 0, Lost: 1, AtLeast: false}) {
		t.Errorf("ended %d with %q", ended, out)
	}
	if _, _, ended := called(t, "", "progress", "rescue", path); ended != command.WrongCall {
		t.Errorf("without --out it ended %d", ended)
	}
	if _, _, ended := called(t, "", "progress", "rescue", practisedFile(t), "--out", to+".whole"); ended != command.Done {
		t.Errorf("of a sound file it ended %d", ended)
	}
}

func TestRestoreCommand(t *testing.T) {
	path, copied := damagedFile(t)
	for _, line := range [][]string{{}, {"weak"}, {"check"}, {"export"}, {"export", filepath.Join(t.TempDir(), "export")}} {
		if out, _, ended := called(t, "", append(append([]string{"progress"}, line...), "--progress", path)...); ended != command.Faulty || out != "" {
			t.Errorf("before, progress %v ended %d with %q", line, ended, out)
		}
	}
	out, _, ended := called(t, "", "progress", "restore", "--list", "--progress", path)
	if !strings.HasPrefix(out, copied+"\n") || strings.Count(out, "\n") != 2 || ended != command.Done { // and the day's own

		t.Errorf("ended %d with the list %q, want %q", ended, out, copied)
	}
	out, _, ended = called(t, "", "progress", "restore", "--progress", path)
	lines := strings.Split(out, "\n")
	if ended != command.Done || len(lines) != 3 || lines[0] != "Back to "+copied+": 12 answers, of which 0 are newer." || !strings.HasPrefix(lines[1], "What was there lies in ") {
		t.Fatalf("ended %d with %q", ended, out)
	}
	aside := strings.TrimSuffix(strings.TrimPrefix(lines[1], "What was there lies in "), ".")
	if _, err := os.Stat(aside); err != nil {
		t.Error(err)
	}
	if out, _, ended := called(t, "", "progress", "check", "--progress", path); ended != command.Done || !strings.HasPrefix(out, "Sound: 12 answers") {
		t.Errorf("ended %d with %q", ended, out)
	}
	out, _, ended = called(t, "", "progress", "restore", "--json", filepath.Base(copied), "--progress", path)
	if rows := objects[records.RestoreRow](t, out); ended != command.Done || len(rows) != 1 || rows[0].Answers != 12 || rows[0].Lost != 0 || rows[0].Copy != copied {
		t.Errorf("ended %d with %q", ended, out)
	}
	if _, _, ended := called(t, "", "progress", "restore", "--progress", practisedFile(t)); ended != command.Faulty {
		t.Errorf("without a copy it ended %d", ended)
	}
}

// Practice that finds its file damaged says so first, goes on in memory, and ends with the status of a file that
// failed unless it was saved elsewhere.
func TestPracticeWithADamagedFile(t *testing.T) {
	path, _ := damagedFile(t)
	s := startPlain(t, "--progress", path, "--drill", "shape-name")
	s.out.await(t, "Not kept: progress file "+path+": the file is damaged: ", 1)
	s.give(t, 1)
	s.out.await(t, `Question 2`, 1)
	s.in.Write([]byte("leave\n"))
	s.out.await(t, "leave once more", 1)
	s.in.Write([]byte("leave\n"))
	s.cmd.Wait()
	if code := s.cmd.ProcessState.ExitCode(); code != int(command.Faulty) {
		t.Errorf("exit status %d, want %d", code, command.Faulty)
	}
	if f, err := store.Open(path, time.Now); err == nil {
		f.Close()
		t.Error("it is no longer damaged")
	}
}
