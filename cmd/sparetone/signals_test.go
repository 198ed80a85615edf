//go:build unix

package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"sparetone/cmd/sparetone/command"
	"sparetone/progress/whole"
)

// waiting is a command that waits for a stream that does not come or does not go.
type waiting struct {
	args  []string
	typed string // what comes on standard input before it waits
	full  bool   // nobody reads what it writes
}

// Every command ends within a second of a signal, though a pipe that it reads or writes waits for ever, and leaves
// nothing unfinished behind.
func TestSignalsEndWhatWaits(t *testing.T) {
	blank := strings.Repeat("\n", 1<<18) // more than a pipe holds: when it is written, it is being read
	for name, w := range map[string]waiting{
		"chords from a pipe":          {args: []string{"chord", "-"}, typed: blank},
		"a WAV from a pipe":           {args: []string{"play", "-", "--out", "DIR/x.wav"}, typed: "C\n" + blank},
		"an import from a pipe":       {args: []string{"progress", "import", "-"}, typed: blank},
		"an import that nobody sends": {args: []string{"progress", "import", "DIR/fifo"}},
		"a lesson that nobody sends":  {args: []string{"practice", "--plain", "--lesson", "DIR/fifo"}},
		"a paper that nobody sends":   {args: []string{"paper", "--lesson", "DIR/fifo", "--out", "DIR/paper"}},
		"chords to a full pipe":       {args: []string{"chord", "-", "--json"}, typed: strings.Repeat("C\n", 5000), full: true},
		"lines to a full pipe":        {args: []string{"practice", "--plain", "--silent", "--at-once", "--drill", "shape-name"}, typed: strings.Repeat("help\n", 2000), full: true},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, s := range []syscall.Signal{syscall.SIGTERM, syscall.SIGHUP, syscall.SIGINT} {
				w.endedBy(t, s)
			}
		})
	}
}

