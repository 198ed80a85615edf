package store

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"sparetone/progress"
	"sparetone/progress/pages"
	"sparetone/progress/tables"
)

// Some tests need a second program on the same file: this one, started again as a child that records
// answers and says so after each.

const (
	childFile    = "SPARETONE_TEST_FILE"
	childAnswers = "SPARETONE_TEST_ANSWERS"
	childMemory  = "SPARETONE_TEST_MEMORY" // write what Linux says of the memory it took
	childFor     = "SPARETONE_TEST_FOR"    // stop after a while
	childDeed    = "SPARETONE_TEST_DEED"   // do something else than to record: import, undo, backup, sync or restore
	childExport  = "SPARETONE_TEST_EXPORT" // what is to be imported, or the folder
)

func TestMain(m *testing.M) {
	if path := os.Getenv(childFile); path != "" {
		do := recordMany
		if deed := os.Getenv(childDeed); deed != "" {
			do = func(path string) error { return doOne(path, deed) }
		}
		if err := do(path); err != nil {
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
	if _, _, err := planFor(f, nil, 10*time.Minute); err != nil {
		return err
	}
	session := progress.NewID()
	if err := f.Begin(progress.Session{ID: session, Began: time.Now(), Minutes: 10 * time.Minute}); err != nil {
		return err
	}
	until := time.Now().Add(24 * time.Hour)
	if long, err := time.ParseDuration(os.Getenv(childFor)); err == nil {
		until = time.Now().Add(long)
	}
	for i := 0; i < n && time.Now().Before(until); i++ {
		a := progress.Answer{Session: session, Item: fmt.Sprintf("d/%d/u", i%7), Drill: "d", Seed: uint64(os.Getpid())<<32 | uint64(i), At: time.Now(), Result: progress.Result(1 + i%3), Took: time.Second}
		if a.Result != progress.Right {
			a.TakenFor = fmt.Sprintf("d/%d/u", (i+1)%7)
		}
		// Where another program holds the file too long, the answer is held on to and tried again.
		for err := f.Record(a); err != nil; _, err = f.AtRisk() {
			fmt.Fprintln(os.Stderr, err)
		}
		fmt.Println(a.Seed)
	}
	if os.Getenv(childMemory) != "" {
		status, _ := os.ReadFile("/proc/self/status")
		os.Stdout.Write(status)
	}
	return f.End(session, time.Now())
}

// doOne is the child that does one of the deeds that take longer, and says so when it is done.
func doOne(path, deed string) error {
	fmt.Println("begun")
	if deed == "restore" {
		_, err := Restore(path, "", time.Now)
		if err == nil {
			fmt.Println("done")
		}
		return err
	}
	f, err := Open(path, time.Now)
	if err != nil {
		return err
	}
	defer f.Close()
	switch deed {
	case "backup":
		_, err = f.Backup()
	case "undo":
		_, err = f.UndoImport()
	case "sync":
		_, err = f.Sync(os.Getenv(childExport), SyncHow{Host: "desk", Carry: carried, Other: true})
	default:
		var export *os.File
		if export, err = os.Open(os.Getenv(childExport)); err == nil {
			_, err = f.Import(export, anything)
		}
	}
	if err == nil {
		fmt.Println("done")
	}
	return err
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
	if err := tables.Answers(f.db, func(k tables.AnswerRow) error { seeds[k.Seed]++; return nil }); err != nil {
		t.Fatal(err)
	}
	return seeds
}

// SPARETONE_KILLS=2000 go test -run Killed ./progress/store
func TestWhatWasAcknowledgedOutlivesBeingKilled(t *testing.T) {
	t.Parallel()
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
		if err := f.Close(); err != nil && !errors.Is(err, pages.ErrTorn) {
			t.Fatal(err)
		}
	}
	if total < kills/2 {
		t.Errorf("only %d answers in %d kills: this showed nothing", total, kills)
	}
	t.Logf("%d kills, %d answers acknowledged, none lost", kills, total)
}

// What takes longer is done whole or not at all, whenever the program is killed. Every tenth time it is let alone, so that it
// is known how long it takes just now; the other times it is killed at a moment of that length, and each third of it has its
// share.
//
//	SPARETONE_DEED_KILLS=200 go test -run DeedsAreWhole -timeout 1h -v ./progress/store
func TestDeedsAreWholeOrUndone(t *testing.T) {
	kills := fromEnvironment(t, "SPARETONE_DEED_KILLS", 6)
	const before, more = 300, 900
	const letAlone = 10 // one in so many
	base := filepath.Join(t.TempDir(), "progress.db")
	tenYears(t, base, before)
	file, err := os.ReadFile(base)
	if err != nil {
		t.Fatal(err)
	}
	other := filepath.Join(t.TempDir(), "other.db")
	tenYears(t, other, more)
	export, _ := bothExports(t, openAt(t, other, evening))
	exportPath := filepath.Join(t.TempDir(), "export")
	// The same generator made both: with other ids they are other answers.
	export = regexp.MustCompile(`"kind":"answer","id":"(..)(.{30})"`).ReplaceAllString(export, `"kind":"answer","id":"$2$1"`)
	write(t, exportPath, []byte(export))
	lap := newMachine(t, "lap")
	takeIn(t, lap.File, "export", export)
	lap.synced(t, false)
	lapFile := readWhole(t, filepath.Join(lap.folder, lap.name))
	for _, deed := range []string{"import", "undo", "backup", "restore", "sync"} {
		t.Run(deed, func(t *testing.T) {
			start := file
			if deed == "undo" {
				path := filepath.Join(t.TempDir(), "imported.db")
				write(t, path, file)
				f := openAt(t, path, evening)
				takeIn(t, f, "export", export)
				f.Close()
				var err error
				if start, err = os.ReadFile(path); err != nil {
					t.Fatal(err)
				}
			}
			whole, undone, late := 0, 0, 0
			var thirds [3]int // kills in each
			var length time.Duration
			kills := kills
			if deed == "sync" && os.Getenv("SPARETONE_DEED_KILLS") == "" {
				kills /= 2 // each time it is done twice
			}
			for n := range kills {
				path := filepath.Join(t.TempDir(), "progress.db")
				write(t, path, start)
				if deed == "restore" {
					f := openAt(t, path, evening)
					if _, err := f.Backup(); err != nil {
						t.Fatal(err)
					}
					practised(t, f, 1, 1, 10, 3) // newer than the copy
					f.Close()
				}
				from := exportPath
				if deed == "sync" {
					from = t.TempDir()
					write(t, filepath.Join(from, lap.name), lapFile)
				}
				self, err := os.Executable()
				if err != nil {
					t.Fatal(err)
				}
				cmd := exec.Command(self)
				cmd.Env = append(os.Environ(), childFile+"="+path, childDeed+"="+deed, childExport+"="+from)
				out, err := cmd.StdoutPipe()
				if err != nil {
					t.Fatal(err)
				}
				if err := cmd.Start(); err != nil {
					t.Fatal(err)
				}
				said := bufio.NewReader(out)
				if _, err := said.ReadString('\n'); err != nil {
					t.Fatal(err)
				}
				began := time.Now()
				acknowledged := false
				if n%letAlone == 0 {
					line, _ := said.ReadString('\n')
					acknowledged = line == "done\n"
					length = time.Since(began)
				} else {
					time.Sleep(length * time.Duration(n) / time.Duration(kills))
					if at := int(3 * time.Since(began) / length); at < len(thirds) {
						thirds[at]++
					} else {
						late++
					}
				}
				cmd.Process.Kill()
				if line, _ := said.ReadString('\n'); line == "done\n" {
					acknowledged = true
				}
				cmd.Wait()

				f, err := Open(path, time.Now)
				if err != nil {
					t.Fatalf("kill %d: %v", n, err)
				}
				h, err := f.Check()
				if err != nil || len(h.Damaged) > 0 || h.Stale {
					t.Errorf("kill %d: %+v, %v", n, h, err)
				}
				is, was, will := h.Answers, before, before+more
				switch deed {
				case "backup":
					will, is = 1, 0
					was = 0
					for _, c := range CopiesOf(path) {
						if c.ByHand {
							is++
							if err := prove(c.Path, before); err != nil {
								t.Errorf("kill %d: a copy: %v", n, err)
							}
						}
					}
				case "undo":
					was, will = before+more, before
				case "sync": // what lies in the folder is whole, and the next time does the rest
					if acknowledged {
						wholeFiles(t, from, 2)
					}
					wholeFiles(t, from, 1)
					if _, err := f.Sync(from, SyncHow{Host: "desk", Carry: carried, Other: true}); err != nil {
						t.Errorf("kill %d: %v", n, err)
					}
					wholeFiles(t, from, 2)
					sound(t, f, before+more)
				case "restore":
					was, will = before+10, before+10
					if aside, _ := filepath.Glob(filepath.Join(filepath.Dir(path), "*-set-aside-*.db")); len(aside) == 0 {
						will = -1 // not begun
					}
				}
				switch {
				case is == will:
					whole++
				case is == was && !acknowledged:
					undone++
				default:
					t.Errorf("kill %d: acknowledged: %v, there are %d and not %d or %d", n, acknowledged, is, was, will)
				}
				if err := f.Close(); err != nil && !errors.Is(err, pages.ErrTorn) {
					t.Errorf("kill %d: %v", n, err)
				}
			}
			t.Logf("%d times, it takes %v: killed %d, %d and %d times in its thirds, %d times later; %d whole, %d undone",
				kills, length.Round(time.Millisecond), thirds[0], thirds[1], thirds[2], late, whole, undone)
			if whole == 0 || kills > letAlone && undone == 0 {
				t.Error("the deed was never done, or always: this showed nothing")
			}
			for i, n := range thirds {
				if kills >= 100 && n < kills/5 {
					t.Errorf("killed %d times in its third %d, want %d or more", n, i+1, kills/5)
				}
			}
		})
	}
}

// wholeFiles looks at the files of machines in a folder: all are whole, and there are so many at least.
func wholeFiles(t *testing.T, folder string, least int) {
	t.Helper()
	files, unread, err := readFolder(folder)
	if err != nil || len(unread) > 0 || len(files) < least {
		t.Errorf("%d files, want %d or more; %v, %v", len(files), least, unread, err)
	}
}

// SPARETONE_TOGETHER=1000 go test -run TwoPrograms ./progress/store
// SPARETONE_TEST_FOR=10m SPARETONE_TOGETHER=100000000 go test -run TwoPrograms -timeout 1h -v ./progress/store
func TestTwoProgramsOnOneFile(t *testing.T) {
	t.Parallel()
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
	if len(has) != len(acked) || os.Getenv(childFor) == "" && len(acked) != 2*each {
		t.Errorf("%d answers of %d acknowledged, want %d", len(has), len(acked), 2*each)
	}
	sound(t, f, len(acked))
	t.Logf("%d answers acknowledged, all there", len(acked))
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
