package measure

import (
	"os/exec"
	"strconv"
	"strings"
	"sync"
)

// First is a command that goes before whatever else keeps the machine busy, as a sound server does on a player's machine. Where this
// process may not have that, it is like any other.
func First(name string, args ...string) *exec.Cmd {
	if !mayGoFirst() {
		return exec.Command(name, args...)
	}
	return exec.Command("nice", append([]string{"-n", first, name}, args...)...)
}

// first is by how much less nice a command is that goes first.
const first = "-11"

// mayGoFirst reports whether nice is there and does not complain; by itself it prints how nice it was made.
var mayGoFirst = sync.OnceValue(func() bool {
	out, err := exec.Command("nice", "-n", first, "nice").CombinedOutput()
	_, wrong := strconv.Atoi(strings.TrimSpace(string(out)))
	return err == nil && wrong == nil
})
