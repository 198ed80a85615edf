package measure

import (
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// What goes first is less nice than this process, as far as that may be, and is the command itself with its arguments.
func TestFirstGoesFirst(t *testing.T) {
	niceness := func(c *exec.Cmd) int {
		t.Helper()
		out, err := c.Output()
		if err != nil {
			t.Skip(err)
		}
		n, err := strconv.Atoi(strings.TrimSpace(string(out)))
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	own := niceness(exec.Command("nice"))
	want := own
	if mayGoFirst() {
		want = max(own-11, -20)
	}
	if its := niceness(First("nice")); its != want {
		t.Errorf("it is nice by %d, this process by %d; want %d", its, own, want)
	}
	if out, err := First("sh", "-c", "echo $0 $1", "a b", "c").Output(); err != nil || string(out) != "a b c\n" {
		t.Errorf("%q, %v", out, err)
	}
}
