package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// unusable is the path of a progress file that cannot be: a letter lies where its folder should.
func unusable(t *testing.T) string {
	t.Helper()
	letter := filepath.Join(t.TempDir(), "letter")
	if err := os.WriteFile(letter, []byte("dear teacher"), 0o600); err != nil {
		t.Fatal(err)
	}
	return filepath.Join(letter, "progress.db")
}

// give answers the next question, the nth, whatever it asks, and goes on.
func (s *plainSession) give(t *testing.T, n int) {
	t.Helper()
	s.out.await(t, `Question \d`, n)
	io.WriteString(s.in, anyAnswer)
	s.out.await(t, "It needs practice", n)
	io.WriteString(s.in, "\n")
}

// said checks that a sentence was said so many times.
func (s *plainSession) said(t *testing.T, sentence string, times int) {
	t.Helper()
	if n := strings.Count(s.out.String(), sentence); n != times {
		t.Errorf("%q was said %d times, not %d:\n%s", sentence, n, times, s.out.String())
	}
}

// Where the progress file cannot be used, practice in plain lines can be saved elsewhere, and goes on there.
func TestPlainPracticeInMemoryIsSavedElsewhere(t *testing.T) {
	binaryPath(t) // is built with the caches of the home folder there is
	t.Setenv("HOME", t.TempDir())
	s := startPlain(t, "--progress", unusable(t), "--drill", "shape-name")
	s.out.await(t, "Not kept: ", 1)
	s.give(t, 1)
	s.give(t, 2)
	s.out.await(t, `Question 3`, 1)
	io.WriteString(s.in, "stop\n")
	s.out.await(t, "2 answers are not kept in any file: practice is in memory only", 1)
	elsewhere := filepath.Join(t.TempDir(), "my folder", "progress.db")
	io.WriteString(s.in, "save "+unusable(t)+"\n")
	s.out.await(t, "Not saved: ", 1)
	io.WriteString(s.in, "save "+elsewhere+"\nsave\n")
	s.out.await(t, "All is kept already", 1)
	s.said(t, "Saved in "+elsewhere, 1)
	io.WriteString(s.in, "\n\n") // back to today's practice, and on
	s.give(t, 3)
	s.out.await(t, `Question 2`, 2)
	io.WriteString(s.in, "leave\n")
	if err := s.cmd.Wait(); err != nil {
		t.Error(err)
	}
	if got := answers(t, elsewhere); len(got) != 3 {
		t.Errorf("the file has %d answers, 3 were given", len(got))
	}
}

// The same on the full screen, into the file that is proposed.
func TestPracticeInMemoryIsSavedElsewhere(t *testing.T) {
	home := t.TempDir()
	cmd := exec.Command(binaryPath(t), "practice", "--silent", "--at-once", "--drill", "shape-name", "--progress", unusable(t))
	cmd.Env = append(os.Environ(), "HOME="+home)
	term := inTerminal(t, cmd)
	term.await("Not kept: ")
	term.press("\r")
	for range 2 {
		term.answer()
	}
	term.press("q")
	term.shows("2 answers are not kept in any file")
	term.press("s")
	term.await("Where is practice to be saved?")
	term.press("\r")
	term.await("Saved in")
	term.press("\r")
	term.becomes("today's page without a word of what is not kept", func(text string) bool {
		return strings.Contains(text, "begin") && !strings.Contains(text, "Not kept")
	})
	term.press("\r")
	term.answer()
	term.press("\x03")
	if code := term.ended(); code != 0 {
		t.Errorf("exit status %d", code)
	}
	saved, err := filepath.Glob(filepath.Join(home, "sparetone-*.db"))
	if err != nil || len(saved) != 1 {
		t.Fatal(saved, err)
	}
	if got := answers(t, saved[0]); len(got) != 3 {
		t.Errorf("the file has %d answers, 3 were given", len(got))
	}
}

