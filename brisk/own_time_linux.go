package brisk

import (
	"fmt"
	"os"
	"path/filepath"
	"time"
)

// timeInLine is how long all threads of this process together were ready to run and did not (the second figure of
// /proc/PID/schedstat, in ns; Linux, Documentation/scheduler/sched-stats.rst).
func timeInLine() (all time.Duration) {
	threads, _ := filepath.Glob("/proc/self/task/*/schedstat")
	for _, name := range threads {
		text, err := os.ReadFile(name)
		if err != nil {
			continue // the thread has ended
		}
		var ran, ready int64
		if _, err := fmt.Sscan(string(text), &ran, &ready); err == nil {
			all += time.Duration(ready)
		}
	}
	return all
}
