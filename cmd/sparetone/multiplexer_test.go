package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/synth/measure"
)

// multiplexed is a shell in tmux, or in GNU screen within it. GNU screen is as it comes, and so without a
// second screen for programs to draw on.
type multiplexed struct {
	t      *testing.T
	socket string
}

func inMultiplexer(t *testing.T, within string) *multiplexed {
	t.Helper()
	m := &multiplexed{t, filepath.Join(t.TempDir(), "tmux")}
	t.Cleanup(func() { m.tmux("kill-server") })
	screens := t.TempDir()
	if err := os.Chmod(screens, 0o700); err != nil { // else GNU screen does not use it
		t.Fatal(err)
	}
	m.tmux("-f", os.DevNull, "new-session", "-d", "-x", "80", "-y", "24",
		"-e", "SPARETONE_PROGRESS="+filepath.Join(t.TempDir(), "p.db"), "-e", "SCREENDIR="+screens,
		strings.TrimSpace(within+" env 'PS1=ready> ' bash --norc -i"))
	m.await("ready>")
	return m
}

func (m *multiplexed) tmux(args ...string) string {
	m.t.Helper()
	out, err := measure.First("tmux", append([]string{"-S", m.socket}, args...)...).CombinedOutput()
	if err != nil && args[0] != "kill-server" {
		m.t.Fatalf("tmux %v: %v: %s", args, err, out)
	}
	return string(out)
}

// press presses keys, by the names that tmux has for them.
func (m *multiplexed) press(keys ...string) {
	m.t.Helper()
	m.tmux(append([]string{"send-keys"}, keys...)...)
}

// await waits until a text shows, and returns the screen with its colours.
func (m *multiplexed) await(text string) string {
	m.t.Helper()
	shows := ""
	for deadline := time.Now().Add(patience); time.Now().Before(deadline); time.Sleep(50 * time.Millisecond) {
		if shows = m.tmux("capture-pane", "-p"); strings.Contains(shows, text) {
			return m.tmux("capture-pane", "-p", "-e")
		}
	}
	m.t.Fatalf("%q does not show:\n%s", text, shows)
	return ""
}

// In tmux and in GNU screen there are colours, keys work, the window may change, a pause leaves the shell as
// it was and can be ended, and nothing stays behind at the end.
func TestInMultiplexers(t *testing.T) {
	t.Parallel()
	for name, within := range map[string]string{"tmux": "", "screen": "screen -c " + os.DevNull} {
		t.Run(name, func(t *testing.T) {
			need(t, "tmux", "bash", name)
			m := inMultiplexer(t, within)
			m.press(binaryPath(t)+" practice --silent --at-once --drill shape-name", "Enter")
			if shows := m.await("begin"); !strings.Contains(shows, "\x1b[38;5;") {
				t.Errorf("there are no colours:\n%q", shows)
			}
			m.press("Enter")
			m.await("Which chord")
			m.tmux("resize-window", "-x", "100", "-y", "30")
			m.await(fmt.Sprintf("\n%s%s", strings.Repeat(" ", 14), "Which chord")) // in the middle of 100 columns
			m.press("C-z")
			m.clean("Stopped")
			m.press("fg", "Enter")
			m.await("Which chord")
			m.press("1")
			m.await("go on")
			m.press("C-c")
			m.clean("")
			pid := filepath.Join(t.TempDir(), "pid")
			m.press("(echo $BASHPID >"+pid+"; exec "+binaryPath(t)+" practice --silent --at-once --drill shape-name)", "Enter")
			m.await("begin")
			m.press("Enter")
			m.await("Which chord")
			process, err := os.ReadFile(pid)
			if err != nil {
				t.Fatal(err)
			}
			if out, err := exec.Command("kill", strings.TrimSpace(string(process))).CombinedOutput(); err != nil { // with SIGTERM
				t.Fatalf("%v: %s", err, out)
			}
			m.clean("")
		})
	}
}

// clean waits for the shell, checks that nothing of the program is left, and asks the shell for the terminal's
// state.
func (m *multiplexed) clean(says string) {
	m.t.Helper()
	m.await("ready>")
	shows := m.await(says)
	if strings.ContainsAny(shows, "┼╪│") || strings.Contains(shows, "? help") {
		m.t.Errorf("the program's screen is left:\n%s", shows)
	}
	m.press("clear; stty -a | grep -owE -- '-?(echo|icanon|isig)' | sort | tr '\\n' ' '", "Enter")
	m.await("echo icanon isig ready>")
	if state := strings.TrimSpace(m.tmux("display", "-p", "#{mouse_any_flag}#{cursor_flag}")); state != "01" {
		m.t.Errorf("the mouse and the cursor are %s, not 01", state)
	}
	m.press("clear", "Enter")
	m.await("ready>")
}
