package main

import (
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// earThenEye is a lesson that begins with two drills that need ears, in turn, and has something for the eye.
const earThenEye = `
[[step]]
id = "heard"
drill = "chord-ear"
asks = ["major", "minor"]

[[step]]
id = "apart"
drill = "interval-ear"
asks = ["P5", "P8"]

[[step]]
id = "seen"
drill = "shape-name"
asks = ["major", "minor"]
`

func earThenEyeLesson(t *testing.T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "lesson.toml")
	if err := os.WriteFile(path, []byte(earThenEye), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// Where the sound device goes in the middle of a question, that one is put aside unrecorded, one line says
// so, and practice goes on by eye.
func TestDeviceThatGoesInTheMiddle(t *testing.T) {
	t.Parallel()
	env, end := soundServer(t)
	file := filepath.Join(t.TempDir(), "p.db")
	cmd := exec.Command(binaryPath(t), "practice", "--at-once", "--lesson", earThenEyeLesson(t), "--progress", file, "--seed", "5")
	cmd.Env = env
	term := inTerminal(t, cmd)
	term.await("begin")
	awaitStream(t, env)
	term.press("\r")
	term.answer()
	term.shows("again") // the second question is for the ear as well
	term.press(" ")
	end()
	term.await("No sound (")
	term.becomes("a question for the eye, and why", func(text string) bool {
		return !strings.Contains(text, "again") && strings.Count(text, "No sound (") == 1
	})
	term.answer()
	term.answer()
	term.leaves(3)
	heardThenSeen(t, file)
}

// The same in lines of text.
func TestDeviceThatGoesInTheMiddleOfLines(t *testing.T) {
	t.Parallel()
	env, end := soundServer(t)
	file := filepath.Join(t.TempDir(), "p.db")
	s := startLines(t, env, "practice", "--plain", "--at-once", "--lesson", earThenEyeLesson(t), "--progress", file, "--seed", "5")
	s.out.await(t, `Question 1\.`, 1)
	awaitStream(t, env)
	s.give(t, 1)
	s.out.await(t, `Question 2\.`, 1)
	io.WriteString(s.in, "again\n")
	end()
	s.out.await(t, `No sound \(`, 1)
	s.out.await(t, `Question 2\.`, 2)
	for n := 2; n <= 3; n++ {
		io.WriteString(s.in, anyAnswer)
		s.out.await(t, "It needs practice", n)
		io.WriteString(s.in, "\n")
	}
	s.out.await(t, `Question 4\.`, 1)
	io.WriteString(s.in, "leave\n")
	if err := s.cmd.Wait(); err != nil {
		t.Error(err)
	}
	s.said(t, "No sound (", 1)
	printableOnly(t, s.out.String())
	heardThenSeen(t, file)
}

// A device that comes while nothing but the eye is asked is noticed between questions.
func TestDeviceThatComesLate(t *testing.T) {
	t.Parallel()
	env := soundless(t)
	file := filepath.Join(t.TempDir(), "p.db")
	s := startLines(t, env, "practice", "--plain", "--at-once", "--drill", "chord-ear", "--drill", "spell", "--progress", file, "--seed", "5")
	s.out.await(t, `No sound \(`, 1)
	s.out.await(t, `Question 1\.`, 1)
	serveSound(t, env)
	for n := 1; ; n++ {
		if n > 40 {
			t.Fatalf("nothing was asked by ear:\n%s", s.out.String())
		}
		io.WriteString(s.in, anyAnswer)
		s.out.await(t, "It needs practice", n)
		if all := answers(t, file); all[len(all)-1].drill == "chord-ear" {
			break
		}
		time.Sleep(time.Second)
		io.WriteString(s.in, "\n")
		s.out.await(t, fmt.Sprintf(`Question %d\.`, n+1), 1)
	}
	io.WriteString(s.in, "leave\n")
	if err := s.cmd.Wait(); err != nil {
		t.Error(err)
	}
	s.said(t, "No sound (", 1)
}

// heardThenSeen checks that a file has an answer by ear and then two by eye.
func heardThenSeen(t *testing.T, file string) {
	t.Helper()
	var got []string
	for _, a := range answers(t, file) {
		got = append(got, a.drill)
	}
	if want := "chord-ear shape-name shape-name"; strings.Join(got, " ") != want {
		t.Errorf("the file has %v, want %s", got, want)
	}
}
