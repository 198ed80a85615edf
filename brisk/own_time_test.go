package brisk

import (
	"runtime"
	"sync"
	"testing"
	"time"
)

// What a process sleeps is its own time, and so is what it works; for how long its threads wait for a processor is not.
func TestOwnTime(t *testing.T) {
	slept := OwnTime()
	time.Sleep(300 * time.Millisecond)
	if took := slept(); took < 100*time.Millisecond { // the scheduler of Go wakes now and then, and stands in line too
		t.Errorf("sleeping took %v", took)
	}
	if runtime.GOOS != "linux" {
		t.Skip("nobody knows for how long threads stand in line")
	}
	// Twice as many threads as there are processors work at once: each stands in line for half of the time.
	worked, began := OwnTime(), time.Now()
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(2 * runtime.NumCPU()))
	var threads sync.WaitGroup
	for range 2 * runtime.NumCPU() {
		threads.Go(func() {
			for time.Since(began) < 200*time.Millisecond {
			}
		})
	}
	threads.Wait()
	if took, all := worked(), time.Since(began); took > all*3/4 {
		t.Errorf("threads that stand in line took %v of %v", took, all)
	}
}