// endedBy starts the command, sends it a signal when it waits, and checks how it ends.
func (w waiting) endedBy(t *testing.T, s syscall.Signal) {
	t.Helper()
	// A signal that comes before the program waits for one, or for the pipe, ends it as well, and shows nothing. What takes
	// too long on a busy machine is tried again: a program that takes too long by itself does so each time.
	var late []time.Duration
	for _, beforehand := range []time.Duration{300 * time.Millisecond, 2 * time.Second, 10 * time.Second} {
		dir := t.TempDir()
		if err := syscall.Mkfifo(filepath.Join(dir, "fifo"), 0o600); err != nil {
			t.Fatal(err)
		}
		args := strings.Split(strings.ReplaceAll(strings.Join(w.args, "\x00"), "DIR", dir), "\x00")
		cmd := exec.Command(binaryPath(t), append(args, "--progress", filepath.Join(dir, "p.db"))...)
		in, err := cmd.StdinPipe()
		if err != nil {
			t.Fatal(err)
		}
		var errs bytes.Buffer
		cmd.Stderr = &errs
		if w.full {
			read, write, err := os.Pipe()
			if err != nil {
				t.Fatal(err)
			}
			defer read.Close()
			defer write.Close()
			cmd.Stdout = write
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		typed := make(chan bool)
		go func() {
			io.WriteString(in, w.typed)
			close(typed)
		}()
		if !w.full {
			<-typed
		}
		time.Sleep(beforehand)
		sent := time.Now()
		cmd.Process.Signal(s)
		stuck := time.AfterFunc(20*time.Second, func() { cmd.Process.Kill() })
		cmd.Wait()
		took := time.Since(sent)
		stuck.Stop()
		in.Close()
		code := cmd.ProcessState.ExitCode()
		tooEarly := cmd.ProcessState.Sys().(syscall.WaitStatus).Signal() == s
		if tooEarly || code == 0 && w.full {
			continue
		}
		if code != 128+int(s) || errs.Len() > 0 {
			t.Errorf("after %v it ended with %d and said %q", s, code, errs.String())
		}
		if left, _ := filepath.Glob(filepath.Join(dir, whole.Unfinished+"*")); left != nil {
			t.Errorf("%v left %v", s, left)
		}
		for _, name := range []string{"x.wav", "paper"} {
			if _, err := os.Stat(filepath.Join(dir, name)); err == nil {
				t.Errorf("%v: there is a %s all the same", s, name)
			}
		}
		if took <= time.Second || t.Failed() {
			return
		}
		late = append(late, took)
	}
	t.Errorf("%v: of three tries %d came too early, and it took %v to end in the others", s, 3-len(late), late)
}

// An import that a signal ends in the middle has taken in nothing, and the next one all.
func TestSignalInTheMiddleOfAnImport(t *testing.T) {
	export, _, ended := called(t, "", "progress", "export", "--progress", practisedFile(t))
	if ended != command.Done {
		t.Fatal("no export")
	}
	file := filepath.Join(t.TempDir(), "p.db")
	cmd := exec.Command(binaryPath(t), "progress", "import", "-", "--progress", file)
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	io.WriteString(in, export+strings.Repeat("\n", 1<<18))
	cmd.Process.Signal(syscall.SIGTERM)
	cmd.Wait()
	if code := cmd.ProcessState.ExitCode(); code != 128+int(syscall.SIGTERM) {
		t.Errorf("it ended with %d", code)
	}
	if got := answers(t, file); len(got) != 0 {
		t.Errorf("%d answers of an import that was not finished", len(got))
	}
	if out, errs, ended := called(t, export, "progress", "import", "-", "--progress", file); ended != command.Done || !strings.HasSuffix(out, "added, 0 were there already.\n") {
		t.Errorf("ended %d with %q, %q", ended, out, errs)
	}
}

// What cannot be written out is a fault, whatever the command says.
func TestFullOutput(t *testing.T) {
	full, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
	if err != nil {
		t.Skip(err)
	}
	defer full.Close()
	for _, args := range []string{
		"--help", "help", "chord --help", "--version", "man", "completion bash", "completion zsh", "completion fish", "completion powershell",
		"chord C", "chord C --json", "tunings", "drills", "progress", "practice --plain --silent --drill shape-name",
	} {
		cmd := exec.Command(binaryPath(t), append(strings.Fields(args), "--progress", filepath.Join(t.TempDir(), "p.db"))...)
		var errs bytes.Buffer
		cmd.Stdout, cmd.Stderr = full, &errs
		cmd.Run()
		if code := cmd.ProcessState.ExitCode(); code != int(command.Faulty) || !strings.Contains(errs.String(), "no space left on device") || strings.Count(errs.String(), "sparetone: ") != 1 {
			t.Errorf("%s ended with %d and said %q", args, code, errs.String())
		}
	}
}

// A reader that goes away ends practice like a full disk, and nothing is recorded that nobody saw.
func TestLinesThatNobodyReads(t *testing.T) {
	file := filepath.Join(t.TempDir(), "p.db")
	cmd := exec.Command(binaryPath(t), "practice", "--plain", "--silent", "--at-once", "--drill", "shape-name", "--progress", file)
	read, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	read.Close()
	var errs bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(strings.Repeat("1\n\n", 20)), write, &errs
	cmd.Run()
	write.Close()
	if code := cmd.ProcessState.ExitCode(); code != int(command.Faulty) || !strings.Contains(errs.String(), "broken pipe") {
		t.Errorf("it ended with %d and said %q", code, errs.String())
	}
	if got := answers(t, file); len(got) != 0 {
		t.Errorf("%d answers to questions that nobody saw", len(got))
	}
}

// A terminal that does not say what it can, or is called dumb, is practised on in lines.
func TestDumbTerminal(t *testing.T) {
	for _, kind := range []string{"TERM=dumb", "TERM="} {
		cmd := exec.Command(binaryPath(t), "practice", "--silent", "--at-once", "--drill", "shape-name", "--progress", filepath.Join(t.TempDir(), "p.db"))
		term := inTerminal(t, cmd, kind)
		term.await("Question 1.")
		term.press("leave\r")
		if code := term.ended(); code != 0 {
			t.Errorf("%s: it ended with %d", kind, code)
		}
		term.mu.Lock()
		if seen := term.seen.String(); strings.Contains(seen, "\x1b") {
			t.Errorf("%s: %q", kind, seen)
		}
		term.mu.Unlock()
	}
}
