// Package brisk lets a room's tests take less of a machine. A test file imports it for that alone:
//
//	import _ "sparetone/brisk"
//
// Garbage is collected less often, which took a third of the processor in rooms that ask thousands of questions, and
// temporary files lie in memory where the machine has a folder for that, so that a test does not wait for a disk. What a
// program asks of a disk, such as to sync, it asks as before.
package brisk

import (
	"os"
	"runtime/debug"
)

// heapGrowth is how far the heap may grow between two collections, in percent of what is in use; Go's own choice is 100.
const heapGrowth = 300

func init() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(heapGrowth)
	}
	if os.Getenv("TMPDIR") == "" && roomy(memoryFolder) {
		_ = os.Setenv("TMPDIR", memoryFolder) // else they lie where they would have
	}
}
