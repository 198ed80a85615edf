package main

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
	"unicode"
	"unicode/utf8"

	"github.com/charmbracelet/x/ansi"
	"github.com/creack/pty"
)

// need skips an end-to-end test that takes real time and other programs, where the environment does not say CI; there it fails
// if one of those programs is missing.
func need(t *testing.T, tools ...string) {
	t.Helper()
	if os.Getenv("CI") == "" {
		t.Skipf("an end-to-end test, with %s: CI=true has it run", strings.Join(tools, ", "))
	}
	for _, tool := range tools {
		if _, err := exec.LookPath(tool); err != nil {
			t.Fatalf("%s is missing, and CI has to have it", tool)
		}
	}
}

// built is the program, built once for all tests.
var built = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "sparetone-test")
	if err != nil {
		return "", err
	}
	path := filepath.Join(dir, "sparetone")
	cmd := exec.Command("go", "build", "-o", path, ".")
	cmd.Env = append(os.Environ(), "CGO_ENABLED=0")
	if out, err := cmd.CombinedOutput(); err != nil {
		return "", &exec.Error{Name: string(out), Err: err}
	}
	return path, nil
})

func TestMain(m *testing.M) {
	code := m.Run()
	if path, err := built(); err == nil {
		os.RemoveAll(filepath.Dir(path))
	}
	os.Exit(code)
}

func binaryPath(t testing.TB) string {
	t.Helper()
	path, err := built()
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// terminal is a program in a pseudo-terminal.
type terminal struct {
	t    *testing.T
	cmd  *exec.Cmd
	tty  *os.File
	mu   sync.Mutex
	seen bytes.Buffer
	eof  chan struct{}

	columns int
}

// inTerminal starts a command in a pseudo-terminal of 80 columns and 24 rows, of 256 colours unless env has another
// TERM.
func inTerminal(t *testing.T, cmd *exec.Cmd, env ...string) *terminal {
	t.Helper()
	cmd.Env = append(append(cmd.Environ(), "TERM=xterm-256color"), env...)
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: 24, Cols: 80})
	if err != nil {
		t.Fatal(err)
	}
	term := &terminal{t: t, cmd: cmd, tty: tty, eof: make(chan struct{}), columns: 80}
	t.Cleanup(func() { cmd.Process.Kill(); tty.Close() })
	go func() {
		defer close(term.eof)
		buf := make([]byte, 1<<14)
		for {
			n, err := tty.Read(buf)
			term.mu.Lock()
			term.seen.Write(buf[:n])
			term.mu.Unlock()
			if err != nil {
				return
			}
		}
	}()
	return term
}

// text is what was written so far, without escape sequences.
func (term *terminal) text() string {
	term.mu.Lock()
	defer term.mu.Unlock()
	return ansi.Strip(term.seen.String())
}

// patience is how long a program is waited for that may share its machine with many others. No promise is measured by it.
const patience = time.Minute

// await waits until the program has written a word since the last await, and forgets what came before.
func (term *terminal) await(word string) {
	term.t.Helper()
	for deadline := time.Now().Add(patience); time.Now().Before(deadline); time.Sleep(10 * time.Millisecond) {
		if strings.Contains(term.text(), word) {
			term.mu.Lock()
			term.seen.Reset()
			term.mu.Unlock()
			return
		}
	}
	term.t.Fatalf("%q did not show; the screen has\n%s", word, term.text())
}

func (term *terminal) press(keys string) {
	term.t.Helper()
	if _, err := io.WriteString(term.tty, keys); err != nil {
		term.t.Fatal(err)
	}
}

// ended waits for the program's end and returns its exit status.
func (term *terminal) ended() int {
	term.t.Helper()
	select {
	case <-term.eof:
	case <-time.After(patience):
		term.t.Fatalf("it does not end; the screen has\n%s", term.text())
	}
	term.cmd.Wait()
	return term.cmd.ProcessState.ExitCode()
}

