package main

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/creack/pty"
)

// firstFrame starts a program in a pseudo-terminal and returns how long it took to write a word.
func firstFrame(b *testing.B, word string, env []string, path string, args ...string) time.Duration {
	cmd := exec.Command(path, args...)
	cmd.Env = append(env, "TERM=xterm-256color")
	start := time.Now()
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		b.Fatal(err)
	}
	defer func() { cmd.Process.Kill(); cmd.Wait(); tty.Close() }()
	var seen []byte
	buf := make([]byte, 1<<14)
	for !bytes.Contains(seen, []byte(word)) {
		n, err := tty.Read(buf)
		if err != nil {
			b.Fatalf("%v after %q", err, seen)
		}
		seen = append(seen, buf[:n]...)
	}
	return time.Since(start)
}

// How long it takes until something is on the screen, beside a Bubble Tea program that does nothing, the
// two in turn. The medians and their ratio are reported.
func BenchmarkFirstFrame(b *testing.B) {
	empty := filepath.Join(b.TempDir(), "empty")
	if out, err := exec.Command("go", "build", "-o", empty, "./testdata/empty").CombinedOutput(); err != nil {
		b.Fatalf("%v: %s", err, out)
	}
	ours := binaryPath(b)
	file := filepath.Join(b.TempDir(), "progress.db")
	// What is measured is every day's first screen, so the first day's is passed before.
	first := exec.Command(ours, "practice", "--plain", "--silent", "--progress", file)
	first.Stdin = strings.NewReader("\n\n\n\n\nleave\n")
	if out, err := first.CombinedOutput(); err != nil {
		b.Fatalf("%v: %s", err, out)
	}
	var with, without []time.Duration
	for b.Loop() {
		without = append(without, firstFrame(b, "begin", os.Environ(), empty))
		with = append(with, firstFrame(b, "begin", os.Environ(), ours, "--progress", file))
	}
	slices.Sort(with)
	slices.Sort(without)
	mid := len(with) / 2
	b.ReportMetric(with[mid].Seconds()*1e3, "ms-ours")
	b.ReportMetric(without[mid].Seconds()*1e3, "ms-empty")
	b.ReportMetric(float64(with[mid])/float64(without[mid]), "ratio")
}
