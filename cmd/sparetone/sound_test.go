package main

import (
	"encoding/binary"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"
)

// otherServer listens where a sound server would, in a folder's pulse/native, greets whoever comes and hangs up after a
// while. It counts who came.
func otherServer(t *testing.T, folder string, greeting []byte) (came *atomic.Int32) {
	t.Helper()
	if err := os.MkdirAll(filepath.Join(folder, "pulse"), 0o700); err != nil {
		t.Fatal(err)
	}
	l, err := net.Listen("unix", filepath.Join(folder, "pulse", "native"))
	if err != nil {
		t.Skipf("no socket can be made here: %v", err)
	}
	t.Cleanup(func() { l.Close() })
	came = &atomic.Int32{}
	go func() {
		for {
			c, err := l.Accept()
			if err != nil {
				return
			}
			came.Add(1)
			c.Write(greeting)
			time.AfterFunc(500*time.Millisecond, func() { c.Close() })
		}
	}()
	return came
}

// without is the test's environment without variables that say where sound is, and with others.
func without(others ...string) []string {
	env := slices.DeleteFunc(os.Environ(), func(v string) bool {
		name, _, _ := strings.Cut(v, "=")
		return name == "XDG_RUNTIME_DIR" || name == "PULSE_SERVER"
	})
	return append(env, others...)
}

// ran runs the program in a folder and returns what it wrote.
func ran(t *testing.T, folder string, env []string, typed string, args ...string) (out, errs string) {
	t.Helper()
	cmd := exec.Command(binaryPath(t), args...)
	var o, e strings.Builder
	cmd.Dir, cmd.Env, cmd.Stdin, cmd.Stdout, cmd.Stderr = folder, env, strings.NewReader(typed), &o, &e
	if err := cmd.Run(); err != nil && cmd.ProcessState == nil {
		t.Fatal(err)
	}
	return o.String(), e.String()
}

// Where no folder for sockets is named, none is looked for in the current one.
func TestNoSocketInTheCurrentFolder(t *testing.T) {
	t.Parallel()
	folder := shortFolder(t)
	came := otherServer(t, folder, nil)
	_, errs := ran(t, folder, without("HOME="+folder), "", "play", "0003")
	if came.Load() != 0 || !strings.Contains(errs, "no sound:") {
		t.Errorf("%d connections in the current folder; said %q", came.Load(), errs)
	}
	// The same server is found where it is named, or this test shows nothing.
	ran(t, folder, without("HOME="+folder, "XDG_RUNTIME_DIR="+folder), "", "play", "0003")
	if came.Load() == 0 {
		t.Error("the server is not found where it is named")
	}
}

// With --silent no device is opened, and no server asked.
func TestSilentOpensNothing(t *testing.T) {
	t.Parallel()
	folder := shortFolder(t)
	came := otherServer(t, folder, nil)
	env := without("HOME="+folder, "XDG_RUNTIME_DIR="+folder)
	out, errs := ran(t, folder, env, "1\nleave\n", "practice", "--plain", "--silent", "--at-once", "--drill", "spell", "--progress", filepath.Join(folder, "p.db"))
	if came.Load() != 0 || errs != "" || !strings.Contains(out, "Question 1.") {
		t.Errorf("%d connections; wrote %q and %q", came.Load(), out, errs)
	}
}

// What a sound library has to say reaches neither standard output nor standard error: not what a server sends that it
// does not understand, and not what libasound complains of, however soon the program ends.
func TestLibrariesAreNotHeardOf(t *testing.T) {
	t.Parallel()
	folder := shortFolder(t)
	var odd []byte // a packet of PulseAudio's native protocol: length, channel, offset, flags; command 999, tag 0
	for _, word := range []uint32{10, 0xFFFFFFFF, 0, 0, 0} {
		odd = binary.BigEndian.AppendUint32(odd, word)
	}
	odd = append(odd, 'L', 0, 0, 3, 0xE7, 'L', 0, 0, 0, 0)
	came := otherServer(t, folder, odd)
	out, errs := ran(t, folder, without("HOME="+folder, "XDG_RUNTIME_DIR="+folder), "", "play", "0003")
	if came.Load() == 0 || out != "C: 0003\n" || strings.Count(errs, "\n") != 1 {
		t.Errorf("%d connections; wrote %q and %q", came.Load(), out, errs)
	}
	for n := range 5 {
		env := without("HOME="+folder, "PULSE_SERVER=unix:/nonexistent", "ALSA_CONFIG_PATH=/dev/null")
		_, errs := ran(t, folder, env, strings.Repeat("leave\n", n%2), "practice", "--plain", "--at-once", "--drill", "chord-ear", "--progress", filepath.Join(folder, "q.db"))
		if errs != "" {
			t.Errorf("run %d wrote %q to standard error", n, errs)
		}
	}
	_, errs = ran(t, folder, without("HOME="+folder, "PULSE_SERVER={", "ALSA_CONFIG_PATH=/dev/null"), "", "play", "0003")
	if strings.Count(errs, "\n") != 1 || !strings.Contains(errs, "no sound:") {
		t.Errorf("of a server's name that cannot be read is said %q", errs)
	}
}

// shortFolder is a folder whose sockets have names that are short enough.
func shortFolder(t *testing.T) string {
	t.Helper()
	folder, err := os.MkdirTemp("", "s")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(folder) })
	return folder
}

// Where only what needs ears was chosen, a sound server that goes does not end practice in lines: it waits, says so, and
// goes on when there is one again.
func TestLinesWaitForTheDevice(t *testing.T) {
	t.Parallel()
	env, end := soundServer(t)
	file := filepath.Join(t.TempDir(), "p.db")
	s := startLines(t, env, "practice", "--plain", "--at-once", "--drill", "chord-ear", "--progress", file, "--seed", "5")
	s.out.await(t, `Question 1\.`, 1)
	awaitStream(t, env)
	s.give(t, 1)
	s.out.await(t, `Question 2\.`, 1)
	end()
	s.out.await(t, `No sound \(`, 1)
	s.out.await(t, "Waiting for sound", 1)
	serveSound(t, env)
	s.out.await(t, "There is sound", 1)
	s.out.await(t, `Question 2\.`, 2)
	io.WriteString(s.in, anyAnswer)
	s.out.await(t, "It needs practice", 2)
	io.WriteString(s.in, "\nleave\n")
	if err := s.cmd.Wait(); err != nil {
		t.Error(err)
	}
	if all := answers(t, file); len(all) != 2 {
		t.Errorf("the file has %v", all)
	}
}
