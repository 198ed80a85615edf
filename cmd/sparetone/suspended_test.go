//go:build unix

package main

import (
	"encoding/json"
	"io"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// suspend stops a program for a while, as ctrl+z and fg do.
func suspend(t *testing.T, cmd *exec.Cmd, d time.Duration) {
	t.Helper()
	if err := cmd.Process.Signal(syscall.SIGSTOP); err != nil {
		t.Fatal(err)
	}
	time.Sleep(d)
	if err := cmd.Process.Signal(syscall.SIGCONT); err != nil {
		t.Fatal(err)
	}
}

// An answer took as long as from its question to its end, without what the program was suspended, on either face.
func TestTimeSuspendedIsNoTimeOfThinking(t *testing.T) {
	const d = 4 * time.Second
	for face, answered := range map[string]func(t *testing.T, file string){
		"lines": func(t *testing.T, file string) {
			s := startPlain(t, "--drill", "shape-name", "--progress", file)
			s.out.await(t, `Question \d`, 1)
			suspend(t, s.cmd, d)
			io.WriteString(s.in, "1\n")
			s.out.await(t, "It needs practice", 1)
		},
		"screen": func(t *testing.T, file string) {
			cmd := exec.Command(binaryPath(t), "practice", "--silent", "--at-once", "--drill", "shape-name", "--progress", file)
			term := inTerminal(t, cmd)
			term.await("begin")
			term.press("\r")
			term.await("Which chord")
			suspend(t, cmd, d)
			term.answer()
		},
	} {
		t.Run(face, func(t *testing.T) {
			t.Parallel()
			file := filepath.Join(t.TempDir(), "p.db")
			binaryPath(t) // building it takes its own time
			began := time.Now()
			answered(t, file)
			all := time.Since(began)
			var took time.Duration
			out, _, _ := called(t, "", "progress", "export", "--progress", file)
			for rows := json.NewDecoder(strings.NewReader(out)); rows.More(); {
				var row struct {
					Took int64 `json:"took_ms"`
				}
				if err := rows.Decode(&row); err != nil {
					t.Fatal(err)
				}
				took += time.Duration(row.Took) * time.Millisecond
			}
			if took == 0 || took > all-d+time.Second {
				t.Errorf("the answer took %v of the %v, of which %v were suspended", took, all, d)
			}
		})
	}
}