// screen has the whole screen painted again, by giving the terminal another width, and returns it.
func (term *terminal) screen() string {
	term.t.Helper()
	term.columns = 161 - term.columns
	term.mu.Lock()
	term.seen.Reset()
	term.mu.Unlock()
	if err := pty.Setsize(term.tty, &pty.Winsize{Rows: 24, Cols: uint16(term.columns)}); err != nil {
		term.t.Fatal(err)
	}
	last := ""
	for range 100 {
		time.Sleep(100 * time.Millisecond)
		if text := term.text(); text != "" && text == last {
			return text
		}
		last = term.text()
	}
	term.t.Fatal("the screen does not come to rest")
	return ""
}

// becomes has the screen painted again until it is as is wanted, and returns it: a new size may be drawn before a key is answered
// that was pressed earlier.
func (term *terminal) becomes(what string, wanted func(text string) bool) string {
	term.t.Helper()
	text := ""
	for deadline := time.Now().Add(patience); time.Now().Before(deadline); {
		if text = term.screen(); wanted(text) {
			return text
		}
	}
	term.t.Fatalf("%s does not show; the screen has\n%s", what, text)
	return ""
}

// shows has the screen painted again until it has a text, and returns it.
func (term *terminal) shows(want string) string {
	term.t.Helper()
	return term.becomes(fmt.Sprintf("%q", want), func(text string) bool { return strings.Contains(text, want) })
}

// shownBefore reports whether a screen shows what will be asked.
func shownBefore(text string) bool {
	return strings.Contains(text, "Something new") || strings.Contains(text, "More shapes")
}

// answer gives some answer to the question that shows, in the form it asks for, and goes on.
func (term *terminal) answer() {
	term.t.Helper()
	for deadline := time.Now().Add(patience); time.Now().Before(deadline); time.Sleep(50 * time.Millisecond) {
		keys := ""
		text := term.screen()
		switch {
		case strings.Contains(text, "Waiting for the sound"):
			continue
		case shownBefore(text):
			keys = "0"
		case strings.Contains(text, "go on"):
			term.press("\r")
			term.becomes("what comes after the answer", func(text string) bool { return !strings.Contains(text, "go on") || shownBefore(text) })
			return
		case strings.Contains(text, " degree"):
			keys = "rrrr\r"
		case strings.Contains(text, " fret"):
			keys = "\x1b[B\r" // a neck that nobody touched is no answer
		case strings.Contains(text, "Your answer"):
			keys = "C\r"
		case strings.Contains(text, " answer"):
			keys = "1"
		default:
			continue
		}
		term.press(keys)
		// Keys that were pressed twice would answer what comes next.
		term.becomes("an answer to "+keys, func(now string) bool { return !slices.Equal(strings.Fields(now), strings.Fields(text)) })
	}
	term.t.Fatalf("no question shows; the screen has\n%s", term.text())
}

// leaves ends practice by its keys, after so many answers, and the program with it.
func (term *terminal) leaves(answers int) {
	term.t.Helper()
	if strings.Contains(term.screen(), "Your answer") {
		term.press("\x1b") // no longer typing
		term.screen()
	}
	term.press("q")
	term.shows(fmt.Sprintf("%d questions", answers))
	term.press("q")
	if code := term.ended(); code != 0 {
		term.t.Errorf("exit status %d", code)
	}
}

// firstRun accepts all that a stranger is asked before the first practice.
func (term *terminal) firstRun() {
	term.t.Helper()
	for _, asked := range []string{"What do you play", "Which hand", "Can you hear", "How much do you know", "Before you begin"} {
		term.await(asked)
		term.press("\r")
	}
	term.await("by ear only")
}

// answer is an answer as the file has it.
type answer struct{ drill, question string }