// A progress file that goes away or is replaced in the middle is noticed at the next answer, in one line,
// and nothing is lost.
func TestFileThatGoesAway(t *testing.T) {
	rubbish := bytes.Repeat([]byte("rubbish "), 1000)
	for what, c := range map[string]struct {
		harm func(file string) error
		says string
		left int // answers in the file in the end; -1 if it has to be saved elsewhere
	}{
		"deleted with its logs": {func(file string) error {
			for _, log := range []string{"-wal", "-shm"} {
				os.Remove(file + log)
			}
			return os.Remove(file)
		}, "was taken away; it was written anew", 4},
		"deleted":      {os.Remove, "was taken away; it was written anew", 4},
		"folder taken": {func(file string) error { return os.RemoveAll(filepath.Dir(file)) }, "was taken away; it was written anew", 4},
		"folder made a file": {func(file string) error {
			folder := filepath.Dir(file)
			if err := os.RemoveAll(folder); err != nil {
				return err
			}
			return os.WriteFile(folder, nil, 0o600)
		}, "he progress file was replaced", -1},
		"an empty file put there": {func(file string) error { return swapped(file, nil) }, "nother progress file was put in the place", 4},
		"rubbish put there":       {func(file string) error { return swapped(file, rubbish) }, "he progress file was replaced", -1},
	} {
		t.Run(what, func(t *testing.T) {
			t.Parallel()
			file := filepath.Join(t.TempDir(), "folder", "progress.db")
			s := startPlain(t, "--progress", file, "--drill", "shape-name")
			s.give(t, 1)
			s.out.await(t, `Question 2`, 1)
			if err := c.harm(file); err != nil {
				t.Fatal(err)
			}
			for n := 2; n <= 4; n++ {
				s.give(t, n)
			}
			s.out.await(t, `Question 5`, 1)
			s.said(t, c.says, 1)
			if c.left >= 0 {
				s.cmd.Process.Kill() // nothing is left for the end
				s.cmd.Wait()
			} else {
				io.WriteString(s.in, "stop\n")
				s.out.await(t, "4 answers are not kept in any file", 1)
				file = filepath.Join(t.TempDir(), "elsewhere.db")
				io.WriteString(s.in, "save "+file+"\nleave\n")
				if err := s.cmd.Wait(); err != nil {
					t.Errorf("%v\n%s", err, s.out.String())
				}
			}
			if got := answers(t, file); len(got) != 4 {
				t.Errorf("the file has %d answers, 4 were given", len(got))
			}
			check := exec.Command(binaryPath(t), "progress", "check", "--progress", file)
			if out, err := check.CombinedOutput(); err != nil {
				t.Errorf("%v: %s", err, out)
			}
		})
	}
}

// swapped puts another file in the place of one.
func swapped(file string, bytes []byte) error {
	if err := os.WriteFile(file+".new", bytes, 0o600); err != nil {
		return err
	}
	return os.Rename(file+".new", file)
}

// Whoever leaves without saving what is kept nowhere is told what it was, also by the exit status.
func TestLeavingWithoutSaving(t *testing.T) {
	file := filepath.Join(t.TempDir(), "progress.db")
	s := startPlain(t, "--progress", file, "--drill", "shape-name")
	s.give(t, 1)
	s.out.await(t, `Question 2`, 1)
	if err := swapped(file, []byte("dear teacher")); err != nil {
		t.Fatal(err)
	}
	s.give(t, 2)
	s.out.await(t, `Question 3`, 1)
	io.WriteString(s.in, "leave\n")
	s.out.await(t, "leave once more", 1)
	io.WriteString(s.in, "leave\n")
	s.cmd.Wait()
	if code := s.cmd.ProcessState.ExitCode(); code != 3 {
		t.Errorf("exit status %d, want 3", code)
	}
	s.said(t, "2 answers are not kept in any file: the progress file was replaced: this is not a progress file", 2)
	if is, err := os.ReadFile(file); err != nil || string(is) != "dear teacher" {
		t.Errorf("the letter has changed: %q, %v", is, err)
	}
}

// Nor is it otherwise where practice could be kept in memory only from the start: that was said, and is said again.
func TestLeavingWhatWasInMemoryOnly(t *testing.T) {
	for given, code := range map[int]int{0: 0, 1: 3} {
		s := startPlain(t, "--progress", unusable(t), "--drill", "shape-name")
		s.out.await(t, `Question 1`, 1)
		if given > 0 {
			s.give(t, 1)
			s.out.await(t, `Question 2`, 1)
		}
		io.WriteString(s.in, "leave\n\nleave\n")
		s.cmd.Wait()
		if got := s.cmd.ProcessState.ExitCode(); got != code {
			t.Errorf("exit status %d after %d answers, want %d", got, given, code)
		}
		s.said(t, "1 answer is not kept in any file: practice is in memory only", 2*given)
	}
}
