package progress

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"
	"time"
)

// Some tests need a second program on the same file: this one, started again as a child that records
// answers and says so after each.

const (
	childFile    = "SPARETONE_TEST_FILE"
	childAnswers = "SPARETONE_TEST_ANSWERS"
	childMemory  = "SPARETONE_TEST_MEMORY" // write what Linux says of the memory it took
)

func TestMain(m *testing.M) {
	if path := os.Getenv(childFile); path != "" {
		if err := recordMany(path); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

// recordMany is the child: it plays a scripted session and writes the seed of each answer once it is
// kept.
func recordMany(path string) error {
	n, err := strconv.Atoi(os.Getenv(childAnswers))
	if err != nil {
		return err
	}
	f, err := Open(path, time.Now)
	if err != nil {
		return err
	}
	defer f.Close()
	if _, err := NewPlanner(f, nil, 10*time.Minute); err != nil {
		return err
	}
	session := NewID()
	if err := f.Begin(Session{ID: session, Began: time.Now(), Minutes: 10 * time.Minute}); err != nil {
		return err
	}
	for i := range n {
		a := Answer{Session: session, Item: fmt.Sprintf("d/%d/u", i%7), Drill: "d", Seed: uint64(os.Getpid())<<32 | uint64(i), At: time.Now(), Result: Result(1 + i%3), Took: time.Second}
		if a.Result != Right {
			a.TakenFor = fmt.Sprintf("d/%d/u", (i+1)%7)
		}
		if err := f.Record(a); err != nil {
			return err
		}
		fmt.Println(a.Seed)
	}
	if os.Getenv(childMemory) != "" {
		status, _ := os.ReadFile("/proc/self/status")
		os.Stdout.Write(status)
	}
	return f.End(session, time.Now())
}

// child starts this program again on a file.
func child(t *testing.T, path string, answers int) (*exec.Cmd, io.Reader) {
	t.Helper()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(self)
	cmd.Env = append(os.Environ(), childFile+"="+path, fmt.Sprintf("%s=%d", childAnswers, answers))
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, out
}

// acknowledged reads the seeds of the answers a child said were kept, and leaves out a last line that
// was cut off.
func acknowledged(t *testing.T, out io.Reader) []uint64 {
	t.Helper()
	var seeds []uint64
	for in := bufio.NewReader(out); ; {
		line, err := in.ReadString('\n')
		if err != nil {
			return seeds
		}
		seed, err := strconv.ParseUint(line[:len(line)-1], 10, 64)
		if err != nil {
			t.Fatal(err)
		}
		seeds = append(seeds, seed)
	}
}

// seedsIn returns how often each seed is in a file.
func seedsIn(t *testing.T, f *File) map[uint64]int {
	t.Helper()
	seeds := map[uint64]int{}
	if err := answersIn(f.db, func(k kept) error { seeds[k.Seed]++; return nil }); err != nil {
		t.Fatal(err)
	}
	return seeds
}

// SPARETONE_KILLS=2000 go test -run Killed ./progress
func TestWhatWasAcknowledgedOutlivesBeingKilled(t *testing.T) {
	kills := fromEnvironment(t, "SPARETONE_KILLS", 30)
	const onOneFile = 50
	var path string
	var acked []uint64
	total := 0
	for i := range kills {
		if i%onOneFile == 0 {
			path, acked = filepath.Join(t.TempDir(), "progress.db"), nil
		}
		cmd, out := child(t, path, 1_000_000)
		// Sometimes before the file is even there, sometimes in the midst of an answer, however busy the machine.
		said := bufio.NewReader(out)
		if i%2 == 1 {
			if _, err := said.Peek(1); err != nil {
				t.Fatalf("before kill %d: no answer was acknowledged: %v", i+1, err)
			}
		}
		time.Sleep(time.Duration(i*7919%60) * time.Millisecond)
		cmd.Process.Kill()
		fresh := acknowledged(t, said)
		cmd.Wait()
		acked = append(acked, fresh...)
		total += len(fresh)
		f, err := Open(path, time.Now)
		if err != nil {
			t.Fatalf("after kill %d: %v", i+1, err)
		}
		has := seedsIn(t, f)
		for _, seed := range acked {
			if has[seed] != 1 {
				t.Fatalf("after kill %d: answer %x is there %d times", i+1, seed, has[seed])
			}
		}
		sound(t, f, len(has))
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if total < kills/2 {
		t.Errorf("only %d answers in %d kills: this showed nothing", total, kills)
	}
	t.Logf("%d kills, %d answers acknowledged, none lost", kills, total)
}

// SPARETONE_TOGETHER=1000 go test -run TwoPrograms ./progress
func TestTwoProgramsOnOneFile(t *testing.T) {
	each := fromEnvironment(t, "SPARETONE_TOGETHER", 200)
	path := filepath.Join(t.TempDir(), "progress.db")
	one, oneOut := child(t, path, each)
	two, twoOut := child(t, path, each)
	second := make(chan []uint64)
	go func() { second <- acknowledged(t, twoOut) }()
	acked := append(acknowledged(t, oneOut), <-second...)
	if err := one.Wait(); err != nil {
		t.Error(err)
	}
	if err := two.Wait(); err != nil {
		t.Error(err)
	}
	f := openAt(t, path, time.Now())
	has := seedsIn(t, f)
	for _, seed := range acked {
		if has[seed] != 1 {
			t.Errorf("answer %x is there %d times", seed, has[seed])
		}
	}
	if len(has) != 2*each || len(acked) != 2*each {
		t.Errorf("%d answers of %d acknowledged, want %d", len(has), len(acked), 2*each)
	}
	sound(t, f, 2*each)
}

// fromEnvironment returns a number that makes a test longer.
func fromEnvironment(t *testing.T, name string, usual int) int {
	t.Helper()
	text := os.Getenv(name)
	if text == "" {
		return usual
	}
	n, err := strconv.Atoi(text)
	if err != nil {
		t.Fatal(err)
	}
	return n
}
