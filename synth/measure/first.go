package measure

import (
	"os"
	"os/exec"
	"strconv"
	"sync"
	"testing"
)

// First is a command that goes before whatever else keeps the machine busy, as a sound server does on a player's machine: in real time.
// (To be less nice would not do, since that counts within a session alone.) Where this process may not have that, it is like any other.
func First(name string, args ...string) *exec.Cmd {
	if !mayGoFirst() {
		return exec.Command(name, args...)
	}
	return exec.Command("chrt", append([]string{"--rr", "1", name}, args...)...)
}

// mayGoFirst reports whether there is util-linux's chrt, and it may do that.
var mayGoFirst = sync.OnceValue(func() bool { return exec.Command("chrt", "--rr", "1", "true").Run() == nil })

// PutFirst puts a program that runs before others, where that may be: PulseAudio takes back what it was started with.
func PutFirst(c *exec.Cmd) { putFirst(c.Process.Pid) }

// GoFirst puts this process first until a test ends.
func GoFirst(t testing.TB) {
	putFirst(os.Getpid())
	t.Cleanup(func() { putBack(os.Getpid()) })
}

// putFirst puts all threads of a process first, and with them those that they start.
func putFirst(pid int) {
	if mayGoFirst() {
		_ = exec.Command("chrt", "--rr", "--all-tasks", "--pid", "1", strconv.Itoa(pid)).Run()
	}
}

// putBack takes back that a process goes first.
func putBack(pid int) {
	if mayGoFirst() {
		_ = exec.Command("chrt", "--other", "--all-tasks", "--pid", "0", strconv.Itoa(pid)).Run()
	}
}