// answers reads what a progress file holds, oldest first.
func answers(t *testing.T, path string) []answer {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	rows, err := db.Query("SELECT drill, question FROM answers JOIN items ON items.n = item ORDER BY answers.n")
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	var all []answer
	for rows.Next() {
		var a answer
		if err := rows.Scan(&a.drill, &a.question); err != nil {
			t.Fatal(err)
		}
		all = append(all, a)
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return all
}

// A stranger's first practice from the first screen to the last, by eye, with the device absent.
func TestPracticeWithoutSound(t *testing.T) {
	file := filepath.Join(t.TempDir(), "new", "folder", "progress.db")
	cmd := exec.Command(binaryPath(t), "--progress", file)
	cmd.Env = append(os.Environ(), "XDG_RUNTIME_DIR="+t.TempDir(), "PULSE_SERVER=unix:/nonexistent")
	term := inTerminal(t, cmd)
	term.firstRun()
	term.press("\r")
	for range 3 {
		term.answer()
	}
	term.leaves(3)
	if got := answers(t, file); len(got) != 3 {
		t.Errorf("the file has %d answers, 3 were given", len(got))
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the file is %v, %v", info.Mode(), err)
	}
}

// Whatever ends it in the middle, the terminal is left as it was, and the next time goes on from there.
func TestQuitInTheMiddleAndGoOn(t *testing.T) {
	t.Parallel()
	file := filepath.Join(t.TempDir(), "progress.db")
	given := 0
	for round, end := range []os.Signal{syscall.SIGTERM, syscall.SIGHUP, nil} {
		cmd := exec.Command(binaryPath(t), "--progress", file, "--silent")
		term := inTerminal(t, cmd)
		if round == 0 {
			term.firstRun()
		} else {
			term.await("by ear only")
		}
		term.press("\r")
		for range 2 {
			term.answer()
			given++
		}
		term.screen()
		if end == nil {
			term.press("\x03")
		} else if err := cmd.Process.Signal(end); err != nil {
			t.Fatal(err)
		}
		if code := term.ended(); code != 0 {
			t.Errorf("after %v: exit status %d", end, code)
		}
		term.mu.Lock()
		last := term.seen.String()
		term.mu.Unlock()
		for name, off := range map[string]string{"the other screen": "\x1b[?1049l", "the hidden cursor": "\x1b[?25h", "the mouse": "\x1b[?1002l", "pasting in brackets": "\x1b[?2004l"} {
			if !strings.Contains(last, off) {
				t.Errorf("after %v: %s is left on: %q", end, name, last)
			}
		}
		if got := answers(t, file); len(got) != given {
			t.Errorf("after %v: the file has %d answers, %d were given", end, len(got), given)
		}
	}
}

// plainSession is a practice in plain mode, driven line by line.
type plainSession struct {
	cmd *exec.Cmd
	in  io.WriteCloser
	out *lineReader
}

// lineReader collects what is written and can wait for a word.
type lineReader struct {
	mu   sync.Mutex
	text strings.Builder
}

func (r *lineReader) Write(p []byte) (int, error) {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.text.Write(p)
}

func (r *lineReader) String() string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return r.text.String()
}

func (r *lineReader) await(t *testing.T, pattern string, times int) {
	t.Helper()
	re := regexp.MustCompile(pattern)
	for deadline := time.Now().Add(patience); time.Now().Before(deadline); time.Sleep(time.Millisecond) {
		if len(re.FindAllStringIndex(r.String(), -1)) >= times {
			return
		}
	}
	t.Fatalf("%q did not come %d times in\n%s", pattern, times, r.String())
}

// startPlain starts a silent practice in lines of text that asks at once, the same questions each time the test is run.
func startPlain(t *testing.T, args ...string) *plainSession {
	t.Helper()
	return startLines(t, os.Environ(), append([]string{"practice", "--plain", "--silent", "--at-once", "--seed", "1"}, args...)...)
}

func startLines(t *testing.T, env []string, args ...string) *plainSession {
	t.Helper()
	program := binaryPath(t) // building it takes its own time
	ctx, cancel := context.WithTimeout(context.Background(), 5*patience)
	t.Cleanup(cancel)
	s := &plainSession{cmd: exec.CommandContext(ctx, program, args...), out: &lineReader{}}
	s.cmd.Env, s.cmd.Stdout, s.cmd.Stderr = env, s.out, s.out
	var err error
	if s.in, err = s.cmd.StdinPipe(); err != nil {
		t.Fatal(err)
	}
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.cmd.Process.Kill() })
	return s
}

// anyAnswer is an answer to a question of any form: what comes after the one that is understood is no
// more than a word that does nothing.
const anyAnswer = "2\nR R R R\n0 0 0 0\nC\n"

// begin accepts all that a stranger is asked, and begins.
func (s *plainSession) begin() {
	for range 5 {
		io.WriteString(s.in, "\n")
	}
	io.WriteString(s.in, "\n")
}

