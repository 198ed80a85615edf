package measure

import (
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// What goes first is the command itself with its arguments, in real time as far as that may be.
func TestFirstGoesFirst(t *testing.T) {
	if out, err := First("chrt", "--pid", "0").Output(); !mayGoFirst() {
		t.Log("nothing may go first here")
	} else if err != nil || !strings.Contains(string(out), "SCHED_RR") {
		t.Errorf("%q, %v", out, err)
	}
	if out, err := First("sh", "-c", "echo $0 $1", "a b", "c").Output(); err != nil || string(out) != "a b c\n" {
		t.Errorf("%q, %v", out, err)
	}
	sleeps := exec.Command("sleep", "60")
	if err := sleeps.Start(); err != nil {
		t.Skip(err)
	}
	defer func() { _ = sleeps.Process.Kill(); _ = sleeps.Wait() }()
	for _, c := range []struct {
		put  func(pid int)
		want string
	}{{func(int) { PutFirst(sleeps) }, "SCHED_RR"}, {putBack, "SCHED_OTHER"}} {
		c.put(sleeps.Process.Pid)
		if out, err := exec.Command("chrt", "--pid", strconv.Itoa(sleeps.Process.Pid)).Output(); mayGoFirst() && (err != nil || !strings.Contains(string(out), c.want)) {
			t.Errorf("%q, %v; want %s", out, err, c.want)
		}
	}
}