// Every answer that was acknowledged is in the file, however the program ended.
func TestNothingIsLostToAKill(t *testing.T) {
	file := filepath.Join(t.TempDir(), "progress.db")
	acknowledged := 0
	for round := range 8 {
		s := startPlain(t, "--progress", file)
		if round == 0 {
			s.begin()
		} else {
			io.WriteString(s.in, "\n")
		}
		for n := range round%3 + 1 {
			s.out.await(t, `Question \d`, n+1)
			io.WriteString(s.in, anyAnswer)
			s.out.await(t, "It needs practice", n+1)
			acknowledged++
			if n < round%3 {
				io.WriteString(s.in, "\n")
			}
		}
		s.cmd.Process.Kill()
		s.cmd.Wait()
	}
	if got := answers(t, file); len(got) != acknowledged {
		t.Errorf("the file has %d answers, %d were acknowledged", len(got), acknowledged)
	}
}

// A screen reader's session is printable text and newlines.
func TestPlainIsPlain(t *testing.T) {
	s := startPlain(t, "--progress", filepath.Join(t.TempDir(), "p.db"))
	s.begin()
	for n := range 4 {
		s.out.await(t, `Question \d`, n+1)
		io.WriteString(s.in, "help\nwhy\nnonsense\n"+anyAnswer)
		s.out.await(t, "It needs practice", n+1)
		io.WriteString(s.in, "\n")
	}
	s.out.await(t, `Question \d`, 5)
	io.WriteString(s.in, "leave\n")
	if err := s.cmd.Wait(); err != nil {
		t.Error(err)
	}
	printableOnly(t, s.out.String())
}

// Whoever says what to practise is asked at once, in printable text; the menu comes after.
func TestPlainBeginsAtOnce(t *testing.T) {
	lesson := filepath.Join(t.TempDir(), "lesson.toml")
	if err := os.WriteFile(lesson, []byte("[[step]]\nid = \"one\"\ndrill = \"shape-name\"\nasks = [\"major\", \"minor\"]\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"--drill", "shape-name"}, {"--lesson", lesson}} {
		s := startPlain(t, append(args, "--progress", filepath.Join(t.TempDir(), "p.db"))...)
		s.out.await(t, `Question 1\. `, 1)
		if strings.Contains(s.out.String(), "An empty line begins") {
			t.Errorf("%v: there is a menu first:\n%s", args, s.out.String())
		}
		io.WriteString(s.in, "stop\n")
		s.out.await(t, "An empty line begins", 1)
		io.WriteString(s.in, "leave\n")
		if err := s.cmd.Wait(); err != nil {
			t.Error(err)
		}
		printableOnly(t, s.out.String())
	}
}

// printableOnly checks that a text is printable UTF-8 and newlines, without what a screen reader would spell
// out.
func printableOnly(t *testing.T, text string) {
	t.Helper()
	if !utf8.ValidString(text) {
		t.Errorf("not UTF-8: %q", text)
	}
	for _, r := range text {
		if r != '\n' && (!unicode.IsPrint(r) || strings.ContainsRune("─│┼═╪●○└┘┴♭♯", r)) {
			t.Fatalf("%q in plain output:\n%s", r, text)
		}
	}
}

// The README's first command, as a stranger types it: built from source, a few answers, left.
func TestGoRun(t *testing.T) {
	if os.Getenv("SPARETONE_GO_RUN") == "" {
		t.Skip("set SPARETONE_GO_RUN=1 to build and run the program as the README does")
	}
	file := filepath.Join(t.TempDir(), "progress.db")
	cmd := exec.Command("go", "run", "./cmd/sparetone")
	cmd.Dir = filepath.Join("..", "..")
	cmd.Env = append(os.Environ(), "SPARETONE_PROGRESS="+file)
	term := inTerminal(t, cmd)
	term.firstRun()
	term.press("\r")
	for range 3 {
		term.answer()
	}
	term.press("\x03")
	if code := term.ended(); code != 0 {
		t.Errorf("exit status %d", code)
	}
	if got := answers(t, file); len(got) != 3 {
		t.Errorf("the file has %d answers, 3 were given", len(got))
	}
}
